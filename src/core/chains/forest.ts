import { otherEnd } from './graph.ts';
import type { ChainGraph, Tie } from './graph.ts';

/** Stations laid out along a spanning forest of ties. Places count from the first station of each tree. */
export type Forest = {
  /** Tree of each station; trees are numbered by their first station. */
  readonly tree: Int32Array;
  readonly trees: number;
  /** Place by nominal distances, and by mid-limits (doubled, so that it stays whole), in pm. */
  readonly nominal: Float64Array;
  readonly doubledMid: Float64Array;
  /** No place within limits lies further than this from the first station of its tree, in pm. */
  readonly reach: Float64Array;
  /** Tie toward the first station, -1 there; and how many ties away that is. */
  readonly by: Int32Array;
  readonly depth: Int32Array;
};

/**
 * Lays the stations out along those ties that `use` lets through. Ties that give (tapers with an irrational tangent) serve
 * only where nothing exact does, so that places follow the written lengths.
 */
export function layOut(graph: ChainGraph, use: (tie: number) => boolean): Forest {
  const chosen = spanning(graph, use);
  const count = graph.stations.length;
  const forest = {
    trees: 0,
    tree: new Int32Array(count).fill(-1),
    nominal: new Float64Array(count),
    doubledMid: new Float64Array(count),
    reach: new Float64Array(count),
    by: new Int32Array(count).fill(-1),
    depth: new Int32Array(count),
  };
  for (let s = 0; s < count; s++) if (forest.tree[s] === -1) grow(graph, chosen, forest, s, forest.trees++);
  return forest;
}

function grow(graph: ChainGraph, chosen: Uint8Array, forest: Forest, root: number, number: number): void {
  const { tree, nominal, doubledMid, reach, by, depth } = forest;
  const queue = [root];
  tree[root] = number;
  for (let q = 0; q < queue.length; q++) {
    const here = queue[q] as number;
    for (let k = graph.head[here] as number; k < (graph.head[here + 1] as number); k++) {
      const t = graph.tieAt[k] as number;
      if (!chosen[t]) continue;
      const tie = graph.ties[t] as Tie;
      const there = otherEnd(tie, here);
      if (tree[there] !== -1) continue;
      const sign = tie.from === here ? 1 : -1;
      tree[there] = number;
      nominal[there] = (nominal[here] as number) + sign * tie.nominal;
      doubledMid[there] = (doubledMid[here] as number) + sign * (tie.min + tie.max);
      reach[there] = (reach[here] as number) + Math.max(Math.abs(tie.min), Math.abs(tie.max), tie.nominal);
      by[there] = t;
      depth[there] = (depth[here] as number) + 1;
      queue.push(there);
    }
  }
}

/** Ties to lay out by: all that are used where all are exact; else a spanning forest, exact ones first, in file order. */
function spanning(graph: ChainGraph, use: (tie: number) => boolean): Uint8Array {
  const chosen = new Uint8Array(graph.ties.length);
  if (graph.ties.every(isExact)) {
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
  const up: number[] = [];
  const down: number[] = [];
  let [p, q] = [from, to];
  while (p !== q) {
    const climbFrom = (forest.depth[p] as number) >= (forest.depth[q] as number);
    const t = forest.by[climbFrom ? p : q] as number;
    const tie = graph.ties[t] as Tie;
    if (climbFrom) {
      up.push(t);
      p = otherEnd(tie, p);
    } else {
      down.push(t);
      q = otherEnd(tie, q);
    }
  }
  return [...up, ...down.reverse()];
}
