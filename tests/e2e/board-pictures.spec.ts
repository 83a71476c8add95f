import { expect, test, type Page } from '@playwright/test';
import { readFile } from 'node:fs/promises';
import { dropFile } from './app.ts';

const examples = [
  ['blower-shaft.json', 'Forge-blower shaft'],
  ['idler-axle-open.json', 'Idler axle'],
  ['winch-spindle-clash.json', 'Winch spindle'],
] as const;
const sizes = [
  { width: 1440, height: 900 },
  { width: 1024, height: 768 },
  { width: 390, height: 844 },
] as const;

/** An example on the board; dropped, as a small screen has no list of them. */
async function shown(page: Page, file: string, title: string): Promise<void> {
  const text = await readFile(new URL(`../../static/examples/${file}`, import.meta.url), 'utf8');
  await dropFile(page, file, text);
  await expect(page.getByText(`${file} is on the board.`)).toBeVisible();
  await expect(page).toHaveTitle(new RegExp(`^${title}`));
  await page.evaluate(() => document.fonts.ready);
}

/**
 * The board as it looked when it was kept. Each machine draws letters and edges its own way, so a pixel may be well off
 * and one in 125 different; a kind of line or label that went is more than that.
 */
for (const scheme of ['light', 'dark'] as const) {
  for (const size of sizes) {
    test(`the board with the examples, ${scheme}, ${size.width} wide`, async ({ page }) => {
      await page.emulateMedia({ colorScheme: scheme, reducedMotion: 'reduce' });
      await page.setViewportSize(size);
      await page.goto('/');
      for (const [file, title] of examples) {
        await shown(page, file, title);
        await expect(page.getByLabel(/^Drawing board/)).toHaveScreenshot(
          `${file.replace('.json', '')}-${scheme}-${size.width}.png`,
          { threshold: 0.35, maxDiffPixelRatio: 0.008, animations: 'disabled', scale: 'css' },
        );
      }
    });
  }
}
