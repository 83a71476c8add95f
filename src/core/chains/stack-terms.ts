import type { ResolvedPart } from '../part/resolved.ts';
import { otherEnd } from './graph.ts';
import type { Tie } from './graph.ts';
import { pathBetween } from './spans.ts';
import { takeStock } from './situation.ts';

/** One length of a stack, or one diameter of a taper that acts as a length. Figures in pm. */
export type StackTerm = {
  /** Id of the length, or of the taper's segment. */
  readonly id: string;
  readonly sign: 1 | -1;
  /** Middle of its limits; a taper's two terms share it between them. */
  readonly middle: number;
  readonly half: number;
};

/** What adds up to the distance from one station to another, in the order it is walked. */
export type StackTerms = {
  readonly terms: readonly StackTerm[];
  /** Whether there is no other way between the stations: only then is the distance a plain sum of independent terms. */
  readonly unique: boolean;
  /** Whether some length on the way lies on a loop that does not close. */
  readonly clashing: boolean;
};

/** The stack between two stations; null where nothing ties them or one is unknown. */
export function stackTerms(part: ResolvedPart, from: string, to: string): StackTerms | null {
  const situation = takeStock(part);
  const { graph } = situation;
  const [start, end] = [graph.numberOf.get(from), graph.numberOf.get(to)];
  const path = start === undefined || end === undefined ? null : pathBetween(situation, start, end);
  if (!path || start === undefined) return null;
  const terms: StackTerm[] = [];
  let here = start;
  for (const t of path.ties) {
    const tie = graph.ties[t] as Tie;
    const sign = tie.from === here ? 1 : -1;
    const middle = (tie.min + tie.max) / 2 / tie.halves.length;
    for (const half of tie.halves) terms.push({ id: tie.id, sign, middle, half });
    here = otherEnd(tie, here);
  }
  return { terms, unique: path.unique, clashing: path.ties.some((t) => situation.clashing[t] === 1) };
}
