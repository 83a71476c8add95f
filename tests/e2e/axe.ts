import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';

/** What an audit asks for, beside what standards demand. */
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

export type Finding = { readonly serious: boolean; readonly say: string };

/**
 * What axe finds on the page, each rule with the elements that break it. In one run on the page itself, and only what
 * breaks a rule worked out: describing all that keeps to one takes several times as long as the finding. The sheet in
 * the browser's own viewer is not ours to mend.
 */
export async function axeFindings(page: Page): Promise<Finding[]> {
  const { violations } = await new AxeBuilder({ page })
    .options({ resultTypes: ['violations'] })
    .withTags(TAGS)
    .exclude('iframe')
    .setLegacyMode(true)
    .analyze();
  return violations.map(({ id, impact, nodes }) => ({
    serious: impact === 'serious' || impact === 'critical',
    say: `${id}: ${nodes.map(({ html }) => html).join(' | ')}`,
  }));
}

/** Of these the ones that keep somebody from something. */
export const seriousFindings = async (page: Page): Promise<string[]> =>
  (await axeFindings(page)).filter(({ serious }) => serious).map(({ say }) => say);
