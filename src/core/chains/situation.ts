import type { ResolvedPart } from '../part/resolved.ts';
import type { Blocks } from './blocks.ts';
import { doubledMids, layOut, openTies, pathInForest } from './forest.ts';
import type { Forest } from './forest.ts';
import { chainGraph, otherEnd } from './graph.ts';
import type { ChainGraph, Tie } from './graph.ts';
import { constraintsOf, findPlaces } from './limits.ts';
import type { Constraints, Feasibility } from './limits.ts';
import { findLoops } from './loops.ts';
import type { Loop } from './loops.ts';
import { spanSearch } from './span-search.ts';
import type { SpanSearch } from './span-search.ts';

/** Everything about the chains of a part that the lists of the report are drawn from. */
export type Situation = {
  readonly part: ResolvedPart;
  readonly graph: ChainGraph;
  readonly loops: readonly Loop[];
  readonly blocks: Blocks;
  /** 1 for a tie on a clashing loop. */
  readonly clashing: Uint8Array;
  /** Laid out along all ties, and along those that hang together without a clash. */
  readonly all: Forest;
  readonly sound: Forest;
  readonly constraints: Constraints;
  readonly feasibility: Feasibility;
  /** Made ready when it is first wanted. */
  readonly search: () => SpanSearch;
};

const known = new WeakMap<ResolvedPart, Situation>();

/** Loops, places and limits of a part; worked out once, as a resolved part never changes. */
export function takeStock(part: ResolvedPart): Situation {
  const before = known.get(part);
  if (before) return before;
  const situation = workOut(part);
  known.set(part, situation);
  return situation;
}

function workOut(part: ResolvedPart): Situation {
  const graph = chainGraph(part);
  const { loops, blocks } = findLoops(graph);
  const clashing = new Uint8Array(graph.ties.length);
  for (const loop of loops) if (!loop.closes) for (const t of loop.ties) clashing[t] = 1;
  const sound = layOutSound(graph, clashing);
  const all = layOut(graph);
  const constraints = constraintsOf(graph, () => true, true);
  const guess = guessPlaces(part, graph, all);
  const feasibility = findPlaces(constraints, guess);
  const places = feasibility.possible ? feasibility.places : guess;
  let search: SpanSearch | null = null;
  return {
    ...{ part, graph, loops, blocks, clashing, all, sound, constraints, feasibility },
    search: () => (search ??= spanSearch({ graph, all, blocks }, places)),
  };
}

/**
 * Leaves the ties of clashing loops out. Where what remains still contradicts itself (a ring of ties round loops that clash,
 * its own gap their sum), the ties of that ring are left out too.
 */
function layOutSound(graph: ChainGraph, clashing: Uint8Array): Forest {
  const out = clashing.slice();
  for (;;) {
    const forest = layOut(graph, out.includes(1) ? (t) => !out[t] : undefined);
    const against = openTies(graph, forest).filter((t) => !out[t] && !agrees(graph, forest, t));
    if (against.length === 0) return forest;
    for (const t of ringOf(graph, forest, Math.min(...against))) out[t] = 1;
  }
}

function agrees(graph: ChainGraph, forest: Forest, closing: number): boolean {
  const tie = graph.ties[closing] as Tie;
  const gap = (forest.nominal[tie.to] as number) - (forest.nominal[tie.from] as number) - tie.nominal;
  let [low, high] = tie.give;
  let here = tie.to;
  for (const t of pathInForest(graph, forest, tie.to, tie.from) ?? []) {
    const other = graph.ties[t] as Tie;
    low += other.from === here ? other.give[0] : -other.give[1];
    high += other.from === here ? other.give[1] : -other.give[0];
    here = otherEnd(other, here);
  }
  return low <= gap && gap <= high;
}

function ringOf(graph: ChainGraph, forest: Forest, closing: number): number[] {
  const tie = graph.ties[closing] as Tie;
  return [closing, ...(pathInForest(graph, forest, tie.to, tie.from) ?? [])];
}

/** Mid-limit places, each tree set down where its first station was sketched. */
function guessPlaces(part: ResolvedPart, graph: ChainGraph, forest: Forest): Float64Array {
  const doubledMid = doubledMids(graph, forest);
  const start = new Map<number, number>();
  return Float64Array.from(graph.stations, (id, s) => {
    const number = forest.tree[s] as number;
    if (!start.has(number)) start.set(number, number === 0 ? 0 : (part.sketched.get(id) ?? 0));
    return (start.get(number) ?? 0) + (doubledMid[s] as number) / 2;
  });
}
