import { findBlocks } from './blocks.ts';
import type { Blocks } from './blocks.ts';
import { BlockSearch } from './block-search.ts';
import { leastAlong, pathInForest } from './forest.ts';
import type { Forest } from './forest.ts';
import { graphOf, otherEnd } from './graph.ts';
import type { ChainGraph, Tie } from './graph.ts';

/** Answers for the tightest distance between any two stations. */
export type SpanSearch = {
  /** Least and largest `z_to - z_from` that all limits allow, in pm. Both stations must hang together. */
  readonly span: (from: number, to: number) => Range;
  /** Ties from one station to another, fewest first; and whether there is no other way. Null across groups. */
  readonly path: (from: number, to: number) => { ties: number[]; unique: boolean } | null;
};

type Range = { readonly min: number; readonly max: number };
type Found = { readonly graph: ChainGraph; readonly all: Forest; readonly blocks: Blocks };

/**
 * Prepares for spans. Where a way passes bridges it is a plain sum; only within blocks is there anything to search. The order of
 * two neighbours adds nothing where the lengths alone keep them in order at all their limits; elsewhere it counts as a tie of
 * its own, of no less than nothing. `places` keep all limits and the order; where none do, only ways are asked for.
 */
export function spanSearch(found: Found, places: Float64Array): SpanSearch {
  const search = new BlockSearch(found.graph, found.blocks, places);
  let span: SpanSearch['span'] | null = null;
  return {
    span: (from, to) => (span ??= spansInOrder(found, places, search))(from, to),
    path: pathBy(found, search),
  };
}

function spansInOrder(found: Found, places: Float64Array, search: BlockSearch): SpanSearch['span'] {
  const { graph, all } = found;
  const order = [...orderPairs(graph)]
    .filter(([left, right]) => all.tree[left] !== all.tree[right] || !keptInOrder(found, search, left, right))
    .map(([from, to]): Tie => ({ ...ORDER, from, to }));
  if (order.length === 0) return (from, to) => spanOf(found, search, from, to);
  const ordered = graphOf(graph, [...graph.ties, ...order]);
  const blocks = findBlocks(ordered);
  const orderedSearch = new BlockSearch(ordered, blocks, places);
  return (from, to) => spanOf({ graph: ordered, all, blocks }, orderedSearch, from, to);
}

const ORDER: Omit<Tie, 'from' | 'to'> = {
  id: '',
  length: null,
  nominal: 0,
  min: 0,
  max: Infinity,
  halves: [],
  give: [0, 0],
};

/** Pairs that stand in order by being drawn so: neighbouring faces; a point and the first and last face. */
function* orderPairs({ faceCount, stations }: ChainGraph): Generator<readonly [left: number, right: number]> {
  for (let face = 1; face < faceCount; face++) yield [face - 1, face];
  for (let point = faceCount; faceCount > 0 && point < stations.length; point++) {
    yield [0, point];
    yield [point, faceCount - 1];
  }
}

/** Where a way runs through a block: from where it enters to where it leaves, and what its own ties allow between. */
type Stretch = Range & { readonly block: number; readonly enter: number; readonly leave: number };

/** What the bridges of a way allow together, and the blocks that it runs through. */
function walkWay({ graph, blocks, all }: Found, from: number, to: number): Range & { stretches: Stretch[] } {
  const { blockOf } = blocks;
  const ties = pathInForest(graph, all, from, to) ?? [];
  const stretches: Stretch[] = [];
  let [least, largest] = [0, 0];
  let here = from;
  for (let i = 0; i < ties.length;) {
    const block = blockOf[ties[i] as number] as number;
    const enter = here;
    let [min, max] = [0, 0];
    do {
      const tie = graph.ties[ties[i++] as number] as Tie;
      min += tie.from === here ? tie.min : -tie.max;
      max += tie.from === here ? tie.max : -tie.min;
      here = otherEnd(tie, here);
    } while (block >= 0 && i < ties.length && blockOf[ties[i] as number] === block);
    if (block >= 0) stretches.push({ block, enter, leave: here, min, max });
    else {
      least += min;
      largest += max;
    }
  }
  return { min: least, max: largest, stretches };
}

function spanOf(found: Found, search: BlockSearch, from: number, to: number): Range {
  const way = walkWay(found, from, to);
  let { min, max } = way;
  for (const stretch of way.stretches) {
    const { block, enter, leave } = stretch;
    min -= search.distance(block, leave, enter, -stretch.min);
    max += search.distance(block, enter, leave, stretch.max);
  }
  return { min, max };
}

/** Whether the lengths alone keep two stations in order at all their limits; mostly one way between them already does. */
function keptInOrder(found: Found, search: BlockSearch, left: number, right: number): boolean {
  if (leastAlong(found.graph, found.all, left, right) >= 0) return true;
  const { min, stretches } = walkWay(found, left, right);
  const most = (sum: number, { block, enter, leave, min: known }: Stretch) =>
    sum - search.searched(block, leave, enter, -known);
  return stretches.reduce(most, min) >= 0;
}

function pathBy({ graph, all, blocks: { blockOf } }: Found, search: BlockSearch): SpanSearch['path'] {
  return (from, to) => {
    const ties = pathInForest(graph, all, from, to);
    if (!ties) return null;
    if (ties.every((t) => (blockOf[t] as number) < 0)) return { ties, unique: true };
    const fewest: number[] = [];
    let here = from;
    for (let i = 0; i < ties.length;) {
      const block = blockOf[ties[i] as number] as number;
      const [enter, begin] = [here, i];
      do here = otherEnd(graph.ties[ties[i++] as number] as Tie, here);
      while (block >= 0 && i < ties.length && blockOf[ties[i] as number] === block);
      if (block >= 0 && i - begin > 1) fewest.push(...search.fewestTies(block, enter, here));
      else fewest.push(ties[begin] as number);
    }
    return { ties: fewest, unique: false };
  };
}
