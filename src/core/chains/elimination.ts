import type { ChainGraph, Tie } from './graph.ts';

/** A station taken out of its block: those it hung on at that time, and how far it may lie from each of them. */
export type TakenOut = {
  readonly station: number;
  readonly beside: readonly number[];
  /** Largest `z_beside - z_station`, and largest `z_station - z_beside`, that the block so far allows, in pm. */
  readonly ahead: readonly number[];
  readonly back: readonly number[];
};

/** A station that hangs on more others than this when its turn comes makes the search dearer than a search for each span. */
const MOST_BESIDE = 400;

/**
 * Takes the stations of a block out one by one, fewest neighbours first, and lets their neighbours know of each other what the
 * station knew: no way is lost. Among equals those go first that were touched least, so that the order has few levels.
 * Null where some station hangs on too many. On a block with few rings beyond a tree the neighbours stay few.
 * Source: Parter, The use of linear graphs in Gauss elimination, SIAM Review 3 (1961) 119, with (min, +) for (+, ×).
 */
export function takeOut(graph: ChainGraph, block: readonly number[]): TakenOut[] | null {
  const reach = reachOf(graph, block);
  const level = new Map<number, number>();
  const queue = new Turns();
  for (const [station, others] of reach) queue.put(station, others.size, 0);
  const order: TakenOut[] = [];
  while (order.length < reach.size) {
    const turn = queue.next();
    const others = reach.get(turn.station);
    const depth = level.get(turn.station) ?? 0;
    if (!others || depth < 0 || turn.count !== others.size || turn.level !== depth) continue;
    if (others.size > MOST_BESIDE) return null;
    level.set(turn.station, -1);
    const taken = detach(reach, turn.station, others);
    order.push(taken);
    joinAll(reach, taken);
    for (const other of taken.beside) {
      const deeper = Math.max(level.get(other) ?? 0, depth + 1);
      level.set(other, deeper);
      queue.put(other, reach.get(other)?.size ?? 0, deeper);
    }
  }
  return order;
}

/** Largest `z_q - z_p` by station p, then q, as single ties allow. */
type Reach = Map<number, Map<number, number>>;

function reachOf(graph: ChainGraph, block: readonly number[]): Reach {
  const reach: Reach = new Map();
  const note = (p: number, q: number, most: number) => {
    const others = reach.get(p) ?? new Map<number, number>();
    reach.set(p, others);
    others.set(q, Math.min(most, others.get(q) ?? Infinity));
  };
  for (const t of block) {
    const { from, to, min, max } = graph.ties[t] as Tie;
    note(from, to, max);
    note(to, from, -min);
  }
  return reach;
}

function detach(reach: Reach, station: number, others: ReadonlyMap<number, number>): TakenOut {
  const beside = [...others.keys()];
  const back = beside.map((other) => reach.get(other)?.get(station) ?? Infinity);
  for (const other of beside) reach.get(other)?.delete(station);
  return { station, beside, ahead: [...others.values()], back };
}

function joinAll(reach: Reach, { beside, ahead, back }: TakenOut): void {
  for (let i = 0; i < beside.length; i++) {
    const mine = reach.get(beside[i] as number);
    for (let j = 0; mine && j < beside.length; j++) {
      if (i === j) continue;
      const through = (back[i] as number) + (ahead[j] as number);
      const known = mine.get(beside[j] as number);
      if (known === undefined || through < known) mine.set(beside[j] as number, through);
    }
  }
}

type Turn = { readonly station: number; readonly count: number; readonly level: number };

/** Stations by how many they hang on, then by level; those put in anew leave stale turns behind. */
class Turns {
  private readonly shelves: Turn[][][] = [];
  private lowest = 0;

  put(station: number, count: number, level: number): void {
    const shelf = (this.shelves[count] ??= []);
    (shelf[level] ??= []).push({ station, count, level });
    this.lowest = Math.min(this.lowest, count);
  }

  /** The next turn. Throws RangeError where none is left: the caller's bug. */
  next(): Turn {
    for (; this.lowest < this.shelves.length; this.lowest++) {
      const turn = this.shelves[this.lowest]?.find((list) => list !== undefined && list.length > 0)?.pop();
      if (turn) return turn;
    }
    throw new RangeError('Turns.next: none left');
  }
}
