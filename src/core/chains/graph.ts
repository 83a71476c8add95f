import type { ResolvedPart } from '../part/resolved.ts';
import { taperTie } from './taper-tie.ts';

/** What a tie says about the distance from one station to another, in pm. */
export type Distance = {
  readonly nominal: number;
  readonly min: number;
  readonly max: number;
  /** Half the width of each independent part of it: a length's own; a taper's two, one for each diameter. */
  readonly halves: readonly number[];
  /**
   * By how much the true distance may lie off `nominal` before a loop counts as open: zero for what is exact, the
   * corner limits of a taper whose tangent is irrational.
   */
  readonly give: readonly [low: number, high: number];
};

/** A binding length, or a taper that acts as one. `from` and `to` are numbers of stations, `from` at the left. */
export type Tie = Distance & {
  readonly id: string;
  readonly from: number;
  readonly to: number;
  /** Index into `part.lengths`, null for a taper. */
  readonly length: number | null;
};

/** Stations as numbers (faces in drawn order, then points), ties in file order (lengths, then tapers). */
export type ChainGraph = {
  readonly stations: readonly string[];
  readonly numberOf: ReadonlyMap<string, number>;
  readonly faceCount: number;
  readonly ties: readonly Tie[];
  /** Ties at station `s`: `tieAt[head[s]]` up to `tieAt[head[s + 1]]`, in file order. */
  readonly head: Int32Array;
  readonly tieAt: Int32Array;
  /** The station at the other end of each of these, and how far the nominal distance leads there, to the drawn right, in pm. */
  readonly thereAt: Int32Array;
  readonly stepAt: Float64Array;
  /** Whether no tie gives. */
  readonly exact: boolean;
};

/** The stations of a part and what ties them together. References and lengths to unknown stations are left out. */
export function chainGraph(part: ResolvedPart): ChainGraph {
  const stations = [...part.faces, ...part.points];
  const numberOf = new Map(stations.map((id, i) => [id, i]));
  const ties: Tie[] = [];
  part.lengths.forEach((length, i) => {
    const from = numberOf.get(length.from);
    const to = numberOf.get(length.to);
    if (length.size.reference || from === undefined || to === undefined) return;
    const { nominal, min, max } = length.size;
    ties.push({
      id: length.id,
      from,
      to,
      length: i,
      nominal,
      min,
      max,
      halves: [(max - min) / 2],
      give: [0, 0],
    });
  });
  for (const segment of part.segments) {
    const from = numberOf.get(segment.left);
    const to = numberOf.get(segment.right);
    const distance = segment.form === 'taper' ? taperTie(segment) : null;
    if (!distance || from === undefined || to === undefined) continue;
    ties.push({ id: segment.id, from, to, length: null, ...distance });
  }
  return graphOf({ stations, numberOf, faceCount: part.faces.length }, ties);
}

/** The same stations with these ties. */
export function graphOf(
  { stations, numberOf, faceCount }: Pick<ChainGraph, 'stations' | 'numberOf' | 'faceCount'>,
  ties: readonly Tie[],
): ChainGraph {
  return { stations, numberOf, faceCount, ties, ...adjacency(stations.length, ties) };
}

/** The station at the other end of a tie. */
export const otherEnd = (tie: Tie, station: number): number => (tie.from === station ? tie.to : tie.from);

/** +1 where walking the tie from `station` goes to the drawn right, else -1. */
export const directionFrom = (tie: Tie, station: number): 1 | -1 => (tie.from === station ? 1 : -1);

type Adjacency = Pick<ChainGraph, 'head' | 'tieAt' | 'thereAt' | 'stepAt' | 'exact'>;

function adjacency(count: number, ties: readonly Tie[]): Adjacency {
  const head = new Int32Array(count + 1);
  const bump = (list: Int32Array, i: number) => (list[i] = (list[i] as number) + 1);
  for (const tie of ties) {
    bump(head, tie.from + 1);
    bump(head, tie.to + 1);
  }
  for (let s = 0; s < count; s++) head[s + 1] = (head[s + 1] as number) + (head[s] as number);
  const next = head.slice();
  const tieAt = new Int32Array(2 * ties.length);
  const thereAt = new Int32Array(2 * ties.length);
  const stepAt = new Float64Array(2 * ties.length);
  let exact = true;
  ties.forEach(({ from, to, nominal, give }, i) => {
    const right = bump(next, from) - 1;
    tieAt[right] = i;
    thereAt[right] = to;
    stepAt[right] = nominal;
    const left = bump(next, to) - 1;
    tieAt[left] = i;
    thereAt[left] = from;
    stepAt[left] = -nominal;
    exact &&= give[0] === 0 && give[1] === 0;
  });
  return { head, tieAt, thereAt, stepAt, exact };
}
