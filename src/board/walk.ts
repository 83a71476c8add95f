import { edgeIds } from '../core/part/resolve-edges.ts';
import type { DrawingPlaces } from '../core/outline/drawing-places.ts';
import type { Part } from '../core/part/types.ts';
import { sameChoice, type Choice } from './choice.ts';

export type Way = 'left' | 'right' | 'up' | 'down';

/**
 * Where the arrow keys go from a choice: left and right along stations and segments, down through the lengths, up
 * through holes, crossings and edges. From nothing: the first face.
 */
export function walk(part: Part, places: DrawingPlaces, from: Choice | null, way: Way): Choice | null {
  const along = alongAxis(part, places);
  const start = along[0] ?? null;
  if (!from) return start;
  if (way === 'left' || way === 'right') {
    const onAxis = along.some((c) => sameChoice(c, from));
    return onAxis ? step(along, from, way === 'left' ? -1 : 1) : ontoAxis(part, from, way, start);
  }
  const lengths = part.lengths.map((l): Choice => ({ kind: 'length', id: l.id }));
  const features: Choice[] = [
    ...part.holes.map((h): Choice => ({ kind: 'hole', id: h.id })),
    ...part.crossings.map((c): Choice => ({ kind: 'crossing', id: c.id })),
    ...edgeIds(part).map((id): Choice => ({ kind: 'edge', id })),
  ];
  const onward = way === 'down' ? 1 : -1;
  if (from.kind === 'length') return step(lengths, from, onward) ?? from;
  if (from.kind !== 'station' && from.kind !== 'segment') return step(features, from, -onward) ?? from;
  if (way === 'up') return features[0] ?? from;
  const beside = part.lengths.find((l) => stationsOf(part, from).some((id) => l.from === id || l.to === id));
  return beside ? { kind: 'length', id: beside.id } : (lengths[0] ?? from);
}

/** Stations and the segments between them, as they are drawn. */
function alongAxis(part: Part, places: DrawingPlaces): Choice[] {
  const at = (id: string | undefined) => places.at.get(id ?? '') ?? 0;
  const spots = [
    ...[...part.faces, ...part.points].map(({ id }) => ({
      mm: at(id),
      c: { kind: 'station', id } as Choice,
    })),
    ...part.segments.map(({ id }, k) => ({
      mm: (at(part.faces[k]?.id) + at(part.faces[k + 1]?.id)) / 2,
      c: { kind: 'segment', id } as Choice,
    })),
  ];
  return spots.sort((a, b) => a.mm - b.mm).map(({ c }) => c);
}

function step(list: readonly Choice[], from: Choice, by: number): Choice | null {
  const i = list.findIndex((c) => sameChoice(c, from));
  return list[Math.min(Math.max(i + by, 0), list.length - 1)] ?? null;
}

/** Back to the axis: a length leads to the station at that end of it, anything else to its own station. */
function ontoAxis(part: Part, from: Choice, way: Way, start: Choice | null): Choice | null {
  const length = part.lengths.find((l) => from.kind === 'length' && l.id === from.id);
  const crossing = part.crossings.find((c) => from.kind === 'crossing' && c.id === from.id);
  const hole = part.holes.find((h) => from.kind === 'hole' && h.id === from.id);
  const edge = part.edges[from.kind === 'edge' ? edgeIds(part).indexOf(from.id) : -1];
  const id = (way === 'left' ? length?.from : length?.to) ?? crossing?.at ?? hole?.from ?? edge?.face;
  return id === undefined ? start : { kind: 'station', id };
}

function stationsOf(part: Part, { kind, id }: Choice): string[] {
  const k = part.segments.findIndex((s) => kind === 'segment' && s.id === id);
  if (k < 0) return [id];
  return [part.faces[k]?.id, part.faces[k + 1]?.id].filter((face) => face !== undefined);
}
