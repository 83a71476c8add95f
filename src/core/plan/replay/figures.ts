import type { Problem } from '../../problem.ts';
import { isPlace } from '../bar.ts';
import type { Cut, Holding, Plan } from '../types.ts';
import { flaw } from './flaw.ts';

type Named = readonly (readonly [name: string, mm: number | null | undefined])[];

/**
 * Figures that are no length at all: not finite, or over 100 m. Where one is found nothing else can be judged.
 * Code `absurd-figure`.
 */
export function absurdFigures(plan: Plan): Problem[] {
  const { stock } = plan;
  const bar: Named = [
    ['stock.diameter_mm', stock.diameter_mm],
    ['stock.length_mm', stock.length_mm],
    ['stock.z0_mm', stock.z0_mm],
    ['stock.z1_mm', stock.z1_mm],
  ];
  return [
    ...absurd('stock', bar),
    ...plan.holdings.flatMap((h) => [...absurd(h.id, holdingFigures(h)), ...h.cuts.flatMap(absurdCut)]),
    ...plan.off_lathe.flatMap(absurdCut),
  ];
}

function holdingFigures(h: Holding): Named {
  return [
    ['grips.z0_mm', h.grips?.z0_mm],
    ['grips.z1_mm', h.grips?.z1_mm],
    ['stick_out_mm', h.stick_out_mm],
    ['steady_at_mm', h.steady_at_mm],
    ['zero_z_mm', h.zero_z_mm],
    ...h.marks.flatMap((m): Named => [
      ['marks.z_mm', m.z_mm],
      ['marks.reading_mm', m.reading_mm],
    ]),
  ];
}

function absurdCut(cut: Cut): Problem[] {
  if (allUsable(cut)) return [];
  const readings = cut.readings.flatMap((r): Named => [
    ['reading', r.value_mm],
    ['other reading', r.other?.value_mm],
  ]);
  const own: Named = [
    ['z0_mm', cut.z0_mm],
    ['z1_mm', cut.z1_mm],
    ['d0_mm', cut.d0_mm],
    ['d1_mm', cut.d1_mm],
  ];
  return absurd(`cut ${cut.n}`, [...own, ...readings]);
}

/** Asked of every cut of every way, so without a list of its figures: that is made where one of them is to be named. */
function allUsable({ z0_mm, z1_mm, d0_mm, d1_mm, readings }: Cut): boolean {
  if (!(isUsable(z0_mm) && isUsable(z1_mm) && isUsable(d0_mm) && isUsable(d1_mm))) return false;
  for (const { value_mm, other } of readings)
    if (!isUsable(value_mm) || !isUsable(other?.value_mm)) return false;
  return true;
}

const isUsable = (mm: number | null | undefined): boolean => mm === null || mm === undefined || isPlace(mm);

function absurd(where: string, figures: Named): Problem[] {
  return figures
    .filter(([, mm]) => !isUsable(mm))
    .map(([name, mm]) =>
      flaw('absurd-figure', where, `${name} is ${String(mm)}, which is no place on a lathe.`),
    );
}
