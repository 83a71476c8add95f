import type { Tie } from '../chains/graph.ts';
import { takeStock } from '../chains/situation.ts';
import { nearest } from '../lengths/length.ts';
import type { ResolvedPart } from '../part/resolved.ts';
import { type Elastic, spreadEvenly } from './elastic.ts';
import { leastExcess } from './least-excess.ts';
import type { Places } from './types.ts';

/** A length, or a taper that acts as one, out of its limits. `by` in pm: above the greatest, or negative below the least. */
export type Beyond = { readonly length: string; readonly by: number };

export type Resolved = {
  /** Where every station stands or is now to be cut. */
  readonly places: Places;
  /** Between faces that stand already: nothing that is still to be cut can mend these. */
  readonly lost: readonly Beyond[];
  /** Cannot all be kept: the choice whose limits are exceeded by the least sum. */
  readonly given: readonly Beyond[];
  /** Faces stand in another order than they are drawn in, or an exact length is in the way; places stay at their aims. */
  readonly contradiction: boolean;
};

/**
 * Solves what remains of a part anew, with some of its faces standing where they came out.
 *
 * A face that stands is never moved. The others are placed so that every drawing length that can still be kept lies
 * within its limits: what has to give is shared among the lengths of a strained chain in proportion to the room that
 * each has from its aim to its limit, and a length that nothing strains keeps its aim. With all standing faces at their
 * aims nothing changes. Where not all limits can be kept, the least sum is given up.
 *
 * @param aims - Aim places from the first face, in pm; one for every station.
 * @param standing - Places of the faces that are cut, in the same coordinates.
 * @param keep - Lengths that are not to give way; passed over where they cannot be kept whatever gives way.
 */
export function resolveFaces(
  part: ResolvedPart,
  aims: Places,
  standing: Places,
  keep: ReadonlySet<string> = NONE,
): Resolved {
  const { graph } = takeStock(part);
  const start = Float64Array.from(graph.stations, (id) => aims.get(id) ?? 0);
  const fixed = new Map<number, number>();
  graph.stations.forEach((id, s) => {
    const place = standing.get(id);
    if (place !== undefined) fixed.set(s, place);
  });
  const lost = graph.ties.filter(({ from, to }) => fixed.has(from) && fixed.has(to));
  const elastics = graph.ties
    .filter(({ from, to }) => !fixed.has(from) || !fixed.has(to))
    .map((tie) => elasticOf(tie, start));
  const order = orderOf(graph.stations.length, graph.faceCount);
  const asDrawn = spreadEvenly(graph, elastics, fixed, start);
  const kept = asDrawn && beyondIn(elastics, asDrawn).length === 0 ? asDrawn : null;
  const found = kept ?? givingLeast({ graph, elastics, order, fixed, start, keep }) ?? asDrawn;
  const places = found ?? start.map((place, s) => fixed.get(s) ?? place);
  return {
    places: new Map(graph.stations.map((id, s) => [id, nearest(places[s] ?? 0)])),
    lost: beyondIn(
      lost.map((tie) => elasticOf(tie, start)),
      places,
    ),
    given: beyondIn(elastics, places),
    contradiction: found === null,
  };
}

const NONE: ReadonlySet<string> = new Set();

/** Aims are whole picometres, which may round an aim out of narrow limits by one. */
function elasticOf({ id, from, to, min, max }: Tie, aims: Float64Array): Elastic {
  const aim = Math.min(max, Math.max(min, (aims[to] ?? 0) - (aims[from] ?? 0)));
  return { id, from, to, aim, min, max };
}

function orderOf(stations: number, faces: number): [left: number, right: number][] {
  const order: [number, number][] = [];
  for (let face = 1; face < faces; face++) order.push([face - 1, face]);
  for (let point = faces; faces > 0 && point < stations; point++) order.push([0, point], [point, faces - 1]);
  return order;
}

type Strained = {
  graph: ReturnType<typeof takeStock>['graph'];
  elastics: readonly Elastic[];
  order: readonly (readonly [number, number])[];
  fixed: ReadonlyMap<number, number>;
  start: Float64Array;
  keep: ReadonlySet<string>;
};

function givingLeast({ graph, elastics, order, fixed, start, keep }: Strained): Float64Array | null {
  const excess = leastExcess(elastics, order, fixed, start, keep);
  if (!excess) return null;
  // Only those that must give way may go further; the rest is shared as ever.
  const widened = elastics.map((elastic, e) => {
    const more = excess[e] ?? 0;
    return { ...elastic, min: elastic.min - more, max: elastic.max + more };
  });
  return spreadEvenly(graph, widened, fixed, start);
}

function beyondIn(elastics: readonly Elastic[], places: Float64Array): Beyond[] {
  return elastics.flatMap(({ id, from, to, min, max }) => {
    const now = (places[to] ?? 0) - (places[from] ?? 0);
    const by = now > max ? now - max : now < min ? now - min : 0;
    return by === 0 ? [] : [{ length: id, by }];
  });
}
