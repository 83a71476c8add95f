import { pathBetween } from '../chains/spans.ts';
import { takeStock } from '../chains/situation.ts';
import type { Situation } from '../chains/situation.ts';
import type { Tie } from '../chains/graph.ts';
import { otherEnd } from '../chains/graph.ts';
import type { ResolvedPart } from '../part/resolved.ts';
import type { DistributionKind } from './distribution.ts';
import { wilson } from './monte-carlo.ts';
import { randomBits } from './random.ts';
import { sampler } from './sampler.ts';

/** A way along ties: which, and with which sign each counts. */
type Walk = readonly { readonly tie: number; readonly sign: 1 | -1 }[];
/** A length that is not worked to but must come out within its limits all the same. */
type Check = { readonly walk: Walk; readonly min: number; readonly max: number };

/** What is tried where several ways lead between two stations. */
export type KeptExperiment = {
  readonly ties: readonly Tie[];
  /** Ids of the lengths that are worked to, and of those that only sort pieces out. */
  readonly worked: readonly string[];
  readonly sorting: readonly string[];
  readonly walk: Walk;
  readonly checks: readonly Check[];
};

export type KeptOrder = {
  readonly kinds: ReadonlyMap<string, DistributionKind>;
  /** What counts as good, limits included, and between which values pieces are counted in bins; in pm. */
  readonly min: number;
  readonly max: number;
  readonly range: readonly [low: number, high: number];
  readonly bins: number;
  /** Pieces kept at the end. Fifty times as many are made at most. */
  readonly samples: number;
  readonly seed: number;
};

/** What came of it so far. Everything but `made` counts kept pieces only. */
export type KeptTrial = {
  readonly made: number;
  readonly kept: number;
  readonly mean: number;
  readonly deviation: number;
  readonly share: number;
  readonly interval: readonly [low: number, high: number];
  readonly counts: readonly number[];
  readonly finished: boolean;
};

const BATCH = 20_000;
const MOST_MADE = 50;

/**
 * How pieces are made where lengths are doubled between two stations: as few lengths as place every station are worked to, those
 * on the way first, then in file order; the others are only measured, and a piece with one out of limits is thrown away. Tapers
 * are worked to like lengths. Null where nothing ties the stations.
 */
export function keptExperiment(part: ResolvedPart, from: string, to: string): KeptExperiment | null {
  const situation = takeStock(part);
  const { graph, blocks } = situation;
  const [start, end] = [graph.numberOf.get(from), graph.numberOf.get(to)];
  if (start === undefined || end === undefined) return null;
  const path = pathBetween(situation, start, end);
  if (!path) return null;
  const tangles = new Set(path.ties.map((t) => blocks.blockOf[t] as number));
  const near = graph.ties.flatMap((_, t) => {
    const block = blocks.blockOf[t] as number;
    return block >= 0 && tangles.has(block) && !path.ties.includes(t) ? [t] : [];
  });
  const { tree, rest } = spanning(situation, [...path.ties, ...near]);
  const place = (t: number) => tree.indexOf(t);
  const walkOf = (a: number, b: number): Walk =>
    walkIn(situation, tree, a, b).map(({ tie, sign }) => ({ tie: place(tie), sign }));
  const tieAt = (t: number) => graph.ties[t] as Tie;
  return {
    ties: tree.map(tieAt),
    worked: tree.map((t) => tieAt(t).id),
    sorting: rest.map((t) => tieAt(t).id),
    walk: walkOf(start, end),
    checks: rest.map(tieAt).map((tie) => ({ walk: walkOf(tie.from, tie.to), min: tie.min, max: tie.max })),
  };
}

/** The first ties that close no ring among them, and those that do. */
function spanning({ graph }: Situation, ties: readonly number[]): { tree: number[]; rest: number[] } {
  const leader = new Map<number, number>();
  const find = (s: number): number => {
    const next = leader.get(s);
    return next === undefined ? s : find(next);
  };
  const [tree, rest]: [number[], number[]] = [[], []];
  for (const t of ties) {
    const tie = graph.ties[t] as Tie;
    const [a, b] = [find(tie.from), find(tie.to)];
    if (a !== b) leader.set(a, b);
    (a === b ? rest : tree).push(t);
  }
  return { tree, rest };
}

/** The one way from `a` to `b` along the ties of a tree. */
function walkIn({ graph }: Situation, tree: readonly number[], a: number, b: number): Walk {
  const ways = new Map<number, Walk>([[a, []]]);
  const queue = [a];
  for (const here of queue) {
    for (const t of tree) {
      const tie = graph.ties[t] as Tie;
      if (tie.from !== here && tie.to !== here) continue;
      const there = otherEnd(tie, here);
      if (ways.has(there)) continue;
      ways.set(there, [...(ways.get(here) ?? []), { tie: t, sign: tie.from === here ? 1 : -1 }]);
      queue.push(there);
    }
  }
  return ways.get(b) ?? [];
}

/**
 * Makes pieces at random, in batches: each step is a report of all that is done so far. Stop stepping to cancel. The same seed gives
 * the same pieces. Mean, deviation, share and its 95 % interval (Wilson's) are those of the pieces kept.
 * Sources: Welford, Technometrics 4 (1962) 419; Wilson, J. Am. Stat. Assoc. 22 (1927) 209.
 */
export function* keptPieces(experiment: KeptExperiment, order: KeptOrder): Generator<KeptTrial> {
  const { min, max, range, bins, samples, seed } = order;
  const make = maker(experiment, order, randomBits(seed));
  const counts = new Array<number>(bins).fill(0);
  const [low, high] = range;
  let [made, kept, mean, squares, good] = [0, 0, 0, 0, 0];
  while (kept < samples && made < samples * MOST_MADE) {
    for (let n = 0; n < BATCH && kept < samples; n++) {
      made++;
      const value = make();
      if (value === null) continue;
      const off = value - mean;
      mean += off / ++kept;
      squares += off * (value - mean);
      if (value >= min && value <= max) good++;
      const bin = Math.min(bins - 1, Math.max(0, Math.floor(((value - low) / (high - low)) * bins)));
      counts[bin] = (counts[bin] ?? 0) + 1;
    }
    yield {
      ...{ made, kept, mean, counts: [...counts] },
      deviation: kept > 1 ? Math.sqrt(squares / (kept - 1)) : 0,
      share: kept > 0 ? good / kept : 0,
      interval: kept > 0 ? wilson(good, kept) : [0, 1],
      finished: kept >= samples || made >= samples * MOST_MADE,
    };
  }
}

/** Makes one piece: the distance on it, or null where a length that is only measured comes out of limits. */
function maker({ ties, walk, checks }: KeptExperiment, { kinds }: KeptOrder, bits: () => number) {
  const draws = ties.map(({ id, min, max, halves }) => ({
    middle: (min + max) / 2,
    halves,
    draw: sampler(kinds.get(id) ?? 'normal'),
  }));
  const sizes = new Float64Array(ties.length);
  const along = (way: Walk) => way.reduce((sum, { tie, sign }) => sum + sign * (sizes[tie] as number), 0);
  return (): number | null => {
    draws.forEach(({ middle, halves, draw }, i) => {
      let size = middle;
      for (const half of halves) size += half * draw(bits());
      sizes[i] = size;
    });
    for (const check of checks) {
      const value = along(check.walk);
      if (value < check.min || value > check.max) return null;
    }
    return along(walk);
  };
}
