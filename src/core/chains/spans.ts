import { nearest, toMm } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import { otherEnd } from './graph.ts';
import type { ChainGraph, Tie } from './graph.ts';
import type { Situation } from './situation.ts';
import type { ChainSpan } from './types.ts';

/** Tightest limits of `z_to - z_from` by all ties together, in pm; null across groups or where no part can meet them. */
export function tightest(
  situation: Situation,
  from: number,
  to: number,
): { min: Length; max: Length } | null {
  const { all, feasibility } = situation;
  if (!feasibility.possible || all.tree[from] !== all.tree[to]) return null;
  const { min, max } = situation.search().span(from, to);
  return { min: nearest(min), max: nearest(max) };
}

/** Ties from one station to another: fewest first, then file order; and whether there is no other way. Null across groups. */
export const pathBetween = (situation: Situation, from: number, to: number) =>
  situation.search().path(from, to);

/** Middle and half-width of the root-sum-square along ties from a station, in pm. Half-widths count as three sigma. */
export function rssAlong(
  graph: ChainGraph,
  ties: readonly number[],
  from: number,
): { middle: number; half: number } {
  let here = from;
  let doubled = 0;
  let squares = 0;
  for (const t of ties) {
    const tie = graph.ties[t] as Tie;
    doubled += tie.from === here ? tie.min + tie.max : -(tie.min + tie.max);
    for (const half of tie.halves) squares += half ** 2;
    here = otherEnd(tie, here);
  }
  return { middle: doubled / 2, half: Math.sqrt(squares) };
}

/** The report's line about the distance between two stations. */
export function spanBetween(situation: Situation, from: number, to: number): ChainSpan {
  const { graph, sound } = situation;
  const known = sound.tree[from] === sound.tree[to];
  const nominal = known ? nearest((sound.nominal[to] as number) - (sound.nominal[from] as number)) : null;
  const limits = tightest(situation, from, to);
  const path = pathBetween(situation, from, to);
  const rss = path?.unique && limits ? rssAlong(graph, path.ties, from) : null;
  const mm = (length: number | null | undefined) => (length == null ? null : toMm(nearest(length)));
  return {
    from: graph.stations[from] as string,
    to: graph.stations[to] as string,
    nominal_mm: mm(nominal),
    min_mm: mm(limits?.min),
    max_mm: mm(limits?.max),
    rss_min_mm: rss && mm(rss.middle - rss.half),
    rss_max_mm: rss && mm(rss.middle + rss.half),
    lengths: path?.ties.map((t) => (graph.ties[t] as Tie).id) ?? [],
  };
}

/** Spans of every requirement, every reference length and every segment, each pair of stations once. */
export function listSpans(situation: Situation): ChainSpan[] {
  const { part, graph } = situation;
  const wanted = [
    ...part.requirements.map(({ from, to }) => [from, to] as const),
    ...part.lengths.filter(({ size }) => size.reference).map(({ from, to }) => [from, to] as const),
    ...part.segments.map(({ left, right }) => [left, right] as const),
  ];
  const listed = new Set<number>();
  const spans: ChainSpan[] = [];
  for (const [a, b] of wanted) {
    const from = graph.numberOf.get(a);
    const to = graph.numberOf.get(b);
    if (from === undefined || to === undefined) continue;
    const pair = from * graph.stations.length + to;
    if (listed.has(pair)) continue;
    listed.add(pair);
    spans.push(spanBetween(situation, from, to));
  }
  return spans;
}
