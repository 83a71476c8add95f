import type { ActualsReport } from './actuals/types.ts';
import type { ChainsReport } from './chains/types.ts';
import type { Unit } from './lengths/length.ts';
import type { Plan } from './plan/types.ts';

export type RequirementRow = {
  id: string;
  meets_worst: boolean | null;
  meets_rss: boolean | null;
  yield: number | null;
  contributions: { length: string; share: number }[];
};
export type DiameterRow = {
  segment: string;
  end: 'start' | 'end' | null;
  min_mm: number | null;
  max_mm: number | null;
  aim_mm: number | null;
  fit: { clearance_min_mm: number; clearance_max_mm: number } | null;
};
/** A problem as the report carries it; `ways`: of `no-way`, each way that was looked at, with what stands in its way. */
export type Note = { code: string; where: string; say: string; ways?: readonly string[] };

/** The one object that the command line writes, the browser shows and the sheet prints. */
export type Report = {
  report: 1;
  part: string;
  unit: Unit;
  chains: ChainsReport;
  requirements: RequirementRow[];
  diameters: DiameterRow[];
  plan: Plan | null;
  /** What was measured and ticked at the lathe, and what follows; only where there is any. */
  actuals?: ActualsReport;
  warnings: Note[];
  errors: Note[];
};
