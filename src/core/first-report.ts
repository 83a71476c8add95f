import type { actualsSection } from './actuals/section.ts';
import type { detect } from './chains/detect.ts';
import { tieUp } from './chains/tie-up.ts';
import type { ResolvedLathe } from './part/resolved.ts';
import { resolvePart } from './part/resolve.ts';
import type { Part } from './part/types.ts';
import type { Planned, planPart } from './plan/ways.ts';
import type { Problem } from './problem.ts';
import type { DiameterRow, Note, Report } from './report-types.ts';
import { diameterRows } from './stacks/diameters.ts';
import type { stackRequirements } from './stacks/requirements.ts';
import type { scanProblems } from './tracing/disagree.ts';

/** Errors listed at most; a broken file would fill the page otherwise. */
const MOST_ERRORS = 50;

/**
 * As much of the report as a drawing is made from: chains and diameters. Nobody looks for misread sizes in it, no
 * requirement is held against its stack, and the traced picture is not asked.
 */
export const firstReport = (part: Part): Report => reportWith(part, null, null);

const unplanned: Planned = { plan: null, outline: null, errors: [], warnings: [] };

/** What looks a part over; handed in, as is what plans it, so that a first report need not carry either along. */
export type Searches = {
  readonly detect: typeof detect;
  readonly requirements: typeof stackRequirements;
  readonly scan: typeof scanProblems;
};
/** What a plan is made with. */
export type Planning = {
  readonly machine: ResolvedLathe;
  readonly planner: typeof planPart;
  readonly measured: typeof actualsSection;
};

/** A report, made with what is handed in. */
export function reportWith(part: Part, searches: Searches | null, planning: Planning | null): Report {
  const resolved = resolvePart(part);
  const chains = tieUp(resolved, searches?.detect ?? null);
  const errors = [...resolved.errors, ...(planning?.machine.errors ?? []), ...chains.errors];
  const planned =
    planning && errors.length === 0 && chains.placeable
      ? planning.planner(resolved, chains, planning.machine)
      : unplanned;
  const { plan } = planned;
  const diameters = withSkin(diameterRows(resolved, chains), planned);
  const actuals =
    part.actuals?.length && planning
      ? planning.measured(part, resolved, chains, planning.machine, { plan, diameters })
      : null;
  return {
    report: 1,
    part: resolved.title,
    unit: resolved.unit,
    chains: chains.report,
    requirements: searches?.requirements(resolved, chains) ?? [],
    diameters,
    plan,
    ...(actuals ? { actuals } : {}),
    warnings: [
      ...resolved.warnings,
      ...chains.warnings,
      ...(searches?.scan(part, resolved) ?? []),
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
