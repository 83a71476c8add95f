import { labelBlock } from './block-labels.ts';
import type { BlockLabels } from './block-labels.ts';
import type { Blocks } from './blocks.ts';
import { otherEnd } from './graph.ts';
import type { ChainGraph, Tie } from './graph.ts';
import { Heap } from './heap.ts';

/** Where a search stands: what it has reached so far, from one end. Reused, so that a search costs only what it visits. */
type Side = {
  readonly best: Float64Array;
  readonly visited: Int32Array;
  readonly done: Int32Array;
  /** Tie that leads back to where the side began. */
  readonly toward: Int32Array;
  readonly heap: Heap;
};

/**
 * Shortest ways between two stations of one block, by limits and by count of ties.
 *
 * Distances are found by Dijkstra's search from both ends at once, on weights made non-negative by places that keep all limits;
 * a search ends when both together have come further than the best way known. O(ties of the block) at worst.
 * Source: Nicholson, Finding the shortest route between two points in a network, Computer J. 9 (1966) 275.
 */
export class BlockSearch {
  private readonly graph: ChainGraph;
  private readonly blocks: Blocks;
  private readonly blockOf: Int32Array;
  private readonly places: Float64Array;
  private readonly labels = new Map<number, BlockLabels | null>();
  private readonly bothSides: Side[] = [];
  private round = 0;

  constructor(graph: ChainGraph, blocks: Blocks, places: Float64Array) {
    this.graph = graph;
    this.blocks = blocks;
    this.blockOf = blocks.blockOf;
    this.places = places;
  }

  /** Made when they are first wanted, as many parts need none. */
  private get sides(): readonly [Side, Side] {
    const { bothSides, places } = this;
    if (bothSides.length === 0) bothSides.push(newSide(places.length), newSide(places.length));
    return bothSides as unknown as readonly [Side, Side];
  }

  /** Largest `z_to - z_from` that the limits of the block allow, in pm; `known`: what one way between them allows. For many questions. */
  distance(block: number, from: number, to: number, known: number): number {
    const labels = this.labelsOf(block);
    return labels ? labels.distance(from, to) : this.searched(block, from, to, known);
  }

  private labelsOf(block: number): BlockLabels | null {
    const before = this.labels.get(block);
    if (before !== undefined) return before;
    const labels = labelBlock(this.graph, this.blocks.blocks[block] ?? []);
    this.labels.set(block, labels);
    return labels;
  }

  /** The same for a few questions, without preparing the block. */
  searched(block: number, from: number, to: number, known: number): number {
    this.round++;
    const rise = (this.places[to] as number) - (this.places[from] as number);
    const [ahead, back] = this.sides;
    for (const [side, end] of [
      [ahead, from],
      [back, to],
    ] as const) {
      side.heap.clear();
      this.reach(side, end, 0);
    }
    let least = known - rise;
    while (ahead.heap.least + back.heap.least < least) {
      const forward = ahead.heap.least <= back.heap.least;
      least = Math.min(least, this.advance(block, forward, least));
    }
    return least + rise;
  }

  /** Takes the nearest open station of one side and passes on from it; the least way that meets the other side, so far. */
  private advance(block: number, forward: boolean, bound: number): number {
    const { graph, places, round } = this;
    const [mine, other] = forward ? this.sides : [this.sides[1], this.sides[0]];
    const here = mine.heap.pop();
    if (mine.done[here] === round) return bound;
    mine.done[here] = round;
    const reached = mine.best[here] as number;
    let least = bound;
    for (let k = graph.head[here] as number; k < (graph.head[here + 1] as number); k++) {
      const t = graph.tieAt[k] as number;
      if (this.blockOf[t] !== block) continue;
      const tie = graph.ties[t] as Tie;
      const rise = (places[tie.to] as number) - (places[tie.from] as number);
      // From its left end a tie is walked by its greatest distance, from its right end by its least; backwards the other way about.
      const slack = (tie.from === here) === forward ? tie.max - rise : rise - tie.min;
      const there = graph.thereAt[k] as number;
      const longer = reached + slack;
      if (longer >= least) continue;
      if (mine.visited[there] === round && longer >= (mine.best[there] as number)) continue;
      this.reach(mine, there, longer);
      if (other.visited[there] === round) least = Math.min(least, longer + (other.best[there] as number));
    }
    return least;
  }

  private reach(side: Side, station: number, distance: number): void {
    side.best[station] = distance;
    side.visited[station] = this.round;
    side.heap.push(distance, station);
  }

  /**
   * Fewest ties from one station to another within the block, in the order they are walked: from both ends in turn, tie after tie in
   * file order, until they meet; the first meeting of fewest ties counts.
   */
  fewestTies(block: number, from: number, to: number): number[] {
    const round = ++this.round;
    const steps = this.sides.map((side, i): Steps => {
      const start = i === 0 ? from : to;
      side.visited[start] = round;
      side.best[start] = 0;
      return { side, edge: [start] };
    });
    for (;;) {
      const [ahead, back] = steps as [Steps, Steps];
      const [mine, other] = ahead.edge.length <= back.edge.length ? [ahead, back] : [back, ahead];
      const met = this.widen(block, mine, other);
      if (met >= 0) return [...this.walkBack(ahead, met).reverse(), ...this.walkBack(back, met)];
    }
  }

  /** Goes one tie further from every station at the edge; the station where fewest ties meet the other side, -1 while none does. */
  private widen(block: number, mine: Steps, other: Steps): number {
    const { graph, blockOf, round } = this;
    const { best, visited, toward } = mine.side;
    const next: number[] = [];
    let [met, fewest] = [-1, Infinity];
    for (const here of mine.edge) {
      for (let k = graph.head[here] as number; k < (graph.head[here + 1] as number); k++) {
        const t = graph.tieAt[k] as number;
        if (blockOf[t] !== block) continue;
        const there = graph.thereAt[k] as number;
        if (visited[there] === round) continue;
        visited[there] = round;
        toward[there] = t;
        best[there] = (best[here] as number) + 1;
        next.push(there);
        if (other.side.visited[there] !== round || (other.side.best[there] as number) >= fewest) continue;
        [met, fewest] = [there, other.side.best[there] as number];
      }
    }
    mine.edge = next;
    return met;
  }

  /** Ties from a station back to where one side began. */
  private walkBack({ side }: Steps, station: number): number[] {
    const ties: number[] = [];
    for (let here = station; side.best[here] !== 0;) {
      const t = side.toward[here] as number;
      ties.push(t);
      here = otherEnd(this.graph.ties[t] as Tie, here);
    }
    return ties;
  }
}

/** One side of a search by count of ties: the stations it has just reached. */
type Steps = { readonly side: Side; edge: number[] };

const newSide = (stations: number): Side => ({
  best: new Float64Array(stations),
  visited: new Int32Array(stations),
  done: new Int32Array(stations),
  toward: new Int32Array(stations),
  heap: new Heap(),
});
