import { otherEnd } from './graph.ts';
import type { ChainGraph } from './graph.ts';

/** Ties that lie on a common loop, as lists in file order. */
export type Blocks = {
  readonly blocks: readonly (readonly number[])[];
  /** 1 for a tie on no loop at all. */
  readonly bridge: Uint8Array;
  /** Block of each tie; -1 for a bridge. */
  readonly blockOf: Int32Array;
};

/**
 * Splits the ties into blocks: two ties share a block exactly where some loop runs through both. A tie from a station to
 * itself is a block of its own. O(stations + ties), no recursion.
 * Source: Hopcroft and Tarjan, Efficient algorithms for graph manipulation, CACM 16 (1973) 372.
 */
export function findBlocks(graph: ChainGraph): Blocks {
  const bridge = new Uint8Array(graph.ties.length);
  const blocks: number[][] = [];
  graph.ties.forEach((tie, t) => tie.from === tie.to && blocks.push([t]));
  const keep = (ties: number[]) => {
    if (ties.length === 1) bridge[ties[0] as number] = 1;
    else blocks.push(ties.sort((a, b) => a - b));
  };
  const search = {
    seen: new Int32Array(graph.stations.length),
    low: new Int32Array(graph.stations.length),
    clock: 0,
  };
  for (let s = 0; s < graph.stations.length; s++)
    if (search.seen[s] === 0) searchFrom(graph, s, search, keep);
  const blockOf = new Int32Array(graph.ties.length).fill(-1);
  blocks.sort((a, b) => (a[0] as number) - (b[0] as number));
  blocks.forEach((ties, b) => ties.forEach((t) => (blockOf[t] = b)));
  return { blocks, bridge, blockOf };
}

type Search = { readonly seen: Int32Array; readonly low: Int32Array; clock: number };

function searchFrom(graph: ChainGraph, root: number, search: Search, keep: (ties: number[]) => void): void {
  const { head, tieAt, ties } = graph;
  const { seen, low } = search;
  const open: number[] = [];
  const path: { station: number; by: number; next: number; mark: number }[] = [];
  const enter = (station: number, by: number) => {
    seen[station] = low[station] = ++search.clock;
    path.push({ station, by, next: head[station] as number, mark: open.length - (by < 0 ? 0 : 1) });
  };
  enter(root, -1);
  for (let top = path.at(-1); top; top = path.at(-1)) {
    const { station } = top;
    if (top.next < (head[station + 1] as number)) {
      const t = tieAt[top.next++] as number;
      const tie = ties[t];
      if (!tie || t === top.by || tie.from === tie.to) continue;
      const there = otherEnd(tie, station);
      if (seen[there] === 0) {
        open.push(t);
        enter(there, t);
      } else if ((seen[there] as number) < (seen[station] as number)) {
        open.push(t);
        low[station] = Math.min(low[station] as number, seen[there] as number);
      }
      continue;
    }
    path.pop();
    const before = path.at(-1);
    if (!before) return;
    low[before.station] = Math.min(low[before.station] as number, low[station] as number);
    if ((low[station] as number) >= (seen[before.station] as number)) keep(open.splice(top.mark));
  }
}
