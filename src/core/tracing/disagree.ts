import { explainMisread, inStyleOf, likelyValues } from '../chains/misread.ts';
import { fromMm, toMm, type Length, type Unit } from '../lengths/length.ts';
import { writeDecimal } from '../lengths/write.ts';
import type { ResolvedPart, ResolvedSize } from '../part/resolved.ts';
import type { Part } from '../part/types.ts';
import type { Problem } from '../problem.ts';
import { readScan } from './scan.ts';
import { scaledDiameter, scaledLength, tallTracesOf, tracesOf, type Scaled } from './trace.ts';

/**
 * What the traced picture has to say about the sizes, as warnings: `scan-unreadable` where the picture cannot be shown,
 * and `scan-disagrees` for each length, bracketed ones too, that is written otherwise than it measures in the picture,
 * by more than the tracing can be off; so for each plain diameter of a land that was traced as tall as it is. Only lengths
 * between two traced places are looked at. What is scaled is never used as a size.
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
      const diameter = land?.form === 'cylinder' ? land.diameter : null;
      const scaled = scaledDiameter(scan, trace);
      if (!diameter || !scaled) return [];
      return disagreement(trace.segment, diameter, scaled, unit) ?? [];
    }),
  ];
}

function disagreement(id: string, size: ResolvedSize, scaled: Scaled, unit: Unit): Problem | null {
  const written = toMm(size.nominal);
  if (Math.abs(written - scaled.mm) <= scaled.within) return null;
  const measures = `${figures(scaled.mm, unit)} ± ${figures(scaled.within, unit)} ${unit}`;
  const say = `${id} is written ${size.text}, but in the traced picture it measures about ${measures}. Read it again.`;
  return {
    code: 'scan-disagrees',
    where: id,
    say: `${say}${hint(size, scaled)}`,
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
