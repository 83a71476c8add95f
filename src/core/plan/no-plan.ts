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

export function noWay(refused: readonly Refused[], part: ResolvedPart): NoPlan {
  // Ways that fail for one reason are named together.
  const reasons = new Map<string, Set<string>>();
  for (const { name, why } of refused) reasons.set(why, (reasons.get(why) ?? new Set()).add(name));
  const tried =
    reasons.size === 1
      ? [...reasons.keys()].join('')
      : [...reasons].map(([why, names]) => `${[...names].join(', ')}: ${why}`).join('; ');
  const pinned = Object.keys(part.pins).length > 0 ? ' with what you have settled about the plan' : '';
  const say = `No way to hold and cut this part${pinned} was found. ${tried ? `${tried}.` : ''}`.trim();
  const problem: Problem = { code: 'no-way', where: pinned ? 'pins' : 'plan', say };
  return { plan: null, outline: null, errors: [problem], warnings: [] };
}

/** Something settled that stands in the way of every plan. */
export const notKept = ({ where, words }: PinItem): Problem => ({
  code: 'pin-not-kept',
  where,
  say: `What was settled, ${words}, cannot be kept; without it there is a plan.`,
});
