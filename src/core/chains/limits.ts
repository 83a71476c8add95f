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

/** The constraints of the ties that `use` lets through, with the order of faces and points where `ordered`. */
export function constraintsOf(
  graph: ChainGraph,
  use: (tie: number) => boolean,
  ordered: boolean,
): Constraints {
  const { ties, stations, faceCount } = graph;
  const most = 2 * (ties.length + stations.length);
  const [from, to, tieOf] = [new Int32Array(most), new Int32Array(most), new Int32Array(most)];
  const weight = new Float64Array(most);
  let count = 0;
  const arc = (p: number, q: number, w: number, t: number) => {
    [from[count], to[count], weight[count], tieOf[count]] = [p, q, w, t];
    count++;
  };
  ties.forEach((tie, t) => {
    if (!use(t)) return;
    arc(tie.from, tie.to, tie.max, t);
    arc(tie.to, tie.from, -tie.min, t);
  });
  for (let face = 1; ordered && face < faceCount; face++) arc(face, face - 1, 0, -1);
  for (let point = faceCount; ordered && faceCount > 0 && point < stations.length; point++) {
    arc(faceCount - 1, point, 0, -1);
    arc(point, 0, 0, -1);
  }
  const ends = { from: from.subarray(0, count), to: to.subarray(0, count) };
  return {
    stations: stations.length,
    ...ends,
    weight: weight.subarray(0, count),
    tie: tieOf.subarray(0, count),
    ...outOf(stations.length, ends.from),
  };
}

/** Arcs by the station that they leave. */
function outOf(stations: number, from: Int32Array): Pick<Constraints, 'head' | 'arcAt'> {
  const head = new Int32Array(stations + 1);
  for (let a = 0; a < from.length; a++) {
    const after = (from[a] as number) + 1;
    head[after] = (head[after] as number) + 1;
  }
  for (let s = 0; s < stations; s++) head[s + 1] = (head[s + 1] as number) + (head[s] as number);
  const next = head.slice();
  const arcAt = new Int32Array(from.length);
  for (let a = 0; a < from.length; a++) {
    const station = from[a] as number;
    arcAt[next[station] as number] = a;
    next[station] = (next[station] as number) + 1;
  }
  return { head, arcAt };
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
 * Shortest distances from one station to all (the largest `z - z_station` that the constraints allow), or from all to it, in pm; infinite
 * where nothing ties them. Dijkstra's search on weights made non-negative by places that keep every constraint.
 */
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
  return { ...constraints, from: to, to: from, ...outOf(stations, to) };
}
