import { otherEnd } from './graph.ts';
import type { ChainGraph } from './graph.ts';

/** A run of ties between two corners, with nothing branching off between them. */
export type Run = {
  readonly a: number;
  readonly b: number;
  readonly ties: readonly number[];
  /** First of its ties in file order: what decides between runs of equally many ties. */
  readonly first: number;
};

/** A block with its runs drawn together: corners are the stations where three or more of its ties meet. */
export type Skeleton = {
  readonly corners: number;
  readonly runs: readonly Run[];
  readonly runsAt: readonly number[][];
};

/** Draws the runs of a block together. Null where the block is a single loop, which has no corners. */
export function skeletonOf(graph: ChainGraph, block: readonly number[]): Skeleton | null {
  const tiesAt = new Map<number, number[]>();
  const note = (station: number, t: number) => {
    const list = tiesAt.get(station);
    if (list) list.push(t);
    else tiesAt.set(station, [t]);
  };
  for (const t of block) {
    const tie = graph.ties[t];
    if (!tie) continue;
    note(tie.from, t);
    note(tie.to, t);
  }
  const corner = new Map<number, number>();
  for (const [station, ties] of tiesAt) if (ties.length > 2) corner.set(station, corner.size);
  if (corner.size === 0) return null;
  const runs = [...runsBetween(graph, tiesAt, corner)];
  const runsAt: number[][] = Array.from({ length: corner.size }, () => []);
  runs.forEach((run, r) => {
    runsAt[run.a]?.push(r);
    runsAt[run.b]?.push(r);
  });
  return { corners: corner.size, runs, runsAt };
}

function* runsBetween(
  graph: ChainGraph,
  tiesAt: ReadonlyMap<number, readonly number[]>,
  corner: ReadonlyMap<number, number>,
): Generator<Run> {
  const walked = new Set<number>();
  for (const [start, a] of corner) {
    for (const first of tiesAt.get(start) ?? []) {
      if (walked.has(first)) continue;
      const ties: number[] = [];
      let here = start;
      let t: number | undefined = first;
      let b: number | undefined;
      while (t !== undefined && b === undefined) {
        walked.add(t);
        ties.push(t);
        const tie = graph.ties[t];
        if (!tie) break;
        here = otherEnd(tie, here);
        b = corner.get(here);
        const before: number = t;
        t = tiesAt.get(here)?.find((other) => other !== before);
      }
      if (b !== undefined) yield { a, b, ties, first: Math.min(...ties) };
    }
  }
}
