import { findBlocks } from './blocks.ts';
import type { Blocks } from './blocks.ts';
import { directionFrom, otherEnd } from './graph.ts';
import type { ChainGraph, Tie } from './graph.ts';
import { firstDifference, shortestLoops } from './shortest-loops.ts';

/** A loop of ties. Walking round it once, ties are passed with `signs` (+1 to the drawn right). */
export type Loop = {
  /** Numbers of its ties, in file order. */
  readonly ties: readonly number[];
  readonly signs: readonly (1 | -1)[];
  /** Signed sum of the nominal distances, in pm: by how much the walk misses its start. */
  readonly gap: number;
  /** Whether it closes: the gap is zero, or within the corner limits of its irrational tapers. */
  readonly closes: boolean;
  /** How far the irrational tapers in it let the signed sum wander, in pm: it closes where `gap + give` reaches zero. */
  readonly give: readonly [low: number, high: number];
  /**
   * How much of the gap its limits cannot take up, in pm: 0 or less where some choice of distances within all limits
   * closes the loop.
   */
  readonly shortBy: number;
};

/** A shortest set of independent loops: fewest ties first, then file order; and the blocks they lie in. */
export function findLoops(graph: ChainGraph): { loops: Loop[]; blocks: Blocks } {
  const blocks = findBlocks(graph);
  const loops = blocks.blocks
    .flatMap((block) => shortestLoops(graph, block))
    .sort((p, q) => p.length - q.length || firstDifference(p, q))
    .map((ties) => walkedLoop(graph, ties));
  return { loops, blocks };
}

function walkedLoop(graph: ChainGraph, ties: readonly number[]): Loop {
  const signs = walk(graph, ties);
  let gap = 0;
  let [giveLow, giveHigh, low, high] = [0, 0, 0, 0];
  ties.forEach((t, i) => {
    const tie = graph.ties[t] as Tie;
    const forward = signs[i] === 1;
    gap += forward ? tie.nominal : -tie.nominal;
    giveLow += forward ? tie.give[0] : -tie.give[1];
    giveHigh += forward ? tie.give[1] : -tie.give[0];
    low += forward ? tie.min : -tie.max;
    high += forward ? tie.max : -tie.min;
  });
  const closes = gap + giveLow <= 0 && gap + giveHigh >= 0;
  return { ties, signs, gap, closes, give: [giveLow, giveHigh], shortBy: Math.max(low, -high) };
}

/** The sign with which each tie is passed, starting along the first one to the drawn right. */
function walk(graph: ChainGraph, ties: readonly number[]): (1 | -1)[] {
  const signs = ties.map((): 1 | -1 => 1);
  for (const { index, station } of steps(graph, ties)) {
    signs[index] = directionFrom(graph.ties[ties[index] as number] as Tie, station);
  }
  return signs;
}

/** Stations in the order in which a walk round the loop leaves them, starting along the first tie to the drawn right. */
export function walkedStations(graph: ChainGraph, ties: readonly number[]): number[] {
  return [...steps(graph, ties)].map(({ station }) => station);
}

/** A walk round the loop: which of its ties comes next, and the station it is left from. */
function* steps(graph: ChainGraph, ties: readonly number[]): Generator<{ index: number; station: number }> {
  const tiesAt = new Map<number, number[]>();
  ties.forEach((t, i) => {
    const tie = graph.ties[t] as Tie;
    for (const station of [tie.from, tie.to]) {
      const list = tiesAt.get(station);
      if (list) list.push(i);
      else tiesAt.set(station, [i]);
    }
  });
  let station = (graph.ties[ties[0] as number] as Tie).from;
  let index = 0;
  for (let step = 0; step < ties.length; step++) {
    yield { index, station };
    station = otherEnd(graph.ties[ties[index] as number] as Tie, station);
    index = tiesAt.get(station)?.find((other) => other !== index) ?? index;
  }
}
