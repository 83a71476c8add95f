import type { ChainGraph } from './graph.ts';
import { acrossRun, shortestTree } from './shortest-tree.ts';
import type { ShortestTree } from './shortest-tree.ts';
import { skeletonOf } from './skeleton.ts';
import type { Run, Skeleton } from './skeleton.ts';

/** Beyond this many corners in one block the search would take seconds; then loops are short, not proved shortest. */
const MOST_CORNERS = 2500;

type Candidate = { readonly count: number; readonly root: number; readonly run: number };
type RunLoop = { readonly runs: readonly number[]; readonly order: readonly number[] };

/**
 * A minimum cycle basis of one block: as many independent loops as it has, with the fewest ties in all, ties of equal count
 * taken by file order. Each loop is its ties in file order.
 *
 * Every such loop is a run and the two shortest ways from some corner to its ends (Horton), so these are collected, sorted,
 * and taken while independent over GF(2). Corners that more than `MOST_CORNERS` branch are not searched: there the loops
 * are those of one shortest tree.
 * Source: J. D. Horton, A polynomial-time algorithm to find the shortest cycle basis of a graph, SIAM J. Comput. 16 (1987) 358.
 */
export function shortestLoops(graph: ChainGraph, block: readonly number[]): number[][] {
  const skeleton = skeletonOf(graph, block);
  if (!skeleton) return [[...block]];
  const wanted = skeleton.runs.length - skeleton.corners + 1;
  const roots = skeleton.corners > MOST_CORNERS ? 1 : skeleton.corners;
  const trees = Array.from({ length: roots }, (_, root) => shortestTree(skeleton, root));
  const candidates = roots === 1 ? treeLoops(skeleton, trees[0]) : allCandidates(skeleton, trees);
  candidates.sort((p, q) => p.count - q.count);
  return pick(skeleton, trees, candidates, wanted).map((loop) =>
    loop.runs.flatMap((r) => skeleton.runs[r]?.ties ?? []).sort((a, b) => a - b),
  );
}

function allCandidates(skeleton: Skeleton, trees: readonly ShortestTree[]): Candidate[] {
  const found: Candidate[] = [];
  for (const tree of trees) {
    const { root, by, ties, branch, least } = tree;
    for (let r = 0; r < skeleton.runs.length; r++) {
      const { a, b, ties: own } = skeleton.runs[r] as Run;
      if (by[a] === r || by[b] === r) continue;
      const meetsAtRootOnly = a === root || b === root || branch[a] !== branch[b];
      // A loop is found once from each of its corners; the least corner keeps it.
      if (!meetsAtRootOnly || (least[a] as number) < root || (least[b] as number) < root) continue;
      found.push({ count: (ties[a] as number) + (ties[b] as number) + own.length, root, run: r });
    }
  }
  return found;
}

function treeLoops(skeleton: Skeleton, tree: ShortestTree | undefined): Candidate[] {
  if (!tree) return [];
  const found: Candidate[] = [];
  skeleton.runs.forEach((run, r) => {
    if (tree.by[run.a] === r || tree.by[run.b] === r) return;
    found.push({
      count: (tree.ties[run.a] as number) + (tree.ties[run.b] as number),
      root: tree.root,
      run: r,
    });
  });
  return found;
}

/** Takes loops in order of length while they are independent of those taken. */
function pick(
  skeleton: Skeleton,
  trees: readonly ShortestTree[],
  candidates: readonly Candidate[],
  wanted: number,
): RunLoop[] {
  const independent = new Independence(skeleton, trees[0] as ShortestTree);
  const picked: RunLoop[] = [];
  for (let i = 0; i < candidates.length && picked.length < wanted;) {
    const { count } = candidates[i] as Candidate;
    const alike: RunLoop[] = [];
    for (; candidates[i]?.count === count; i++)
      alike.push(runLoop(skeleton, trees, candidates[i] as Candidate));
    if (alike.length > 1) alike.sort((p, q) => firstDifference(p.order, q.order));
    for (const loop of alike) if (picked.length < wanted && independent.add(loop.runs)) picked.push(loop);
  }
  return picked;
}

function runLoop(skeleton: Skeleton, trees: readonly ShortestTree[], candidate: Candidate): RunLoop {
  const tree = trees[candidate.root] as ShortestTree;
  const closing = skeleton.runs[candidate.run] as Run;
  // Runs walked twice cancel out, which happens only where a single tree serves all.
  const runs = new Set([candidate.run]);
  for (const end of [closing.a, closing.b]) {
    for (let here = end; here !== tree.root;) {
      const r = tree.by[here] as number;
      if (!runs.delete(r)) runs.add(r);
      here = acrossRun(skeleton.runs[r] as Run, here);
    }
  }
  const list = [...runs];
  return { runs: list, order: list.map((r) => (skeleton.runs[r] as Run).first).sort((a, b) => a - b) };
}

/** Negative where `p` comes first in the file: it has the first tie that is in one and not in the other. */
export function firstDifference(p: readonly number[], q: readonly number[]): number {
  for (let i = 0; i < p.length && i < q.length; i++) {
    const difference = (p[i] as number) - (q[i] as number);
    if (difference !== 0) return difference;
  }
  return p.length - q.length;
}

/** Gaussian elimination over GF(2). A loop is told by the runs it has outside one spanning tree. */
class Independence {
  private readonly bitOf: Int32Array;
  private readonly words: number;
  private readonly rows = new Map<number, Int32Array>();

  constructor(skeleton: Skeleton, tree: ShortestTree) {
    this.bitOf = new Int32Array(skeleton.runs.length).fill(-1);
    let bits = 0;
    skeleton.runs.forEach((run, r) => {
      if (tree.by[run.a] !== r && tree.by[run.b] !== r) this.bitOf[r] = bits++;
    });
    this.words = (bits + 31) >> 5;
  }

  /** Adds a loop; false where it is a sum of those added before. */
  add(runs: readonly number[]): boolean {
    const row = new Int32Array(this.words);
    for (const r of runs) {
      const bit = this.bitOf[r] as number;
      if (bit >= 0) row[bit >> 5] = (row[bit >> 5] as number) ^ (1 << (bit & 31));
    }
    for (let word = 0; word < this.words; word++) {
      while (row[word] !== 0) {
        const pivot = word * 32 + 31 - Math.clz32(row[word] as number);
        const known = this.rows.get(pivot);
        if (!known) {
          this.rows.set(pivot, row);
          return true;
        }
        for (let w = word; w < this.words; w++) row[w] = (row[w] as number) ^ (known[w] as number);
      }
    }
    return false;
  }
}
