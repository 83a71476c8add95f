import { nearest, toMm } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import type { SolvedChains } from '../chains/types.ts';
import { aimAt } from '../part/aim.ts';
import type { Limits, ResolvedMate, ResolvedPart, ResolvedSegment } from '../part/resolved.ts';
import type { DiameterRow } from '../report-types.ts';

type Taper = Extract<ResolvedSegment, { form: 'taper' }>;
type Range = { readonly min: Length; readonly max: Length; readonly aim: Length };

/**
 * Limits, aim and fit of every diameter in mm: one row for a cylinder or a thread, two for a taper. The aim is the middle of the limits, or
 * toward the metal side where asked; a thread's is its blank. A fit is worked out where the segment runs in or on a mate. Fields are null where the size could not
 * be read or does not follow; nothing is thrown.
 */
export function diameterRows(part: ResolvedPart, chains: SolvedChains): DiameterRow[] {
  return part.segments.flatMap((segment): DiameterRow[] => {
    if (segment.form === 'cylinder') {
      const range = aimed(segment.diameter, segment.metalSide);
      return [row(segment.id, null, range, segment.mate)];
    }
    if (segment.form === 'thread') return [row(segment.id, null, threadRange(segment), null)];
    const { start, end } = taperDiameters(segment, chains);
    return [row(segment.id, 'start', start, null), row(segment.id, 'end', end, null)];
  });
}

function row(
  segment: string,
  end: DiameterRow['end'],
  range: Partial<Range> | null,
  mate: ResolvedMate | null,
): DiameterRow {
  const mm = (length: Length | undefined) => (length === undefined ? null : toMm(length));
  const fit =
    mate && range?.min !== undefined && range.max !== undefined
      ? {
          clearance_min_mm: toMm(nearest(mate.min - range.max)),
          clearance_max_mm: toMm(nearest(mate.max - range.min)),
        }
      : null;
  return { segment, end, min_mm: mm(range?.min), max_mm: mm(range?.max), aim_mm: mm(range?.aim), fit };
}

const aimed = (size: Limits | null, metalSide = false): Range | null =>
  size && { min: size.min, max: size.max, aim: aimAt(size, metalSide) };

function threadRange({ thread }: Extract<ResolvedSegment, { form: 'thread' }>): Partial<Range> | null {
  return thread && { ...thread.major, aim: thread.blank };
}

/**
 * Both diameters of a taper. Where one is given with an angle, the other follows from the axial length, `D - d = 2 L tan α`, limits by corner
 * values; the given one is the large one unless the drawing says otherwise. Null where it does not follow or would be nothing.
 */
export function taperDiameters(
  taper: Taper,
  chains: SolvedChains,
): { start: Range | null; end: Range | null } {
  const start = aimed(binding(taper.start));
  const end = aimed(binding(taper.end));
  if (start && end) return { start, end };
  if (start) return { start, end: following(taper, start, 'start', chains) };
  if (end) return { start: following(taper, end, 'end', chains), end };
  return { start: null, end: null };
}

const binding = (size: Taper['start']) => (size && !size.reference ? size : null);

function following(taper: Taper, given: Range, which: 'start' | 'end', chains: SolvedChains): Range | null {
  const span = chains.span(taper.left, taper.right);
  const places = [taper.left, taper.right].map((station) => chains.places.get(station));
  if (!taper.angle || !span || span.min < 0) return null;
  const aimLength =
    places[0] && places[1] ? places[1].aim - places[0].aim : Math.floor((span.min + span.max) / 2);
  const slope = taper.angle.ratio ? taper.angle.ratio.num / taper.angle.ratio.den : 2 * taper.angle.tan;
  const [less, aimBy, more] = [span.min, aimLength, span.max].map((length) => length * slope) as [
    number,
    number,
    number,
  ];
  const smaller = (taper.large ?? which) === which;
  const [min, aim, max] = smaller
    ? [given.min - more, given.aim - aimBy, given.max - less]
    : [given.min + less, given.aim + aimBy, given.max + more];
  return min > 0 ? { min: nearest(min), aim: nearest(aim), max: nearest(max) } : null;
}
