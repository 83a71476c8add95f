import type { ChainsReport } from '../core/chains/types.ts';
import { fromMm } from '../core/lengths/length.ts';
import { writeGap } from '../core/lengths/write.ts';
import type { Report } from '../core/report-types.ts';
import { wrapped } from './page.ts';
import { sizeText } from './size-text.ts';

const sentences: Readonly<Record<ChainsReport['state'], string>> = {
  closed: 'The sizes close: every face and point is placed, and none is said twice.',
  doubled: 'The sizes close, and something is said twice.',
  open: 'The sizes are open: something is not placed yet.',
  clashing: 'The sizes clash: they contradict one another.',
};

/** How the drawing's lengths hang together: the state in a sentence, then what is wrong, one line each. */
export function chainLines({ chains, unit }: Report): string[] {
  const size = (mm: number) => sizeText(mm, unit, 'fine');
  const lines: string[] = [];
  for (const { between, why } of chains.missing)
    lines.push(`missing: a length between ${between.join(' and ')}: ${why}`);
  for (const { lengths } of chains.doubled)
    lines.push(`said twice: ${lengths.join(', ')} agree with one another`);
  for (const { lengths, gap_mm, within_limits } of chains.clashes) {
    const limits = within_limits ? ', though within their limits' : '';
    lines.push(`clash: ${lengths.join(', ')} are off by ${writeGap(fromMm(gap_mm), unit)}${limits}`);
  }
  if (chains.impossible) {
    const { lengths, faces, short_by_mm } = chains.impossible;
    lines.push(`impossible: ${[...lengths, ...faces].join(', ')} leave no part by ${size(short_by_mm)}`);
  }
  for (const { length, written, closes_at_mm, hint } of chains.suspects)
    lines.push(
      `suspect: ${length}, written ${written}, would close at ${size(closes_at_mm)}${hint ? ` (${hint})` : ''}`,
    );
  return [...wrapped('', sentences[chains.state]), ...lines.flatMap((line) => wrapped('  ', line))];
}
