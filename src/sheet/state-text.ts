import { fromMm } from '../core/lengths/length.ts';
import { writeGap } from '../core/lengths/write.ts';
import type { Note } from '../core/report-types.ts';
import type { Flow } from './flow.ts';
import { figureText, STATE_TEXTS, type SheetMatter } from './wording.ts';

/** The state of the chains in words, with what is missing, said twice or contradictory, and what stops a plan. */
export function readableCheck(flow: Flow, { report }: SheetMatter): void {
  const { chains, unit } = report;
  flow.paragraph(`Chains of lengths: ${STATE_TEXTS[chains.state]}`, 10.5, { bold: true });
  const say = (text: string): void => flow.paragraph(`– ${text}`, 9.5, { indent: 3 });
  for (const { between, why } of chains.missing)
    say(`Missing: a length between ${between.join(' and ')}. ${why}`);
  for (const { lengths } of chains.doubled) say(`Said twice: ${lengths.join(', ')} form a loop that agrees.`);
  for (const { lengths, gap_mm, within_limits } of chains.clashes)
    say(
      `Clash: ${lengths.join(', ')} miss one another by ${writeGap(fromMm(gap_mm), unit)}` +
        (within_limits ? ', possible within their limits.' : ', more than their limits allow.'),
    );
  if (chains.impossible)
    say(
      `No part can meet this drawing: ${chains.impossible.lengths.join(', ')} are short by ` +
        `${figureText(chains.impossible.short_by_mm, unit)} ${unit}.`,
    );
  for (const { length, written, closes_at_mm, hint } of chains.suspects)
    say(
      `Perhaps misread: ${length}, written ${written}, would close at ${figureText(closes_at_mm, unit)}. ${hint ?? ''}`,
    );
  if (report.plan === null)
    flow.paragraph('There is no plan for this part as it stands.', 10.5, { bold: true });
  notes(flow, report.errors);
}

/** Problems and warnings, each with its place. */
export function notes(flow: Flow, all: readonly Note[]): void {
  for (const { where, say } of all)
    flow.paragraph(`– ${where === '' ? '' : `${where}: `}${say}`, 9.5, { indent: 3 });
}
