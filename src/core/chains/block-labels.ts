import { takeOut } from './elimination.ts';
import type { TakenOut } from './elimination.ts';
import type { ChainGraph } from './graph.ts';

/** A station with its distances to and from all stations above it, by their depth; in pm. */
type Label = {
  readonly depth: number;
  readonly above: Label | null;
  readonly station: number;
  /** Largest `z_upper - z_station`, and `z_station - z_upper`, that the block allows. At its own depth 0. */
  readonly ahead: readonly number[];
  readonly back: readonly number[];
  /** Depths of those it hung on when it was taken out, and its own: every way out of what lies below passes one of them. */
  readonly gates: readonly number[];
};

/** A block whose labels would hold more figures than this is left to the search; 160 MB. */
const MOST_FIGURES = 1e7;

/** Distances between any two stations of one block. */
export type BlockLabels = { readonly distance: (from: number, to: number) => number };

/**
 * Works out one block so that any distance in it is a matter of a few sums: stations in the order they were taken out form a
 * tree, in which every shortest way between two of them passes the gates of the lowest station above both.
 * Null where the block is too tangled for that. Costs stations times depth of the tree times gates.
 * Source: Ouyang, Qin, Chang, Lin, Zhang, Zhu, When hierarchy meets 2-hop-labeling, SIGMOD 2018, 709.
 */
export function labelBlock(graph: ChainGraph, block: readonly number[]): BlockLabels | null {
  const order = takeOut(graph, block);
  if (!order) return null;
  const labels = new Map<number, Label>();
  const turn = new Map(order.map(({ station }, i) => [station, i]));
  let figures = 0;
  for (let i = order.length - 1; i >= 0; i--) {
    const taken = order[i] as TakenOut;
    const label = labelOf(taken, turn, labels);
    labels.set(taken.station, label);
    figures += label.ahead.length;
    if (figures > MOST_FIGURES) return null;
  }
  return { distance: (from, to) => distanceBetween(labels.get(from), labels.get(to)) };
}

function labelOf(
  taken: TakenOut,
  turn: ReadonlyMap<number, number>,
  labels: ReadonlyMap<number, Label>,
): Label {
  const { station, beside } = taken;
  const first = beside.reduce<number | null>(
    (best, other) =>
      best === null || (turn.get(other) as number) < (turn.get(best) as number) ? other : best,
    null,
  );
  const above = first === null ? null : (labels.get(first) as Label);
  const depth = above ? above.depth + 1 : 0;
  const chain: Label[] = [];
  for (let upper = above; upper; upper = upper.above) chain[upper.depth] = upper;
  const ahead = new Array<number>(depth + 1).fill(Infinity);
  const back = new Array<number>(depth + 1).fill(Infinity);
  ahead[depth] = back[depth] = 0;
  const gates = [...beside.map((other) => (labels.get(other) as Label).depth), depth];
  beside.forEach((other, k) => {
    const gate = labels.get(other) as Label;
    through(gate, chain, taken.ahead[k] as number, ahead, 'ahead');
    through(gate, chain, taken.back[k] as number, back, 'back');
  });
  return { depth, above, station, ahead, back, gates };
}

/** Takes over what a gate knows of every station above: those above the gate itself, and those between it and the station. */
function through(
  gate: Label,
  chain: readonly Label[],
  step: number,
  best: number[],
  way: 'ahead' | 'back',
): void {
  if (step === Infinity) return;
  const own = gate[way];
  for (let d = 0; d < own.length; d++) {
    const reached = step + (own[d] as number);
    if (reached < (best[d] as number)) best[d] = reached;
  }
  const other = way === 'ahead' ? 'back' : 'ahead';
  for (let d = own.length; d < chain.length; d++) {
    const reached = step + ((chain[d] as Label)[other][gate.depth] as number);
    if (reached < (best[d] as number)) best[d] = reached;
  }
}

function distanceBetween(from: Label | undefined, to: Label | undefined): number {
  if (!from || !to) return Infinity;
  let [p, q]: [Label | null, Label | null] = [from, to];
  while (p && q && p !== q) {
    if (p.depth >= q.depth) p = p.above;
    else q = q.above;
  }
  let least = Infinity;
  for (const d of p?.gates ?? []) {
    const reached = (from.ahead[d] as number) + (to.back[d] as number);
    if (reached < least) least = reached;
  }
  return least;
}
