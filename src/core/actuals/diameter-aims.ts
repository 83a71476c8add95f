import { fromMm, type Length, pm, toMm, type Unit } from '../lengths/length.ts';
import { writeDecimal } from '../lengths/write.ts';
import type { ResolvedPart } from '../part/resolved.ts';
import type { Actual } from '../part/types.ts';
import type { DiameterRow } from '../report-types.ts';
import { findStep, type Placed } from './step-name.ts';
import type { AimNow } from './types.ts';

const DECIMALS: Readonly<Record<Unit, number>> = { in: 4, mm: 3 };

/** A length as it is said at the lathe, in figures: `.6868`, `12.620`. */
export const said = (length: Length, unit: Unit): string => writeDecimal(length, unit, DECIMALS[unit]);

/**
 * Diameters that are worked to another aim than the middle of their limits.
 *
 * A fit that was proved remembers the size that fitted: it is the aim of its segment. Of matched diameters the measured
 * size of the first that was finished is the aim of the others; where none is, the proved fit of one of them. Either
 * stays within the limits of the segment that takes it over. A diameter counts as finished when it was measured at its
 * last measuring step, or measured at its greatest limit or below.
 */
export function diameterAims(
  part: ResolvedPart,
  diameters: readonly DiameterRow[],
  log: readonly Actual[],
  sizes: ReadonlyMap<number, Length>,
  steps: readonly Placed[],
): AimNow[] {
  const rows = new Map(diameters.filter(({ end }) => end === null).map((row) => [row.segment, row]));
  const fits = new Map<string, Length>();
  const finished = new Map<string, Length>();
  log.forEach((actual, at) => {
    const size = sizes.get(at);
    if (size === undefined) return;
    if (actual.what === 'fit') fits.set(actual.of, size);
    if (actual.what !== 'diameter' || actual.end !== undefined) return;
    const row = rows.get(actual.of);
    if (!row) return;
    const step = findStep(steps, actual.step);
    const atSize = row.max_mm !== null && size <= fromMm(row.max_mm);
    if (atSize || (step !== null && step === lastMeasure(steps, actual.of))) finished.set(actual.of, size);
  });
  const aims = new Map<string, AimNow>();
  const take = (to: string, from: string, size: Length, why: AimNow['why']) => {
    const row = rows.get(to);
    if (!row || finished.has(to) || aims.has(to)) return;
    const aim = aimFrom({ row, from, size, why }, part);
    if (aim) aims.set(to, aim);
  };
  for (const [segment, size] of fits) take(segment, segment, size, 'fit');
  for (const group of part.matched) {
    const first = [...finished].find(([segment]) => group.includes(segment));
    const proved = [...fits].find(([segment]) => group.includes(segment));
    for (const segment of group) {
      if (first) take(segment, first[0], first[1], 'matched');
      else if (proved) take(segment, proved[0], proved[1], 'fit');
    }
  }
  return [...aims.values()];
}

const lastMeasure = (steps: readonly Placed[], segment: string): Placed | null =>
  steps.findLast(({ cut }) => cut.kind === 'measure' && cut.segment === segment) ?? null;

type Taken = { row: DiameterRow; from: string; size: Length; why: AimNow['why'] };

function aimFrom({ row, from, size, why }: Taken, part: ResolvedPart): AimNow | null {
  const { segment, aim_mm, min_mm, max_mm } = row;
  if (aim_mm === null) return null;
  const aim = pm(
    Math.min(
      Math.max(size, min_mm === null ? size : fromMm(min_mm)),
      max_mm === null ? size : fromMm(max_mm),
    ),
  );
  if (toMm(aim) === aim_mm) return null;
  const figure = said(aim, part.unit);
  const source =
    why === 'fit'
      ? `${from === segment ? 'the' : `${from}, the`} size that fitted`
      : `the measured size of ${from}`;
  const say =
    aim === size
      ? `${segment} is worked to ${figure}, ${source}.`
      : `${segment} is worked to ${figure}, the limit nearest to ${said(size, part.unit)}, ${source}.`;
  return { segment, aim_mm: toMm(aim), was_mm: aim_mm, why, from, say };
}
