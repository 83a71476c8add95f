import { stackTerms, type StackTerm } from '../../core/chains/stack-terms.ts';
import type { SolvedChains } from '../../core/chains/types.ts';
import type { ResolvedPart } from '../../core/part/resolved.ts';
import {
  distributionOfSum,
  quantileOf,
  shareBelow,
  shareWithin,
  type Part as SumPart,
  type SumDistribution,
} from '../../core/stacks/convolution.ts';
import { contributionsOf, fallOf } from '../../core/stacks/requirements.ts';
import { rssOf } from '../../core/stacks/sums.ts';
import type { StackView } from './stack-ends.ts';

/** The least and the most, in pm. */
export type Range = readonly [min: number, max: number];

/** One bar of the picture: a length with its limits about its middle, from where it is walked to where it ends, in pm. */
export type StackBar = {
  readonly id: string;
  readonly sign: 1 | -1;
  readonly from: number;
  readonly to: number;
  readonly half: number;
  readonly share: number;
};

/** What is known of the distance between two stations, in pm. What hangs on a plain sum is null where it is none. */
export type Stack = {
  readonly bars: readonly StackBar[];
  readonly middle: number;
  readonly worst: Range;
  readonly plain: {
    readonly rss: Range;
    /** What 99.73 % of all parts keep to, leaving out as many below as above. */
    readonly most: Range;
    readonly sum: SumDistribution;
  } | null;
};

/** The stack between two stations, walked from the one drawn left; null where nothing ties them, or no part can be made. */
export function stackBetween(
  part: ResolvedPart,
  chains: SolvedChains,
  { from, to }: StackView,
): Stack | null {
  const span = from === to ? null : chains.span(from, to);
  const stack = span && stackTerms(part, from, to);
  if (!stack) return null;
  const { middle, half } = rssOf(stack.terms);
  const parts = stack.terms.map((term): SumPart => ({ ...term, kind: fallOf(part, term.id) }));
  const sum = distributionOfSum(parts);
  return {
    bars: barsOf(part, stack.terms),
    middle,
    worst: [span.min, span.max],
    plain: stack.unique
      ? {
          rss: [middle - half, middle + half],
          most: [quantileOf(sum, 0.00135), quantileOf(sum, 0.99865)],
          sum,
        }
      : null,
  };
}

function barsOf(part: ResolvedPart, terms: readonly StackTerm[]): StackBar[] {
  const shares = new Map(contributionsOf(part, terms).map(({ length, share }) => [length, share]));
  const bars: StackBar[] = [];
  let here = 0;
  for (const { id, sign, middle, half } of terms) {
    const before = bars.at(-1);
    const next = here + sign * middle;
    // The two diameters of a taper are one bar.
    if (before?.id === id) bars[bars.length - 1] = { ...before, to: next, half: before.half + half };
    else bars.push({ id, sign, from: here, to: next, half, share: shares.get(id) ?? 0 });
    here = next;
  }
  return bars;
}

/** Shares of a sum in `bins` equal steps from `low` to `high`. */
export function histogramOf(sum: SumDistribution, [low, high]: Range, bins: number): number[] {
  const edge = (i: number) => shareBelow(sum, low + ((high - low) * i) / bins);
  return Array.from({ length: bins }, (_, i) => edge(i + 1) - edge(i));
}

/** Share of the parts within a range. */
export const yieldOf = (sum: SumDistribution, [min, max]: Range): number => shareWithin(sum, min, max);

/** What a picture of ranges has to show, with a little room on either side. */
export function roomFor(ranges: readonly Range[]): Range {
  const low = Math.min(...ranges.map(([min]) => min));
  const high = Math.max(...ranges.map(([, max]) => max));
  const edge = (high - low) * 0.06 || 1e6;
  return [low - edge, high + edge];
}

/** Ids without repeats, as the board lights them. */
export const idsOf = ({ bars }: Stack): string[] => [...new Set(bars.map(({ id }) => id))];
