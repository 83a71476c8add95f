import { type Length, pm } from '../lengths/length.ts';
import type { ResolvedCrossing, ResolvedPart } from '../part/resolved.ts';
import type { OutlineCrossing } from './types.ts';

/** What is cut across the axis off the lathe, at aim places; left out where a point has no place. */
export function outlineCrossings(
  part: ResolvedPart,
  stations: ReadonlyMap<string, Length>,
): OutlineCrossing[] {
  return part.crossings.flatMap((crossing) => {
    const from = stations.get(crossing.at);
    const to = crossing.form === 'hole' ? from : stations.get(crossing.to);
    if (from === undefined || to === undefined) return [];
    const common = { id: crossing.id, form: crossing.form, angleDeg: crossing.angleDeg };
    const place = { z0: pm(Math.min(from, to)), z1: pm(Math.max(from, to)) };
    return [{ ...common, ...place, ...extent(crossing) }];
  });
}

function extent(crossing: ResolvedCrossing): Pick<OutlineCrossing, 'size' | 'depth' | 'reaches'> {
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
  const depth = crossing.depth?.nominal ?? null;
  return { size: crossing.across?.nominal ?? depth ?? pm(0), depth, reaches: 'depth' };
}
