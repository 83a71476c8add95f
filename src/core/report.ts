import { actualsSection } from './actuals/section.ts';
import { solveChains } from './chains/solve.ts';
import type { Lathe } from './part/lathe.ts';
import { resolveLathe } from './part/resolve-lathe.ts';
import { resolvePart } from './part/resolve.ts';
import type { Part } from './part/types.ts';
import { type Planned, planPart } from './plan/ways.ts';
import type { Problem } from './problem.ts';
import type { DiameterRow, Note, Report } from './report-types.ts';
import { diameterRows } from './stacks/diameters.ts';
import { stackRequirements } from './stacks/requirements.ts';

/** Errors listed at most; a broken file would fill the page otherwise. */
const MOST_ERRORS = 50;

/**
 * Everything that is worked out about a part on a lathe: chains, requirements, diameters and, where the chains allow
 * one, the plan. One pure function; the command line writes it, the browser shows it, the sheet prints it.
 *
 * @param actuals - What was measured and ticked at the lathe; what the part file carries where not said.
 * @returns Always a whole report: what is wrong stands in `errors` with its place, and `plan` is null.
 */
export const report = (part: Part, lathe: Lathe, actuals = part.actuals): Report =>
  reported(actuals ? { ...part, actuals } : part, lathe, planPart);

/**
 * The same but for the plan, which is left null: chains, requirements and diameters, quick enough for every key that
 * is typed. Nothing in it tells whether a plan can be made.
 */
export const draftReport = (part: Part, lathe: Lathe): Report => reported(part, lathe, () => unplanned);

const unplanned: Planned = { plan: null, outline: null, errors: [], warnings: [] };

function reported(part: Part, lathe: Lathe, planner: typeof planPart): Report {
  const resolved = resolvePart(part);
  const machine = resolveLathe(lathe);
  const chains = solveChains(resolved);
  const errors = [...resolved.errors, ...machine.errors, ...chains.errors];
  const planned = errors.length === 0 && chains.placeable ? planner(resolved, chains, machine) : unplanned;
  const { plan } = planned;
  const diameters = withSkin(diameterRows(resolved, chains), planned);
  const actuals = part.actuals?.length
    ? actualsSection(part, resolved, chains, machine, { plan, diameters })
    : null;
  return {
    report: 1,
    part: resolved.title,
    unit: resolved.unit,
    chains: chains.report,
    requirements: stackRequirements(resolved, chains),
    diameters,
    plan,
    ...(actuals ? { actuals } : {}),
    warnings: [...resolved.warnings, ...chains.warnings, ...planned.warnings].map(note),
    errors: [...errors, ...planned.errors].slice(0, MOST_ERRORS).map(note),
  };
}

const note = ({ code, where, say }: Problem): Note => ({ code, where, say });

/** A land that keeps the bar's skin has the bar's size for its aim. */
function withSkin(rows: DiameterRow[], planned: Planned): DiameterRow[] {
  const kept = new Map(
    planned.outline?.segments.filter((s) => s.keepsSkin).map((s) => [s.id, s.d0 / 1e9] as const) ?? [],
  );
  return rows.map((row) => ({ ...row, aim_mm: kept.get(row.segment) ?? row.aim_mm }));
}
