import type { ChainGraph } from './graph.ts';
import { Heap } from './heap.ts';

/**
 * The limits as difference constraints: an arc from p to q of weight w says `z_q <= z_p + w`. A tie gives two arcs; faces
 * stand in drawn order (`z_k <= z_{k+1}`), points between the first face and the last.
 */
export type Constraints = {
  readonly stations: number;
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly weight: Float64Array;
  /** Tie that an arc comes from; -1 for the order of faces and points. */
  readonly tie: Int32Array;
  /** Arcs out of station s: `arcAt[head[s]]` up to `arcAt[head[s + 1]]`. */
  readonly head: Int32Array;
  readonly arcAt: Int32Array;
};

/** Places that keep every constraint, or a closed walk of arcs whose weights add up to less than nothing. */
export type Feasibility =
  | { readonly possible: true; readonly places: Float64Array }
  | { readonly possible: false; readonly cycle: readonly number[] };

type Arc = readonly [from: number, to: number, weight: number, tie: number];

/** The constraints of the ties that `use` lets through, with the order of faces and points where `ordered`. */
export function constraintsOf(
  graph: ChainGraph,
  use: (tie: number) => boolean,
  ordered: boolean,
): Constraints {
  const arcs: Arc[] = [];
  graph.ties.forEach((tie, t) => {
    if (!use(t)) return;
    arcs.push([tie.from, tie.to, tie.max, t], [tie.to, tie.from, -tie.min, t]);
  });
  if (ordered) arcs.push(...orderArcs(graph));
  const stations = graph.stations.length;
  const head = new Int32Array(stations + 1);
  for (const [from] of arcs) head[from + 1] = (head[from + 1] as number) + 1;
  for (let s = 0; s < stations; s++) head[s + 1] = (head[s + 1] as number) + (head[s] as number);
  const next = head.slice();
  const arcAt = new Int32Array(arcs.length);
  arcs.forEach(([from], a) => {
    arcAt[next[from] as number] = a;
    next[from] = (next[from] as number) + 1;
  });
  return {
    stations,
    from: Int32Array.from(arcs, (arc) => arc[0]),
    to: Int32Array.from(arcs, (arc) => arc[1]),
    weight: Float64Array.from(arcs, (arc) => arc[2]),
    tie: Int32Array.from(arcs, (arc) => arc[3]),
    head,
    arcAt,
  };
}

function* orderArcs({ faceCount, stations }: ChainGraph): Generator<Arc> {
  for (let face = 1; face < faceCount; face++) yield [face, face - 1, 0, -1];
  if (faceCount === 0) return;
  for (let point = faceCount; point < stations.length; point++) {
    yield [faceCount - 1, point, 0, -1];
    yield [point, 0, 0, -1];
  }
}

/**
 * Bellman-Ford with a queue, begun at places that are likely right: places that keep every constraint, or the negative cycle
 * that proves that there are none. A negative cycle shows among the parent arcs, which are searched every `stations`
 * corrections.
 * Source: Cormen et al., Introduction to Algorithms, 3rd ed., 24.1 and 24.4 (difference constraints).
 */
export function findPlaces(constraints: Constraints, guess: Float64Array): Feasibility {
  const { stations, to, weight, head, arcAt } = constraints;
  const places = guess.slice();
  const parent = new Int32Array(stations).fill(-1);
  const waiting = new Uint8Array(stations).fill(1);
  let corrections = 0;
  let round = Array.from({ length: stations }, (_, s) => s);
  while (round.length > 0) {
    const next: number[] = [];
    for (const here of round) {
      waiting[here] = 0;
      for (let k = head[here] as number; k < (head[here + 1] as number); k++) {
        const arc = arcAt[k] as number;
        const there = to[arc] as number;
        const bound = (places[here] as number) + (weight[arc] as number);
        if (bound >= (places[there] as number)) continue;
        places[there] = bound;
        parent[there] = arc;
        if (!waiting[there]) next.push(there);
        waiting[there] = 1;
        const cycle = ++corrections % stations === 0 ? parentCycle(constraints, parent) : null;
        if (cycle) return { possible: false, cycle };
      }
    }
    round = next;
  }
  return { possible: true, places };
}

/** A cycle among the parent arcs, in the order it is walked; null where they form a forest. */
function parentCycle({ stations, from }: Constraints, parent: Int32Array): number[] | null {
  const walk = new Int32Array(stations);
  for (let s = 0; s < stations; s++) {
    for (let here = s; walk[here] === 0 && (parent[here] as number) >= 0;) {
      walk[here] = s + 1;
      here = from[parent[here] as number] as number;
      if (walk[here] !== s + 1) continue;
      const cycle: number[] = [];
      let back = here;
      do {
        const arc = parent[back] as number;
        cycle.push(arc);
        back = from[arc] as number;
      } while (back !== here);
      return cycle.reverse();
    }
  }
  return null;
}

/**
 * Shortest distance from one station to another (the largest `z_to - z_from` that the constraints allow), in pm; infinite where
 * nothing ties them. Dijkstra's search on weights made non-negative by places that keep every constraint.
 */
export function shortestDistance(
  constraints: Constraints,
  places: Float64Array,
  from: number,
  target: number,
): number {
  const { to, weight, head, arcAt } = constraints;
  const best = new Map([[from, 0]]);
  const done = new Set<number>();
  const heap = new Heap();
  heap.push(0, from);
  while (heap.size > 0) {
    const here = heap.pop();
    if (here === target) break;
    if (done.has(here)) continue;
    done.add(here);
    const reached = best.get(here) as number;
    for (let k = head[here] as number; k < (head[here + 1] as number); k++) {
      const arc = arcAt[k] as number;
      const there = to[arc] as number;
      const slack = (weight[arc] as number) + (places[here] as number) - (places[there] as number);
      if (reached + slack >= (best.get(there) ?? Infinity)) continue;
      best.set(there, reached + slack);
      heap.push(reached + slack, there);
    }
  }
  return (best.get(target) ?? Infinity) + (places[target] as number) - (places[from] as number);
}

/** Shortest distances from one station to all, or from all to it, in pm. */
export function shortestDistances(
  constraints: Constraints,
  places: Float64Array,
  station: number,
  way: 'from' | 'to',
): Float64Array {
  const turned = way === 'from' ? constraints : reversed(constraints);
  const { stations, to, weight, head, arcAt } = turned;
  const height = way === 'from' ? places : places.map((place) => -place);
  const best = new Float64Array(stations).fill(Infinity);
  const done = new Uint8Array(stations);
  const heap = new Heap();
  best[station] = 0;
  heap.push(0, station);
  while (heap.size > 0) {
    const here = heap.pop();
    if (done[here]) continue;
    done[here] = 1;
    for (let k = head[here] as number; k < (head[here + 1] as number); k++) {
      const arc = arcAt[k] as number;
      const there = to[arc] as number;
      const slack = (weight[arc] as number) + (height[here] as number) - (height[there] as number);
      const reached = (best[here] as number) + slack;
      if (reached >= (best[there] as number)) continue;
      best[there] = reached;
      heap.push(reached, there);
    }
  }
  return best.map((reached, s) => reached + (height[s] as number) - (height[station] as number));
}

function reversed(constraints: Constraints): Constraints {
  const { stations, from, to } = constraints;
  const head = new Int32Array(stations + 1);
  for (const end of to) head[end + 1] = (head[end + 1] as number) + 1;
  for (let s = 0; s < stations; s++) head[s + 1] = (head[s + 1] as number) + (head[s] as number);
  const next = head.slice();
  const arcAt = new Int32Array(to.length);
  to.forEach((end, arc) => {
    arcAt[next[end] as number] = arc;
    next[end] = (next[end] as number) + 1;
  });
  return { ...constraints, from: to, to: from, head, arcAt };
}
