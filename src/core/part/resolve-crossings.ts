import { readAngle } from '../lengths/read-angle.ts';
import { fault, valueAt, warn, type ResolveContext } from './resolve-context.ts';
import type { ResolvedCrossing, ResolvedSize } from './resolved.ts';
import { stationAt } from './resolve-lengths.ts';
import { resolveSize } from './resolve-size.ts';
import type { Crossing, Part, SizeText } from './types.ts';

type Common = { readonly id: string; readonly index: number; readonly at: string; readonly angleDeg: number };

function reachOf(
  context: ResolveContext,
  reaches: SizeText,
  where: string,
): 'axis' | 'through' | ResolvedSize | null {
  const word = typeof reaches === 'string' ? reaches.trim().toLowerCase() : '';
  if (word === 'axis' || word === 'through') return word;
  return resolveSize(context, reaches, where, 'length');
}

/** The far end of a keyseat or a flat: another station than the one it begins at. */
function farEnd(context: ResolveContext, at: string, to: string, where: string): boolean {
  if (!stationAt(context, to, where)) return false;
  if (at !== to) return true;
  fault(context, 'length-to-itself', where, `Both ends are at “${to}”.`, { id: to });
  return false;
}

function resolveFlat(
  context: ResolveContext,
  flat: Extract<Crossing, { form: 'flat' }>,
  where: string,
  common: Common | null,
): ResolvedCrossing | null {
  const far = farEnd(context, flat.at, flat.to, `${where}.to`);
  const optional = (size: SizeText | undefined, field: string) =>
    size === undefined ? undefined : resolveSize(context, size, `${where}.${field}`, 'length');
  const across = optional(flat.across, 'across');
  const depth = optional(flat.depth, 'depth');
  if (across === undefined && depth === undefined) {
    fault(context, 'flat-without-size', `${where}.across`, 'A flat needs its size across or its depth.', {
      id: flat.id,
    });
    return null;
  }
  if (across && depth) {
    warn(
      context,
      'flat-said-twice',
      `${where}.depth`,
      'The flat has a size across and a depth; the first holds.',
    );
  }
  if (!common || !far || across === null || depth === null) return null;
  return { ...common, form: 'flat', to: flat.to, across: across ?? null, depth: depth ?? null };
}

function resolveCrossing(
  context: ResolveContext,
  crossing: Crossing,
  index: number,
): ResolvedCrossing | null {
  const where = `crossings[${index}]`;
  const known = stationAt(context, crossing.at, `${where}.at`);
  const angleDeg = valueAt(context, readAngle(crossing.angle ?? '0°'), `${where}.angle`);
  const common = known && angleDeg !== null ? { id: crossing.id, index, at: crossing.at, angleDeg } : null;
  if (crossing.form === 'flat') return resolveFlat(context, crossing, where, common);
  if (crossing.form === 'hole') {
    const diameter = resolveSize(context, crossing.diameter, `${where}.diameter`, 'hole');
    const reaches = reachOf(context, crossing.reaches, `${where}.reaches`);
    return common && diameter && reaches && { ...common, form: 'hole', diameter, reaches };
  }
  const far = farEnd(context, crossing.at, crossing.to, `${where}.to`);
  const width = resolveSize(context, crossing.width, `${where}.width`, 'length');
  const depth = resolveSize(context, crossing.depth, `${where}.depth`, 'length');
  if (!common || !far || !width || !depth) return null;
  return { ...common, form: 'keyseat', to: crossing.to, width, depth };
}

/** All crossings that can be read and whose stations are known. Without an angle they stand at the scribed line. */
export function resolveCrossings(context: ResolveContext, part: Part): readonly ResolvedCrossing[] {
  return part.crossings.flatMap((crossing, i) => resolveCrossing(context, crossing, i) ?? []);
}
