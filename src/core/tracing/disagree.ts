import { explainMisread, inStyleOf, likelyValues } from '../chains/misread.ts';
import { fromMm, toMm, type Length, type Unit } from '../lengths/length.ts';
import { writeDecimal } from '../lengths/write.ts';
import type { ResolvedPart, ResolvedSegment, ResolvedSize } from '../part/resolved.ts';
import type { Part } from '../part/types.ts';
import type { Problem } from '../problem.ts';
import { onDrawing } from './place.ts';
import { readScan, type Scan, type TallTrace, type Trace } from './scan.ts';
import { scaledDiameter, scaledLength, tallTracesOf, tracesOf, type Scaled } from './trace.ts';

/**
 * What the traced picture has to say about the sizes, as warnings: `scan-unreadable` where the picture cannot be shown,
 * and `scan-disagrees` for each length, bracketed ones too, that is written otherwise than it measures in the picture,
 * by more than the tracing can be off; so for each plain diameter of a land that was traced as tall as it is, for the
 * outside of a thread, and for the end of a taper where its outline was pointed at. Only lengths between two traced
 * places are looked at. What is scaled is never used as a size.
 */
export function scanProblems(
  part: Part,
  { lengths, segments, unit }: Pick<ResolvedPart, 'lengths' | 'segments' | 'unit'>,
): Problem[] {
  const read = readScan(part.scan);
  if (read === null) return [];
  if (!read.ok) return [read.problem];
  const scan = read.value;
  const traces = new Map(tracesOf(part, scan).map((trace) => [trace.station, trace]));
  return [
    ...lengths.flatMap((length) => {
      const [a, b] = [traces.get(length.from), traces.get(length.to)];
      const scaled = a && b && scaledLength(scan, a, b);
      return scaled ? (disagreement(length.id, length.size, scaled, unit) ?? []) : [];
    }),
    ...tallTracesOf(part, scan).flatMap((trace) => {
      const land = segments.find(({ id }) => id === trace.segment);
      const outline = land ? outlineAt(scan, land, trace, traces) : null;
      const scaled = scaledDiameter(scan, trace);
      if (!outline || !scaled) return [];
      const { written, slack } = outline;
      const within = scaled.within + slack;
      return disagreement(trace.segment, written, { ...scaled, within }, unit) ?? [];
    }),
  ];
}

/** A size with all that tells how it may have been misread, or the outside of a thread, which a table says. */
type Written = ResolvedSize | Pick<ResolvedSize, 'nominal' | 'text'>;

/**
 * What is written of the outline where it was pointed at, and what a pick along a slope can be off, mm; null where
 * nothing is written, or a taper was pointed at elsewhere than at one of its ends.
 */
function outlineAt(
  scan: Scan,
  land: ResolvedSegment,
  trace: TallTrace,
  traces: ReadonlyMap<string, Trace>,
): { written: Written; slack: number } | null {
  if (land.form === 'cylinder') return land.diameter && { written: land.diameter, slack: 0 };
  if (land.form === 'thread') {
    const { thread } = land;
    return thread && { written: { nominal: thread.nominal, text: thread.designation }, slack: 0 };
  }
  const [left, right] = [traces.get(land.left), traces.get(land.right)];
  const { start, end } = land;
  if (!left || !right) return null;
  const along = ({ at }: Pick<Trace, 'at'>) => onDrawing(scan, at).x;
  const off = (side: Trace) => (side.within + trace.within) / scan.scale;
  const [atLeft, atRight] = [left, right].map((side) => Math.abs(along(side) - along(trace)) <= off(side));
  const written = atLeft ? start : end;
  // A taper no longer than the picks are off has no end that could be told from the other.
  if (atLeft === atRight || !written) return null;
  const rise = start && end ? Math.abs(toMm(start.nominal) - toMm(end.nominal)) : 0;
  const slope = rise / Math.abs(along(right) - along(left));
  return { written, slack: slope * off(atLeft ? left : right) };
}

function disagreement(id: string, size: Written, scaled: Scaled, unit: Unit): Problem | null {
  const written = toMm(size.nominal);
  if (Math.abs(written - scaled.mm) <= scaled.within) return null;
  const measures = `${figures(scaled.mm, unit)} ± ${figures(scaled.within, unit)} ${unit}`;
  const say = `${id} is written ${size.text}, but in the traced picture it measures about ${measures}. Read it again.`;
  return {
    code: 'scan-disagrees',
    where: id,
    say: `${say}${'limitsFrom' in size ? hint(size, scaled) : ''}`,
    facts: { length: id, written_mm: written, scaled_mm: scaled.mm, within_mm: scaled.within },
  };
}

/** So many figures as tell something about a measurement with a rule: hundredths of an inch, tenths of a millimetre. */
const figures = (mm: number, unit: Unit): string => {
  const least = unit === 'in' ? 0.254 : 0.1;
  return writeDecimal(fromMm(Math.max(mm, least)), unit, unit === 'in' ? 2 : 1);
};

/** The likeliest reading that would agree with the picture, where a slip of the eye explains one. */
function hint(size: ResolvedSize, scaled: Scaled): string {
  const agrees = (value: Length) => Math.abs(toMm(value) - scaled.mm) <= scaled.within;
  const slips = likelyValues(size)
    .filter(agrees)
    .flatMap((value) => {
      const misread = explainMisread(size, value);
      return misread ? [{ value, misread }] : [];
    });
  const [best] = slips.sort((a, b) => b.misread.odds - a.misread.odds);
  return best ? ` ${inStyleOf(size, best.value)} would agree: perhaps ${best.misread.hint}.` : '';
}
