import type { actualsSection } from './actuals/section.ts';
import { solveChains } from './chains/solve.ts';
import type { Lathe } from './part/lathe.ts';
import { resolveLathe } from './part/resolve-lathe.ts';
import { resolvePart } from './part/resolve.ts';
import type { Part } from './part/types.ts';
import type { Planned, planPart } from './plan/ways.ts';
import type { Problem } from './problem.ts';
import type { DiameterRow, Note, Report } from './report-types.ts';
import { diameterRows } from './stacks/diameters.ts';
import { stackRequirements } from './stacks/requirements.ts';
import { scanProblems } from './tracing/disagree.ts';

/** Errors listed at most; a broken file would fill the page otherwise. */
const MOST_ERRORS = 50;

/**
 * The report but for the plan, which is left null, and for what was measured, which hangs on the plan: chains,
 * requirements and diameters, quick enough for every key that is typed. Nothing in it tells whether a plan can be made.
 */
export const draftReport = (part: Part, lathe: Lathe): Report =>
  reportWith(part, lathe, { planner: () => unplanned, measured: null });

const unplanned: Planned = { plan: null, outline: null, errors: [], warnings: [] };

/** What a report is made with: handed in, so that a draft need not carry the planner along. */
type Means = { readonly planner: typeof planPart; readonly measured: typeof actualsSection | null };

/** A whole report, made with what is handed in. */
export function reportWith(part: Part, lathe: Lathe, { planner, measured }: Means): Report {
  const resolved = resolvePart(part);
  const machine = resolveLathe(lathe);
  const chains = solveChains(resolved);
  const errors = [...resolved.errors, ...machine.errors, ...chains.errors];
  const planned = errors.length === 0 && chains.placeable ? planner(resolved, chains, machine) : unplanned;
  const { plan } = planned;
  const diameters = withSkin(diameterRows(resolved, chains), planned);
  const actuals =
    part.actuals?.length && measured ? measured(part, resolved, chains, machine, { plan, diameters }) : null;
  return {
    report: 1,
    part: resolved.title,
    unit: resolved.unit,
    chains: chains.report,
    requirements: stackRequirements(resolved, chains),
    diameters,
    plan,
    ...(actuals ? { actuals } : {}),
    warnings: [
      ...resolved.warnings,
      ...chains.warnings,
      ...scanProblems(part, resolved),
      ...planned.warnings,
    ].map(note),
    errors: [...errors, ...planned.errors].slice(0, MOST_ERRORS).map(note),
  };
}

const note = ({ code, where, say, facts }: Problem): Note => {
  const ways = facts?.['ways'];
  return { code, where, say, ...(isList(ways) ? { ways } : {}) };
};

const isList = (fact: unknown): fact is readonly string[] => Array.isArray(fact);

/** A land that keeps the bar's skin has the bar's size for its aim. */
function withSkin(rows: DiameterRow[], planned: Planned): DiameterRow[] {
  const kept = new Map(
    planned.outline?.segments.filter((s) => s.keepsSkin).map((s) => [s.id, s.d0 / 1e9] as const) ?? [],
  );
  return rows.map((row) => ({ ...row, aim_mm: kept.get(row.segment) ?? row.aim_mm }));
}
