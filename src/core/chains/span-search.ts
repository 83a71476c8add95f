import { findBlocks } from './blocks.ts';
import type { Blocks } from './blocks.ts';
import { BlockSearch } from './block-search.ts';
import { pathInForest } from './forest.ts';
import type { Forest } from './forest.ts';
import { graphOf, otherEnd } from './graph.ts';
import type { ChainGraph, Tie } from './graph.ts';

/** Answers for the tightest distance between any two stations. */
export type SpanSearch = {
  /** Largest `z_to - z_from` that all limits allow, in pm. Both stations must hang together. */
  readonly largest: (from: number, to: number) => number;
  /** Ties from one station to another, fewest first; and whether there is no other way. Null across groups. */
  readonly path: (from: number, to: number) => { ties: number[]; unique: boolean } | null;
};

type Found = { readonly graph: ChainGraph; readonly all: Forest; readonly blocks: Blocks };

/**
 * Prepares for spans. Where a way passes bridges it is a plain sum; only within blocks is there anything to search. The order of
 * two neighbours adds nothing where the lengths alone keep them in order at all their limits; elsewhere it counts as a tie of
 * its own, of no less than nothing. `places` keep all limits and the order; where none do, only ways are asked for.
 */
export function spanSearch(found: Found, places: Float64Array): SpanSearch {
  const search = new BlockSearch(found.graph, found.blocks.blockOf, places);
  let largest: SpanSearch['largest'] | null = null;
  return {
    largest: (from, to) => (largest ??= largestInOrder(found, places, search))(from, to),
    path: pathBy(found, search),
  };
}

function largestInOrder({ graph, all, blocks }: Found, places: Float64Array, search: BlockSearch) {
  const byLengths = largestBy(graph, all, blocks, search);
  const order = [...orderPairs(graph)]
    .filter(([left, right]) => all.tree[left] !== all.tree[right] || byLengths(right, left, 0) > 0)
    .map(([from, to]): Tie => ({ ...ORDER, from, to }));
  if (order.length === 0) return byLengths;
  const ordered = graphOf(graph, [...graph.ties, ...order]);
  const orderedBlocks = findBlocks(ordered);
  return largestBy(ordered, all, orderedBlocks, new BlockSearch(ordered, orderedBlocks.blockOf, places));
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

type Stretch = {
  /** Block that the stretch lies in; -1 for a bridge. */
  readonly block: number;
  readonly ties: readonly number[];
  readonly enter: number;
  readonly leave: number;
  /** Largest distance that the ties of the stretch allow. */
  readonly known: number;
};

/** Stretches of a way: a bridge, or all of one block from where the way enters to where it leaves. */
function stretches(graph: ChainGraph, { blockOf }: Blocks, ties: readonly number[], from: number): Stretch[] {
  const found: Stretch[] = [];
  let here = from;
  for (let i = 0; i < ties.length;) {
    const enter = here;
    const begin = i;
    const block = blockOf[ties[i] as number] as number;
    let known = 0;
    do {
      const tie = graph.ties[ties[i++] as number] as Tie;
      known += tie.from === here ? tie.max : -tie.min;
      here = otherEnd(tie, here);
    } while (block >= 0 && i < ties.length && blockOf[ties[i] as number] === block);
    found.push({ block, ties: ties.slice(begin, i), enter, leave: here, known });
  }
  return found;
}

/** Works out the largest distance; where one way already keeps it to `enough`, that way's will do. */
function largestBy(graph: ChainGraph, forest: Forest, blocks: Blocks, search: BlockSearch) {
  return (from: number, to: number, enough = -Infinity): number => {
    const way = stretches(graph, blocks, pathInForest(graph, forest, from, to) ?? [], from);
    const known = way.reduce((sum, stretch) => sum + stretch.known, 0);
    if (known <= enough) return known;
    return way.reduce((sum, { block, enter, leave, known: one }) => {
      return sum + (block < 0 ? one : search.distance(block, enter, leave, one));
    }, 0);
  };
}

function pathBy({ graph, all, blocks }: Found, search: BlockSearch): SpanSearch['path'] {
  return (from, to) => {
    const ties = pathInForest(graph, all, from, to);
    if (!ties) return null;
    if (ties.every((t) => blocks.bridge[t] === 1)) return { ties, unique: true };
    const fewest = [...stretches(graph, blocks, ties, from)].flatMap(({ block, ties, enter, leave }) =>
      block < 0 ? ties : search.fewestTies(block, enter, leave),
    );
    return { ties: fewest, unique: false };
  };
}
