import { fromMm, type Length, pm, toMm } from '../lengths/length.ts';
import type {
  ResolvedCrossing,
  ResolvedEdge,
  ResolvedHole,
  ResolvedPart,
  ResolvedSize,
} from '../part/resolved.ts';
import type { DiameterRow } from '../report-types.ts';
import type { FaceLog } from './face-log.ts';
import { cutAfterwards } from './final-size.ts';
import type { Measured } from './read-actual.ts';
import type { Placed } from './step-name.ts';
import type { InspectionRow, Verdict } from './types.ts';

/** A size of the log; `midway` where metal was still to be cut from it afterwards. */
type Entry = { readonly actual: Measured; readonly size: Length; readonly midway: boolean };
type Wanted = Pick<InspectionRow, 'of' | 'size' | 'min_mm' | 'max_mm' | 'aim_mm'>;

/** In limits, which are inclusive; else by how much beyond the nearer one, in pm. */
export function verdictOf(
  measured: Length | null,
  min: Length,
  max: Length,
): { verdict: Verdict; by: Length } {
  if (measured === null) return { verdict: 'not measured', by: pm(0) };
  if (measured > max) return { verdict: 'over', by: pm(measured - max) };
  if (measured < min) return { verdict: 'under', by: pm(min - measured) };
  return { verdict: 'in', by: pm(0) };
}

/**
 * The inspection record: every size that has limits, with what was measured last. A diameter from which metal was still
 * to be cut has no verdict by it, unless it is past the limit already that cutting leads away from. A length counts as measured where its
 * faces were, one from the other or over faces between. A thread wants its major diameter (`size`, field `major`): the
 * blank's diameter is another size. References and sizes without limits are left out.
 */
export function inspect(
  part: ResolvedPart,
  diameters: readonly DiameterRow[],
  faces: FaceLog,
  measured: readonly { readonly actual: Measured; readonly size: Length }[],
  steps: readonly Placed[],
): InspectionRow[] {
  const entries = measured.map((one): Entry => ({ ...one, midway: cutAfterwards(one.actual, steps) }));
  const holes = new Set(part.holes.map(({ id }) => id));
  const threads = new Set(part.segments.filter(({ form }) => form === 'thread').map(({ id }) => id));
  const onDiameters = diameters.flatMap((row): Wanted[] => {
    if (row.min_mm === null || row.max_mm === null || row.min_mm === row.max_mm) return [];
    const size = threads.has(row.segment) ? 'major' : (row.end ?? 'diameter');
    const aim_mm = threads.has(row.segment) ? null : row.aim_mm;
    return [{ of: row.segment, size, min_mm: row.min_mm, max_mm: row.max_mm, aim_mm }];
  });
  const others = [
    ...part.holes.flatMap(holeSizes),
    ...part.edges.flatMap(edgeSizes),
    ...part.crossings.flatMap(crossingSizes),
  ];
  const rows = [...onDiameters, ...others].map((wanted) => judged(wanted, entries, holes.has(wanted.of)));
  return [...rows, ...lengthRows(part, faces, entries)];
}

/** Whether an entry of the log measured this size. */
function measures({ actual }: Entry, { of, size }: Wanted): boolean {
  if (actual.what === 'face' || actual.what === 'touch' || actual.what === 'fit' || actual.of !== of)
    return false;
  return actual.what === 'size' ? actual.field === size : (actual.end ?? 'diameter') === size;
}

function judged(wanted: Wanted, entries: readonly Entry[], inside: boolean): InspectionRow {
  const [min, max] = [fromMm(wanted.min_mm), fromMm(wanted.max_mm)];
  const taken = entries.filter((one) => measures(one, wanted));
  // Metal that is gone does not come back: past the far limit is past it, whatever is still to be cut.
  const spoilt = ({ size }: Entry) => (inside ? size > max : size < min);
  const entry = taken.findLast((one) => !one.midway || spoilt(one));
  const size = entry?.size ?? null;
  const { verdict, by } = verdictOf(size, min, max);
  return {
    ...wanted,
    between: null,
    measured_mm: size === null ? null : toMm(size),
    typed: entry?.actual.text ?? null,
    midway: entry ? null : (taken.at(-1)?.actual.text ?? null),
    verdict,
    by_mm: toMm(by),
  };
}

function sized(of: string, size: string, written: ResolvedSize | null): Wanted[] {
  if (!written || written.reference || written.min === written.max) return [];
  const { min, max } = written;
  return [{ of, size, min_mm: toMm(min), max_mm: toMm(max), aim_mm: null }];
}

function holeSizes(hole: ResolvedHole): Wanted[] {
  if (hole.form === 'centre') return [];
  if (hole.form === 'tap') return sized(hole.id, 'depth', hole.depth);
  return [...sized(hole.id, 'diameter', hole.diameter), ...sized(hole.id, 'depth', hole.depth)];
}

function edgeSizes(edge: ResolvedEdge): Wanted[] {
  if (edge.form === 'chamfer') return sized(edge.id, 'size', edge.size);
  if (edge.form === 'fillet') return sized(edge.id, 'radius', edge.radius);
  return [...sized(edge.id, 'width', edge.width), ...sized(edge.id, 'depth', edge.depth)];
}

function crossingSizes(crossing: ResolvedCrossing): Wanted[] {
  const { id } = crossing;
  if (crossing.form === 'keyseat')
    return [...sized(id, 'width', crossing.width), ...sized(id, 'depth', crossing.depth)];
  if (crossing.form === 'flat')
    return [...sized(id, 'across', crossing.across), ...sized(id, 'depth', crossing.depth)];
  const { reaches } = crossing;
  return [
    ...sized(id, 'diameter', crossing.diameter),
    ...sized(id, 'depth', typeof reaches === 'string' ? null : reaches),
  ];
}

type Between = { id: string; from: string; to: string; min: Length; max: Length; size: string };

function lengthRows(part: ResolvedPart, faces: FaceLog, entries: readonly Entry[]): InspectionRow[] {
  const lengths = part.lengths
    .filter(({ size }) => !size.reference && size.min !== size.max)
    .map(({ id, from, to, size }): Between => ({
      id,
      from,
      to,
      min: size.min,
      max: size.max,
      size: 'length',
    }));
  const requirements = part.requirements.map((r): Between => ({ ...r, size: 'requirement' }));
  return [...lengths, ...requirements].map(({ id, from, to, min, max, size }) => {
    const apart = (faces.standing.get(to) ?? 0) - (faces.standing.get(from) ?? 0);
    const measured = faces.known(from, to) ? pm(apart) : null;
    const { verdict, by } = verdictOf(measured, min, max);
    const typed = entries.findLast(
      ({ actual, size: was }) =>
        actual.what === 'face' &&
        ((actual.of === to && actual.from === from) || (actual.of === from && actual.from === to)) &&
        was === Math.abs(apart),
    );
    return {
      of: id,
      size,
      between: [from, to],
      min_mm: toMm(min),
      max_mm: toMm(max),
      aim_mm: null,
      measured_mm: measured === null ? null : toMm(measured),
      typed: typed?.actual.text ?? null,
      midway: null,
      verdict,
      by_mm: toMm(by),
    };
  });
}
