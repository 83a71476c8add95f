import { Heap } from './heap.ts';
import type { Run, Skeleton } from './skeleton.ts';

/** Shortest ways from one corner to all: fewest ties, and among equally many those that come first in the file. */
export type ShortestTree = {
  readonly root: number;
  readonly ties: Int32Array;
  /** Run by which each corner is reached; -1 at the root. */
  readonly by: Int32Array;
  /** Which way out of the root leads to a corner: the run that begins it; -1 at the root. */
  readonly branch: Int32Array;
  /** Least corner number on the way, the root left out. */
  readonly least: Int32Array;
};

const FAR = 0x3fffffff;

export const acrossRun = (run: Run, corner: number): number => (run.a === corner ? run.b : run.a);

/**
 * Dijkstra's search from one corner. The order of ways is total (count of ties, then the first tie in which two ways
 * differ), so every part of a shortest way is the shortest of its ends, as the choice of loops needs.
 */
export function shortestTree(skeleton: Skeleton, root: number): ShortestTree {
  const { corners, runs, runsAt } = skeleton;
  const ties = new Int32Array(corners).fill(FAR);
  const by = new Int32Array(corners).fill(-1);
  const branch = new Int32Array(corners).fill(-1);
  const least = new Int32Array(corners).fill(corners);
  const done = new Uint8Array(corners);
  const tree: ShortestTree = { root, ties, by, branch, least };
  const heap = new Heap();
  ties[root] = 0;
  heap.push(0, root);
  while (heap.size > 0) {
    const here = heap.pop();
    if (done[here]) continue;
    done[here] = 1;
    settle(tree, runs, here);
    for (const r of runsAt[here] ?? []) {
      const run = runs[r] as Run;
      const there = acrossRun(run, here);
      const longer = (ties[here] as number) + run.ties.length;
      if (done[there] || longer > (ties[there] as number)) continue;
      if (longer === ties[there] && !comesFirst(tree, runs, { here, by: r }, there)) continue;
      if (longer < (ties[there] as number)) heap.push(longer, there);
      ties[there] = longer;
      by[there] = r;
    }
  }
  return tree;
}

function settle(tree: ShortestTree, runs: readonly Run[], here: number): void {
  const r = tree.by[here] as number;
  if (r < 0) return;
  const above = acrossRun(runs[r] as Run, here);
  tree.branch[here] = above === tree.root ? r : (tree.branch[above] as number);
  tree.least[here] = Math.min(here, tree.least[above] as number);
}

/** Whether the way over `here` and its run comes before the way found so far to `there`, both of equally many ties. */
function comesFirst(
  tree: ShortestTree,
  runs: readonly Run[],
  way: { readonly here: number; readonly by: number },
  there: number,
): boolean {
  const known = tree.by[there] as number;
  let mine = way.here;
  let other = acrossRun(runs[known] as Run, there);
  let myFirst = (runs[way.by] as Run).first;
  let otherFirst = (runs[known] as Run).first;
  while (mine !== other) {
    const back = (tree.ties[mine] as number) >= (tree.ties[other] as number);
    const run = runs[tree.by[back ? mine : other] as number] as Run;
    if (back) {
      myFirst = Math.min(myFirst, run.first);
      mine = acrossRun(run, mine);
    } else {
      otherFirst = Math.min(otherFirst, run.first);
      other = acrossRun(run, other);
    }
  }
  return myFirst < otherFirst;
}
