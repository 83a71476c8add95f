import { type Length, pm } from '../lengths/length.ts';
import type { ResolvedCrossing, ResolvedPart } from '../part/resolved.ts';
import { diameterAt } from './corners.ts';
import type { OutlineCrossing, OutlineSegment } from './types.ts';

/** What is cut across the axis off the lathe, at aim places; left out where a point has no place. */
export function outlineCrossings(
  part: ResolvedPart,
  stations: ReadonlyMap<string, Length>,
  segments: readonly OutlineSegment[],
): OutlineCrossing[] {
  return part.crossings.flatMap((crossing) => {
    const from = stations.get(crossing.at);
    const to = crossing.form === 'hole' ? from : stations.get(crossing.to);
    if (from === undefined || to === undefined) return [];
    const common = { id: crossing.id, form: crossing.form, angleDeg: crossing.angleDeg };
    const place = { z0: pm(Math.min(from, to)), z1: pm(Math.max(from, to)) };
    const here = segments.find((s) => place.z0 >= s.z0 && place.z0 <= s.z1);
    return [{ ...common, ...place, ...extent(crossing, here ? diameterAt(here, place.z0) : 0) }];
  });
}

function extent(crossing: ResolvedCrossing, d: number): Pick<OutlineCrossing, 'size' | 'depth' | 'reaches'> {
  if (crossing.form === 'hole') {
    const { reaches } = crossing;
    const named = typeof reaches === 'string';
    return {
      size: crossing.diameter.nominal,
      depth: named ? null : reaches.nominal,
      reaches: named ? reaches : 'depth',
    };
  }
  if (crossing.form === 'keyseat')
    return { size: crossing.width.nominal, depth: crossing.depth.nominal, reaches: 'depth' };
  // Across a single flat is what a micrometer reads over it: the rest of the diameter is its depth.
  const across = crossing.across?.nominal;
  const depth = crossing.depth?.nominal ?? (across !== undefined && across < d ? pm(d - across) : null);
  return { size: depth ?? pm(0), depth, reaches: 'depth' };
}
