import { nearest, pm, toMm } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import type { ResolvedLength } from '../part/resolved.ts';
import { layOut } from './forest.ts';
import type { Forest } from './forest.ts';
import type { Tie } from './graph.ts';
import type { Loop } from './loops.ts';
import { explainMisread, inStyleOf, isNatural, likelyValues } from './misread.ts';
import type { Misread } from './misread.ts';
import { sketchEvidence } from './sketch-evidence.ts';
import type { Situation } from './situation.ts';
import type { ChainsReport } from './types.ts';

type Suspect = ChainsReport['suspects'][number];
type Range = { readonly low: number; readonly high: number };

/** A suspect, with the exact size it would need and how plausible that is (a logarithm of odds). */
export type Suspicion = {
  readonly length: ResolvedLength;
  readonly value: Length;
  readonly hint: string | null;
  readonly odds: number;
};

/** What a size that nothing explains, or that no draughtsman would write so, weighs against one that a slip explains. */
const UNEXPLAINED = Math.log(0.0003);
const UNNATURAL = Math.log(0.05);
const DRAWN_TO_NEIGHBOUR = Math.log(0.15 / 4);

/** Every single length whose change to a positive size closes all loops at once, likeliest first, then by file order. */
export function findSuspects(situation: Situation): Suspicion[] {
  const { graph, loops, part } = situation;
  const open = loops.filter((loop) => !loop.closes);
  const shortest = open[0];
  if (!shortest) return [];
  const evidence = sketchEvidence(situation);
  const found: Suspicion[] = [];
  for (const t of shortest.ties) {
    const tie = graph.ties[t] as Tie;
    const length = tie.length === null ? undefined : part.lengths[tie.length];
    const change = length && closingChange(loops, open.length, t);
    if (!length || !change || tie.nominal + change.high <= 0) continue;
    const slip = bestSlip(situation, t, length, change);
    if (slip) found.push({ ...slip, odds: slip.odds + evidence(t, slip.value) });
  }
  return found.sort((a, b) => b.odds - a.odds || a.length.index - b.length.index);
}

/** The report's list. */
export const listSuspects = (suspicions: readonly Suspicion[]): Suspect[] =>
  suspicions.map(({ length, value, hint }) => ({
    length: length.id,
    written: length.size.text,
    closes_at_mm: toMm(value),
    hint,
  }));

/** By how much tie `t` would have to change so that all loops close; null where no change does. */
function closingChange(loops: readonly Loop[], open: number, t: number): Range | null {
  let low = -Infinity;
  let high = Infinity;
  let opened = 0;
  for (const loop of loops) {
    const i = loop.ties.indexOf(t);
    if (i < 0) continue;
    if (!loop.closes) opened++;
    const [a, b] = [-loop.gap - loop.give[1], -loop.gap - loop.give[0]];
    low = Math.max(low, loop.signs[i] === 1 ? a : -b);
    high = Math.min(high, loop.signs[i] === 1 ? b : -a);
  }
  return opened === open && low <= high ? { low, high } : null;
}

type Slip = Omit<Suspicion, 'length'> & { readonly length: ResolvedLength };

function bestSlip(situation: Situation, t: number, length: ResolvedLength, change: Range): Slip | null {
  const { size } = length;
  const inside = (value: number) =>
    value > 0 && value >= size.nominal + change.low && value <= size.nominal + change.high;
  const middle = nearest(size.nominal + (change.low + change.high) / 2);
  const wide = change.high > change.low;
  const values = [middle, ...(wide ? likelyValues(size) : [])].filter(inside);
  const slips = values.map((value): Slip => {
    const drawn = drawnToNeighbour(situation, t, value);
    const misread = [explainMisread(size, value), drawn].reduce(
      (a, b) => (a && (!b || a.odds >= b.odds) ? a : b),
      null,
    );
    const odds = (misread?.odds ?? UNEXPLAINED) + (isNatural(size, value) ? 0 : UNNATURAL);
    return { length, value, hint: misread ? sentence(length, value, misread) : null, odds };
  });
  return slips.reduce<Slip | null>((best, slip) => (!best || slip.odds > best.odds ? slip : best), null);
}

const sentence = ({ id, size }: ResolvedLength, value: Length, { hint }: Misread): string =>
  `${id} stands as ${size.text}; ${inStyleOf(size, value)} would close: perhaps ${hint}.`;

/** The written size is right, but belongs between one of its faces and a neighbour of the other. */
function drawnToNeighbour({ graph }: Situation, t: number, value: Length): Misread | null {
  const tie = graph.ties[t] as Tie;
  const forest = layOut(graph, (other) => other !== t);
  for (const end of [tie.to, tie.from]) {
    for (const side of [1, -1]) {
      const neighbour = end + side;
      if (end >= graph.faceCount || neighbour < 0 || neighbour >= graph.faceCount) continue;
      const fixed = end === tie.to ? tie.from : tie.to;
      if (neighbour === fixed || !fits(forest, tie, { end, neighbour }, value)) continue;
      const [left, right] = end === tie.to ? [tie.from, neighbour] : [neighbour, tie.to];
      const between = `${graph.stations[left] ?? ''} to ${graph.stations[right] ?? ''}`;
      return { hint: `the size from ${between}, drawn to the neighbouring face`, odds: DRAWN_TO_NEIGHBOUR };
    }
  }
  return null;
}

/** Whether moving one end to its neighbour makes the written size right, the change of size being that segment's length. */
function fits(forest: Forest, tie: Tie, move: { end: number; neighbour: number }, value: Length): boolean {
  const { end, neighbour } = move;
  if (forest.tree[end] !== forest.tree[neighbour]) return false;
  const shift = (forest.nominal[neighbour] as number) - (forest.nominal[end] as number);
  const written = end === tie.to ? value + shift : value - shift;
  return pm(written) === tie.nominal;
}
