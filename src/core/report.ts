import { actualsSection } from './actuals/section.ts';
import { searches } from './draft-report.ts';
import { reportWith } from './first-report.ts';
import type { Lathe } from './part/lathe.ts';
import { resolveLathe } from './part/resolve-lathe.ts';
import type { Part } from './part/types.ts';
import { inPartCoordinates } from './plan/part-places.ts';
import { planPart } from './plan/ways.ts';
import type { Report } from './report-types.ts';

/**
 * Everything that is worked out about a part on a lathe: chains, requirements, diameters and, where the chains allow
 * one, the plan. One pure function; the command line writes it, the browser shows it, the sheet prints it.
 *
 * @param actuals - What was measured and ticked at the lathe; what the part file carries where not said.
 * @returns Always a whole report: what is wrong stands in `errors` with its place, and `plan` is null.
 */
export const report = (part: Part, lathe: Lathe, actuals = part.actuals): Report =>
  reportWith(actuals ? { ...part, actuals } : part, searches, {
    machine: resolveLathe(lathe),
    planner,
    measured: actualsSection,
  });

const planner: typeof planPart = (part, chains, lathe) => {
  const planned = planPart(part, chains, lathe);
  const { plan, outline } = planned;
  return plan && outline ? { ...planned, plan: inPartCoordinates(plan, outline) } : planned;
};
