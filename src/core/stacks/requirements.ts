import { stackTerms } from '../chains/stack-terms.ts';
import type { StackTerm } from '../chains/stack-terms.ts';
import type { SolvedChains } from '../chains/types.ts';
import type { ResolvedPart, ResolvedRequirement } from '../part/resolved.ts';
import type { RequirementRow } from '../report-types.ts';
import { shareOfSum } from './convolution.ts';
import { distributions } from './distribution.ts';
import type { DistributionKind } from './distribution.ts';
import { rssOf } from './sums.ts';

/**
 * Each requirement held against the stack of lengths between its stations: by worst case, by root-sum-square about the mid-limits (half-widths
 * as three sigma), and as the share of parts that meet it (`yield`, 0 to 1) by convolution, each length falling as the part says. `contributions` are shares of the variance and
 * sum to 1; empty where nothing varies. Fields are null where they cannot be worked out: across groups, where no part can meet the
 * drawing, and (all but the worst case) where several ways lead between the stations, as the distance is no plain sum then.
 */
export const stackRequirements = (part: ResolvedPart, chains: SolvedChains): RequirementRow[] =>
  part.requirements.map((requirement) => rowOf(part, chains, requirement));

/** How a length or a segment's diameter falls within its limits. */
export const fallOf = (part: ResolvedPart, id: string): DistributionKind => part.falls?.get(id) ?? 'normal';

function rowOf(
  part: ResolvedPart,
  chains: SolvedChains,
  { id, from, to, min, max }: ResolvedRequirement,
): RequirementRow {
  const span = chains.span(from, to);
  const stack = span && stackTerms(part, from, to);
  const meets_worst = span && span.min >= min && span.max <= max;
  if (!stack?.unique) return { id, meets_worst, meets_rss: null, yield: null, contributions: [] };
  const { middle, half } = rssOf(stack.terms);
  const parts = stack.terms.map((term) => ({ ...term, kind: fallOf(part, term.id) }));
  return {
    id,
    meets_worst,
    meets_rss: middle - half >= min && middle + half <= max,
    yield: shareOfSum(parts, min, max),
    contributions: contributionsOf(part, stack.terms),
  };
}

/** Share of the variance that each length brings, in the order it is walked; a taper's two diameters count together. */
export function contributionsOf(
  part: ResolvedPart,
  terms: readonly StackTerm[],
): { length: string; share: number }[] {
  const squares = new Map<string, number>();
  for (const { id, half } of terms) {
    const variance = half ** 2 * distributions[fallOf(part, id)].variance;
    squares.set(id, (squares.get(id) ?? 0) + variance);
  }
  const total = [...squares.values()].reduce((sum, square) => sum + square, 0);
  if (total === 0) return [];
  return [...squares].map(([length, square]) => ({ length, share: square / total }));
}
