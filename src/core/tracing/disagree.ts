import { explainMisread, inStyleOf, likelyValues } from '../chains/misread.ts';
import { fromMm, toMm, type Length, type Unit } from '../lengths/length.ts';
import { writeDecimal } from '../lengths/write.ts';
import type { ResolvedHole, ResolvedPart, ResolvedSegment, ResolvedSize } from '../part/resolved.ts';
import type { Part } from '../part/types.ts';
import type { Problem } from '../problem.ts';
import { onDrawing } from './place.ts';
import { readScan, type HoleTrace, type Scan, type TallTrace, type Trace } from './scan.ts';
import { scaledDiameter, scaledLength, tallTracesOf, tracesOf, type Scaled } from './trace.ts';

/**
 * What the traced picture has to say about the sizes, as warnings: `scan-unreadable` where the picture cannot be shown,
 * and `scan-disagrees` for each length, bracketed ones too, that is written otherwise than it measures in the picture,
 * by more than the tracing can be off; so for each plain diameter of a land that was traced as tall as it is, for the
 * outside of a thread, for the ends of a taper where its outline was pointed at, and for what is drilled or bored along
 * the axis, across and in depth. Only lengths between two traced places are looked at. What is scaled is never used as
 * a size.
 */
export function scanProblems(
  part: Part,
  { lengths, segments, holes, unit }: Pick<ResolvedPart, 'lengths' | 'segments' | 'holes' | 'unit'>,
): Problem[] {
  const read = readScan(part.scan);
  if (read === null) return [];
  if (!read.ok) return [read.problem];
  const scan = read.value;
  const traces = new Map(tracesOf(part, scan).map((trace) => [trace.station, trace]));
  const tall = tallTracesOf(part, scan);
  return [
    ...lengths.flatMap((length) => {
      const [a, b] = [traces.get(length.from), traces.get(length.to)];
      const scaled = a && b && scaledLength(scan, a, b);
      return scaled ? (disagreement({ of: length.id, size: length.size }, scaled, unit) ?? []) : [];
    }),
    ...tall.flatMap((trace) => {
      const land = segments.find(({ id }) => id === trace.segment);
      const written = land && writtenAt(scan, land, trace, tall, traces);
      const scaled = scaledDiameter(scan, trace);
      if (!written || !scaled) return [];
      const within = scaled.within + written.slack;
      return disagreement(written, { ...scaled, within }, unit) ?? [];
    }),
    ...(scan.traced_holes ?? []).flatMap((trace) => {
      const hole = holes.find(({ id }) => id === trace.hole);
      return hole ? holeProblems(scan, hole, trace, unit) : [];
    }),
  ];
}

/** What is drilled or bored is compared across and in depth; of a tapped hole or a centre a drawing shows several lines. */
function holeProblems(scan: Scan, hole: ResolvedHole, trace: HoleTrace, unit: Unit): Problem[] {
  if (hole.form !== 'drill' && hole.form !== 'bore') return [];
  const { id, diameter, depth } = hole;
  const [from, to] = [trace.from, trace.to].map((at) => ({ at, within: trace.within })) as [Pointed, Pointed];
  const [one, other] = [scaledDiameter(scan, from), scaledDiameter(scan, to)];
  const across = one && other && { mm: (one.mm + other.mm) / 2, within: Math.max(one.within, other.within) };
  const deep = depth && scaledLength(scan, from, to);
  return [
    (across && disagreement({ of: id, size: diameter }, across, unit)) ?? [],
    (deep && disagreement({ of: id, what: `The depth of ${id}`, size: depth }, deep, unit)) ?? [],
  ].flat();
}
type Pointed = { readonly at: HoleTrace['from']; readonly within: number };

/** What a sentence calls a size, and the size: with all that tells how it may have been misread, or the outside of a thread, which a table says. */
type Written = {
  readonly of: string;
  /** Left out where the id alone says it. */
  readonly what?: string;
  readonly size: ResolvedSize | { readonly nominal: Length; readonly text: string };
};

/**
 * What is written of the outline where it was pointed at, and what a pick along a slope can be off, mm; null where
 * nothing is written, or a taper was pointed at elsewhere than at one of its ends.
 */
function writtenAt(
  scan: Scan,
  land: ResolvedSegment,
  trace: TallTrace,
  tall: readonly TallTrace[],
  traces: ReadonlyMap<string, Trace>,
): (Written & { slack: number }) | null {
  const of = land.id;
  if (land.form === 'cylinder') return land.diameter && { of, size: land.diameter, slack: 0 };
  if (land.form === 'thread') {
    const { thread } = land;
    return thread && { of, size: { nominal: thread.nominal, text: thread.designation }, slack: 0 };
  }
  const at = trace.end ? markedEnd(scan, trace, tall) : nearEnd(scan, land, trace, traces);
  const size = at && land[at.end];
  if (!size) return null;
  const { start, end } = land;
  const rise = start && end ? Math.abs(toMm(start.nominal) - toMm(end.nominal)) : 0;
  const what = `The ${at.end === 'start' ? 'left' : 'right'} end of ${of}`;
  return { of, what, size, slack: (rise / at.long) * at.off };
}

/** The end of a taper that was pointed at, how long the taper is in the picture, and how far off the pick along it is; mm. */
type AtEnd = { readonly end: 'start' | 'end'; readonly long: number; readonly off: number };

/** Where both ends were marked at once the faces were with them, so that each pick is off by itself alone. */
function markedEnd(
  scan: Scan,
  { segment, end, at, within }: TallTrace,
  tall: readonly TallTrace[],
): AtEnd | null {
  const other = tall.find((one) => one.segment === segment && one.end && one.end !== end);
  if (!other || !end) return null;
  const long = Math.abs(onDrawing(scan, other.at).x - onDrawing(scan, at).x);
  return { end, long, off: within / scan.scale };
}

/** Where the outline was pointed at once, the end of the taper that is traced there. */
function nearEnd(
  scan: Scan,
  land: Pick<ResolvedSegment, 'left' | 'right'>,
  trace: TallTrace,
  traces: ReadonlyMap<string, Trace>,
): AtEnd | null {
  const [left, right] = [traces.get(land.left), traces.get(land.right)];
  if (!left || !right) return null;
  const along = ({ at }: Pointed) => onDrawing(scan, at).x;
  const off = (side: Trace) => (side.within + trace.within) / scan.scale;
  const [atLeft, atRight] = [left, right].map((side) => Math.abs(along(side) - along(trace)) <= off(side));
  // A taper no longer than the picks are off has no end that could be told from the other.
  if (atLeft === atRight) return null;
  const long = Math.abs(along(right) - along(left));
  return { end: atLeft ? 'start' : 'end', long, off: off(atLeft ? left : right) };
}

function disagreement({ of, what = of, size }: Written, scaled: Scaled, unit: Unit): Problem | null {
  const written = toMm(size.nominal);
  if (Math.abs(written - scaled.mm) <= scaled.within) return null;
  const measures = `${figures(scaled.mm, unit)} ± ${figures(scaled.within, unit)} ${unit}`;
  const say = `${what} is written ${size.text}, but in the traced picture it measures about ${measures}. Read it again.`;
  return {
    code: 'scan-disagrees',
    where: of,
    say: `${say}${'limitsFrom' in size ? hint(size, scaled) : ''}`,
    facts: { length: of, written_mm: written, scaled_mm: scaled.mm, within_mm: scaled.within },
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
