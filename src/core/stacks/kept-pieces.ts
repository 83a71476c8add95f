import { pathBetween } from '../chains/spans.ts';
import { takeStock } from '../chains/situation.ts';
import type { Situation } from '../chains/situation.ts';
import type { Tie } from '../chains/graph.ts';
import { otherEnd } from '../chains/graph.ts';
import type { ResolvedPart } from '../part/resolved.ts';
import type { PieceMaker } from './pieces.ts';
import { fallOf } from './requirements.ts';
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

/** Makes one piece: the distance on it, or null where a length that is only measured comes out of limits. */
export function keptMaker(part: ResolvedPart, { ties, walk, checks }: KeptExperiment): PieceMaker {
  const draws = ties.map(({ id, min, max, halves }) => ({
    middle: (min + max) / 2,
    halves,
    draw: sampler(fallOf(part, id)),
  }));
  const sizes = new Float64Array(ties.length);
  const along = (way: Walk) => way.reduce((sum, { tie, sign }) => sum + sign * (sizes[tie] as number), 0);
  return (bits) => {
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

/**
 * Makes one piece as a turner does who measures each length on the way and lets the next ones make good what it came out off: each is
 * aimed so that the whole comes out at `goal`, as far as its own limits allow, and comes out within `hold` of its aim. What cannot
 * be aimed alone, a taper, falls as the part says. Lengths that are only measured sort out here too. Figures in pm.
 */
export function measuredMaker(
  part: ResolvedPart,
  { ties, walk, checks }: KeptExperiment,
  { goal, hold }: { readonly goal: number; readonly hold: number },
): PieceMaker {
  const middles = ties.map(({ min, max }) => (min + max) / 2);
  const draws = ties.map(({ id }) => sampler(fallOf(part, id)));
  const near = sampler('normal');
  const onWay = new Set(walk.map(({ tie }) => tie));
  const sizes = new Float64Array(ties.length);
  const along = (way: Walk) => way.reduce((sum, { tie, sign }) => sum + sign * (sizes[tie] as number), 0);
  const fallen = (t: number, bits: () => number) =>
    (ties[t] as Tie).halves.reduce(
      (sum, half) => sum + half * (draws[t] as Draw)(bits()),
      middles[t] as number,
    );
  return (bits) => {
    let left = goal - walk.reduce((sum, { tie, sign }) => sum + sign * (middles[tie] as number), 0);
    for (const { tie: t, sign } of walk) {
      const middle = middles[t] as number;
      const { length, min, max } = ties[t] as Tie;
      const room = Math.max(0, (max - min) / 2 - hold);
      const off = Math.min(room, Math.max(-room, sign * left));
      sizes[t] = length === null ? fallen(t, bits) : middle + off + hold * near(bits());
      left -= sign * ((sizes[t] as number) - middle);
    }
    for (let t = 0; t < ties.length; t++) if (!onWay.has(t)) sizes[t] = fallen(t, bits);
    for (const check of checks) {
      const value = along(check.walk);
      if (value < check.min || value > check.max) return null;
    }
    return along(walk);
  };
}

type Draw = (bits: number) => number;
