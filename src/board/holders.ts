import { isReference, type DrawingPlaces } from '../core/outline/drawing-places.ts';
import type { Part } from '../core/part/types.ts';

/** Ids of the lengths (and tapers) that hold a placed station, the one with the nearest other end first. */
export function holdersOf(part: Part, places: DrawingPlaces, station: string): string[] {
  const far = (from: string, to: string) => Math.abs((places.at.get(from) ?? 0) - (places.at.get(to) ?? 0));
  const lengths = part.lengths
    .filter((l) => !isReference(l) && (l.from === station || l.to === station))
    .map((l) => ({ id: l.id, far: far(l.from, l.to) }))
    .sort((a, b) => a.far - b.far);
  if (lengths.length > 0) return lengths.map(({ id }) => id);
  const k = part.faces.findIndex((f) => f.id === station);
  return [part.segments[k - 1], part.segments[k]].flatMap((s) => (s?.form === 'taper' ? [s.id] : []));
}
