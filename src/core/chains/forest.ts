import { otherEnd } from './graph.ts';
import type { ChainGraph, Tie } from './graph.ts';

/** Stations laid out along a spanning forest of ties. Places count from the first station of each tree. */
export type Forest = {
  /** Tree of each station; trees are numbered by their first station. */
  readonly tree: Int32Array;
  readonly trees: number;
  /** Place by nominal distances, in pm. */
  readonly nominal: Float64Array;
  /** Tie toward the first station, -1 there. */
  readonly by: Int32Array;
  /** How many ties away the first station is; worked out when it is first wanted. */
  readonly depth: () => Int32Array;
  /** Stations in the order they were reached: each comes after the one it hangs on. */
  readonly order: Int32Array;
};

/**
 * Lays the stations out along those ties that `use` lets through, all where left out. Ties that give (tapers with an irrational
 * tangent) serve only where nothing exact does, so that places follow the written lengths.
 */
export function layOut(graph: ChainGraph, use?: (tie: number) => boolean): Forest {
  const chosen = use || !graph.exact ? spanning(graph, use ?? (() => true)) : null;
  const count = graph.stations.length;
  // One piece of memory for all lists, as asking for it takes longer than filling it on a part of usual size.
  const room = new ArrayBuffer(20 * count);
  let depth: Int32Array | null = null;
  const forest: Growing = {
    trees: 0,
    nominal: new Float64Array(room, 0, count),
    tree: new Int32Array(room, 8 * count, count),
    by: new Int32Array(room, 12 * count, count).fill(UNREACHED),
    order: new Int32Array(room, 16 * count, count),
    depth: () => (depth ??= Int32Array.from(along(graph, forest, () => 1))),
  };
  let reached = 0;
  for (let s = 0; s < count; s++) {
    if (forest.by[s] === UNREACHED) reached = grow(graph, chosen, forest, { root: s, reached });
  }
  return forest;
}

/** Stands for the tie of a station that is not reached yet. */
const UNREACHED = -2;

type Growing = Forest & { trees: number };

/** Grows the tree of one station; how many stations are reached in all then. */
function grow(
  { head, tieAt, thereAt, stepAt }: ChainGraph,
  chosen: Uint8Array | null,
  forest: Growing,
  { root, reached }: { root: number; reached: number },
): number {
  const { tree, nominal, by, order } = forest;
  const number = forest.trees++;
  let end = reached;
  order[end++] = root;
  tree[root] = number;
  by[root] = -1;
  for (let q = reached; q < end; q++) {
    const here = order[q] as number;
    const place = nominal[here] as number;
    for (let k = head[here] as number, last = head[here + 1] as number; k < last; k++) {
      const there = thereAt[k] as number;
      if (by[there] !== UNREACHED) continue;
      const t = tieAt[k] as number;
      if (chosen && !chosen[t]) continue;
      // Mostly there is but one tree, and its number stands there already.
      if (number > 0) tree[there] = number;
      nominal[there] = place + (stepAt[k] as number);
      by[there] = t;
      order[end++] = there;
    }
  }
  return end;
}

/** Places by mid-limits from the first station of each tree, doubled so that they stay whole, in pm. */
export const doubledMids = (graph: ChainGraph, forest: Forest): Float64Array =>
  along(graph, forest, (tie, sign) => sign * (tie.min + tie.max));

/** How far from the first station of its tree no place within limits can lie, in pm. */
export const farthest = (graph: ChainGraph, forest: Forest): Float64Array =>
  along(graph, forest, (tie) => Math.max(Math.abs(tie.min), Math.abs(tie.max), tie.nominal));

/** Sums from the first station of each tree; `sign` is -1 where a tie is walked to the drawn left. */
function along(
  { ties, stations }: ChainGraph,
  { order, by }: Forest,
  step: (tie: Tie, sign: 1 | -1) => number,
): Float64Array {
  const sums = new Float64Array(stations.length);
  for (const here of order) {
    const tie = ties[by[here] as number];
    if (!tie) continue;
    sums[here] = (sums[otherEnd(tie, here)] as number) + step(tie, tie.to === here ? 1 : -1);
  }
  return sums;
}

/**
 * Ties that the places contradict to the picometre, in no order; those between two trees are left out, and what a taper gives is
 * not looked at.
 */
export function openTies({ head, tieAt, thereAt, stepAt }: ChainGraph, { tree, nominal }: Forest): number[] {
  const open: number[] = [];
  for (let here = 0; here < tree.length; here++) {
    const place = nominal[here] as number;
    for (let k = head[here] as number, last = head[here + 1] as number; k < last; k++) {
      const there = thereAt[k] as number;
      if (there <= here || (nominal[there] as number) - place === stepAt[k]) continue;
      if (tree[there] === tree[here]) open.push(tieAt[k] as number);
    }
  }
  return open;
}

/** Ties to lay out by: all that are used where all are exact; else a spanning forest, exact ones first, in file order. */
function spanning(graph: ChainGraph, use: (tie: number) => boolean): Uint8Array {
  const chosen = new Uint8Array(graph.ties.length);
  if (graph.exact) {
    for (let t = 0; t < chosen.length; t++) chosen[t] = use(t) ? 1 : 0;
    return chosen;
  }
  const above = Int32Array.from({ length: graph.stations.length }, (_, s) => s);
  const top = (s: number): number => {
    let here = s;
    while (above[here] !== here) here = above[here] = above[above[here] as number] as number;
    return here;
  };
  for (const exact of [true, false]) {
    graph.ties.forEach((tie, t) => {
      if (isExact(tie) !== exact || !use(t)) return;
      const [p, q] = [top(tie.from), top(tie.to)];
      if (p === q) return;
      above[p] = q;
      chosen[t] = 1;
    });
  }
  return chosen;
}

const isExact = (tie: Tie): boolean => tie.give[0] === 0 && tie.give[1] === 0;

/** Ties from one station to another along the forest, in the order they are walked; null between two trees. */
export function pathInForest(graph: ChainGraph, forest: Forest, from: number, to: number): number[] | null {
  if (forest.tree[from] !== forest.tree[to]) return null;
  const depth = forest.depth();
  const path: number[] = [];
  const down: number[] = [];
  let [p, q] = [from, to];
  while (p !== q) {
    const climbFrom = (depth[p] as number) >= (depth[q] as number);
    const t = forest.by[climbFrom ? p : q] as number;
    const tie = graph.ties[t] as Tie;
    (climbFrom ? path : down).push(t);
    if (climbFrom) p = otherEnd(tie, p);
    else q = otherEnd(tie, q);
  }
  for (let i = down.length - 1; i >= 0; i--) path.push(down[i] as number);
  return path;
}

/** Least `z_to - z_from` by the limits along the forest alone, in pm. Both stations must hang together. */
export function leastAlong(graph: ChainGraph, forest: Forest, from: number, to: number): number {
  const depth = forest.depth();
  let least = 0;
  let [p, q] = [from, to];
  while (p !== q) {
    const climbFrom = (depth[p] as number) >= (depth[q] as number);
    const tie = graph.ties[forest.by[climbFrom ? p : q] as number] as Tie;
    const right = climbFrom ? tie.from === p : tie.to === q;
    least += right ? tie.min : -tie.max;
    if (climbFrom) p = otherEnd(tie, p);
    else q = otherEnd(tie, q);
  }
  return least;
}
