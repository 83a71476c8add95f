import type { Report } from '../core/report-types.ts';
import { count } from './show.ts';

export const places = [
  { id: 'draw', name: 'Draw', what: 'profile and sizes' },
  { id: 'check', name: 'Check', what: 'chains, requirements and fits' },
  { id: 'hold', name: 'Hold', what: 'bar, holdings and lathe' },
  { id: 'cut', name: 'Cut', what: 'cuts one after another' },
  { id: 'print', name: 'Print', what: 'the sheet' },
  { id: 'turn', name: 'Turn', what: 'at the lathe' },
] as const;

export type PlaceId = (typeof places)[number]['id'];

/** What waits in a place: a count for the eye and a sentence for everyone. `count` 0 where nothing does. */
export type Attention = { readonly count: number; readonly say: string };

const nothing: Attention = { count: 0, say: '' };
const waiting = (n: number, one: string, many?: string): Attention =>
  n === 0 ? nothing : { count: n, say: count(n, one, many) };

/** Errors in what was typed: they point into the file, or at one thing of the part. */
const isTyped = (where: string): boolean =>
  /^(title|unit|material|general|faces|points|segments|lengths|edges|holes|crossings|requirements|matched)\b/.test(
    where,
  );

/** For each place, what wants attention in it now. While the plan is being worked out nothing is said of it. */
export function attention(report: Report, planning = false): Readonly<Record<PlaceId, Attention>> {
  const { chains, plan } = report;
  const loops = chains.missing.length + chains.clashes.length + (chains.impossible ? 1 : 0);
  const unmet = report.requirements.filter((row) => row.meets_worst === false).length;
  const scanned = report.warnings.filter(({ code }) => code === 'scan-disagrees').length;
  const soft = plan?.stiffness.filter((row) => !row.ok).length ?? 0;
  const drifting = plan?.chart.filter((row) => !row.ok).length ?? 0;
  const typed = report.errors.filter((error) => isTyped(error.where) && error.where !== 'segments').length;
  // What is open or unreadable is said in Draw and Check; Hold counts only what is its own to settle.
  const unheld = !planning && !plan && typed + loops === 0 && Object.keys(chains.stations).length > 1;
  return {
    draw: waiting(typed, 'entry to put right', 'entries to put right'),
    check: waiting(loops + unmet + scanned, 'thing to settle', 'things to settle'),
    hold: unheld
      ? { count: 1, say: 'no way to hold it' }
      : waiting(soft, 'stretch bends too far', 'stretches bend too far'),
    cut: waiting(drifting, 'length leaves its limits', 'lengths leave their limits'),
    print: nothing,
    turn: nothing,
  };
}
