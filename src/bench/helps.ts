import { nextCut, type NextCut } from '../core/actuals/next-cut.ts';
import { readMeasured } from '../core/actuals/read-actual.ts';
import type { Placed } from '../core/actuals/step-name.ts';
import type { TaperAim } from '../core/actuals/taper-check.ts';
import type { ActualsReport } from '../core/actuals/types.ts';
import { fromMm, pm, type Length } from '../core/lengths/length.ts';
import type { ResolvedLathe } from '../core/part/resolved.ts';
import type { Part } from '../core/part/types.ts';
import type { DiameterRow } from '../core/report-types.ts';
import { typedAt } from './entries.ts';

/** The taper that a step cuts or measures, in pm; null at any other step. */
export function taperAt(
  { cut }: Placed,
  part: Part,
  diameters: readonly DiameterRow[],
  actuals: ActualsReport,
): TaperAim | null {
  const index = part.segments.findIndex(({ id, form }) => id === cut.segment && form === 'taper');
  if (index < 0 || (cut.kind !== 'taper' && cut.kind !== 'measure')) return null;
  const aims = diameters.flatMap((row) =>
    row.segment === cut.segment && row.aim_mm !== null ? [row.aim_mm] : [],
  );
  const place = (face: number) =>
    actuals.stations.find(({ station }) => station === part.faces[face]?.id)?.z_mm ?? 0;
  const [small, large] = [Math.min(...aims), Math.max(...aims)];
  if (aims.length !== 2 || small === large) return null;
  return {
    small: fromMm(small),
    large: fromMm(large),
    length: fromMm(Math.abs(place(index + 1) - place(index))),
  };
}

/** What to take next after the diameter that was typed last at a step; null where none was, or nothing binds it. */
export function nextAt(
  step: Placed,
  part: Part,
  diameters: readonly DiameterRow[],
  actuals: ActualsReport,
  lathe: ResolvedLathe,
): { next: NextCut; aim: Length } | null {
  const row = diameters.find(({ segment, end }) => segment === step.cut.segment && end === null);
  const last = typedAt(part, step).findLast(({ actual }) => actual.what === 'diameter')?.actual;
  if (!last || row?.min_mm == null || row.max_mm === null || row.aim_mm === null) return null;
  const read = readMeasured(last.text, last.unit ?? part.unit);
  if (!read.ok) return null;
  const aim = fromMm(actuals.aims.find(({ segment }) => segment === row.segment)?.aim_mm ?? row.aim_mm);
  const size = { measured: read.value, aim, min: fromMm(row.min_mm), max: fromMm(row.max_mm) };
  const shift = actuals.shifts.findLast(
    ({ axis, after, holding }) => axis === 'X' && after === step.cut.n && holding === step.holding?.id,
  );
  const role = part.segments.find(({ id }) => id === row.segment)?.role;
  return {
    next: nextCut(size, pm(-fromMm(shift?.by_mm ?? 0)), lathe, {
      inside: step.cut.inside,
      journal: role === 'journal',
    }),
    aim,
  };
}
