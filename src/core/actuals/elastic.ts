import type { ChainGraph, Tie } from '../chains/graph.ts';
import { graphOf } from '../chains/graph.ts';
import { constraintsOf, findPlaces } from '../chains/limits.ts';

/**
 * A distance that is to keep near its aim: at a stretch of 0 it is the aim itself, at 1 it may go to its limits. In
 * pm; `min <= aim <= max`.
 */
export type Elastic = {
  readonly id: string;
  readonly from: number;
  readonly to: number;
  readonly aim: number;
  readonly min: number;
  readonly max: number;
};

/** Rounded outward, so that what is possible stays possible; within the limits up to a stretch of 1. */
function boundsAt({ aim, min, max }: Elastic, stretch: number): readonly [number, number] {
  const low = Math.floor(aim - stretch * (aim - min));
  const high = Math.ceil(aim + stretch * (max - aim));
  return stretch <= 1 ? [Math.max(low, min), Math.min(high, max)] : [low, high];
}

/** Rounds of Newton's method for one stretch; it needs a handful, as each cycle it meets is worse than the last. */
const MOST_ROUNDS = 1000;

/**
 * Places for all stations so that no distance is stretched more than must be, then no other more than must be, and so
 * on to the least stretched: the stretch that the one fixed face causes is shared out along the chains it strains, and
 * what is not strained keeps its aim.
 *
 * @param fixed - Stations whose place is settled, by number, in pm.
 * @param aims - Old places in pm, as a start.
 * @returns Places in pm, or null where the order of the faces or exact lengths forbid any.
 *
 * Each round is the least feasible parameter of a system of difference constraints, by Newton's method on its
 * negative cycles: exact but for the rounding of bounds to the picometre. Cost: a search of the graph for each round,
 * at most one round for each distance.
 * Source: Cormen et al., Introduction to Algorithms, 3rd ed., 24.4, for the constraints; Newton on cycles from memory.
 */
export function spreadEvenly(
  graph: ChainGraph,
  elastics: readonly Elastic[],
  fixed: ReadonlyMap<number, number>,
  aims: Float64Array,
): Float64Array | null {
  const settled = new Map<number, number>();
  const stays = equalities(fixed);
  let guess = aims;
  for (;;) {
    const least = leastStretch(graph, elastics, settled, stays, guess);
    if (!least) return null;
    guess = least.places;
    if (least.critical.length === 0) return grounded(least.places, fixed);
    for (const e of least.critical) settled.set(e, least.stretch);
  }
}

/** Shifted so that the fixed stations stand where they stand: difference constraints leave the whole free to slide. */
function grounded(places: Float64Array, fixed: ReadonlyMap<number, number>): Float64Array {
  const [first] = fixed;
  if (!first) return places.map((place) => place - (places[0] ?? 0));
  const off = first[1] - (places[first[0]] ?? 0);
  return places.map((place) => place + off);
}

const BARE: Omit<Tie, 'from' | 'to' | 'min' | 'max'> = {
  id: '',
  length: null,
  nominal: 0,
  halves: [],
  give: [0, 0],
};

function equalities(fixed: ReadonlyMap<number, number>): Tie[] {
  const [first, ...others] = fixed;
  if (!first) return [];
  return others.map(([station, place]): Tie => {
    const apart = place - first[1];
    return { ...BARE, from: first[0], to: station, min: apart, max: apart };
  });
}

type Least = { stretch: number; places: Float64Array; critical: number[] };

/** The least stretch of the distances that are not settled yet, and which of them cannot do with less. */
function leastStretch(
  graph: ChainGraph,
  elastics: readonly Elastic[],
  settled: ReadonlyMap<number, number>,
  stays: readonly Tie[],
  guess: Float64Array,
): Least | null {
  let stretch = 0;
  let critical: number[] = [];
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const ties = elastics.map((elastic, e): Tie => {
      const [min, max] = boundsAt(elastic, settled.get(e) ?? stretch);
      return { ...BARE, from: elastic.from, to: elastic.to, min, max };
    });
    const constraints = constraintsOf(graphOf(graph, [...ties, ...stays]), () => true, true);
    const found = findPlaces(constraints, guess);
    if (found.possible) return { stretch, places: found.places, critical };
    const { tie, from, weight } = constraints;
    const met = found.cycle.map((arc) => {
      const t = tie[arc] ?? -1;
      const elastic = settled.has(t) ? undefined : elastics[t];
      const forward = elastic?.from === from[arc];
      const room = elastic ? (forward ? elastic.max - elastic.aim : elastic.aim - elastic.min) : 0;
      const still = elastic ? (forward ? elastic.aim : -elastic.aim) : (weight[arc] ?? 0);
      return { t, room, still, open: elastic !== undefined };
    });
    const room = met.reduce((sum, arc) => sum + arc.room, 0);
    if (room <= 0) return null;
    const wanted = -met.reduce((sum, arc) => sum + arc.still, 0) / room;
    // A cycle met again at its own stretch lacks only what rounding took.
    stretch = wanted > stretch ? wanted : stretch * (1 + 1e-12) + 1e-12;
    critical = met.filter((arc) => arc.open && arc.room > 0).map(({ t }) => t);
  }
  return null;
}
