import { type Length, pm } from '../lengths/length.ts';
import type { ResolvedLathe, ResolvedPart } from '../part/resolved.ts';
import type { Problem } from '../problem.ts';
import type { PinItem } from './pins.ts';
import type { Refused } from './way.ts';
import { size } from './words.ts';

/** What comes back where nothing is planned: the reasons. */
export type NoPlan = {
  readonly plan: null;
  readonly outline: null;
  readonly errors: readonly Problem[];
  readonly warnings: readonly Problem[];
};

/** Steps that are planned: well over any shaft, few enough that a plan is there within a second or so. */
export const MOST_STEPS = 500;

export function tooMany(count: number): NoPlan {
  const say = `${count} steps are more than a plan is made for (${MOST_STEPS}).`;
  const problem: Problem = { code: 'too-many', where: 'segments', say };
  return { plan: null, outline: null, errors: [problem], warnings: [] };
}

export function noBar(largest: Length, lathe: ResolvedLathe, settled: string | undefined): NoPlan {
  const d = size(pm(largest + lathe.cut.allowance), lathe);
  const problem: Problem = {
    code: 'no-bar',
    where: settled === undefined ? 'bars.diameters' : 'pins.bar',
    say:
      settled === undefined
        ? `No bar in the lathe file cleans up the largest diameter: order one of at least ${d}.`
        : `The bar that was settled, ${settled}, is smaller than the largest diameter: it takes at least ${d}.`,
    facts: { largest_mm: largest / 1e9 },
  };
  return { plan: null, outline: null, errors: [problem], warnings: [] };
}

/** Code `out-of-swing`: the thinnest bar that would do does not turn over the bed. */
export function outOfSwing(bar: Length, lathe: ResolvedLathe): NoPlan {
  const problem: Problem = {
    code: 'out-of-swing',
    where: 'swing',
    say: `A bar of ${size(bar, lathe)} does not turn over the bed: the lathe swings ${size(lathe.swing, lathe)}.`,
    facts: { bar_mm: bar / 1e9, swing_mm: lathe.swing / 1e9 },
  };
  return { plan: null, outline: null, errors: [problem], warnings: [] };
}

/** Reasons told in full; of what else stands in the way only the number of ways is said. */
const TOLD = 3;

/**
 * Code `no-way`: every way was refused. The sentence tells the commonest reasons once each, by the case that comes
 * nearest (the shortest); `facts.ways` has every way with its own reason.
 */
export function noWay(refused: readonly Refused[], part: ResolvedPart): NoPlan {
  const pinned = Object.keys(part.pins).length > 0;
  const problem: Problem = {
    code: 'no-way',
    where: pinned ? 'pins' : 'plan',
    say: `No way to hold and cut this part${pinned ? ' with what you have settled about the plan' : ''} was found. ${sayReasons(refused)}`.trim(),
    facts: { ways: refused.map(({ name, why }) => `${name}: ${why}`) },
  };
  return { plan: null, outline: null, errors: [problem], warnings: [] };
}

/** What stands in the way, reasons of one kind (the same up to their first colon) taken together, most ways first. */
function sayReasons(refused: readonly Refused[]): string {
  const kinds = new Map<string, string[]>();
  for (const { why } of refused) {
    const kind = why.split(': ')[0] ?? why;
    kinds.set(kind, [...(kinds.get(kind) ?? []), why]);
  }
  const groups = [...kinds.values()].sort((a, b) => b.length - a.length);
  const shortest = (whys: readonly string[]): string =>
    whys.reduce((best, why) => (why.length < best.length ? why : best));
  if (groups.length === 1) return groups.map((whys) => `${capital(shortest(whys))}.`).join('');
  const told = groups
    .slice(0, TOLD)
    .map((whys) => `${whys.length} of ${refused.length} ways: ${shortest(whys)}.`);
  const rest = groups.slice(TOLD).flat().length;
  return [...told, ...(rest ? [`${rest} more: other reasons.`] : [])].join(' ');
}

const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** Something settled that stands in the way of every plan. */
export const notKept = ({ where, words }: PinItem): Problem => ({
  code: 'pin-not-kept',
  where,
  say: `What was settled, ${words}, cannot be kept; without it there is a plan.`,
});
