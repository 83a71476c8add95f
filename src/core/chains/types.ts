import type { Length } from '../lengths/length.ts';
import type { Problem } from '../problem.ts';

export type ChainState = 'closed' | 'doubled' | 'open' | 'clashing';

/** The `chains` part of the report, field for field. */
export type ChainsReport = {
  state: ChainState;
  groups: string[][];
  missing: { between: [string, string]; why: string }[];
  doubled: { lengths: string[] }[];
  clashes: { lengths: string[]; gap_mm: number; within_limits: boolean }[];
  impossible: { lengths: string[]; faces: string[]; short_by_mm: number } | null;
  suspects: { length: string; written: string; closes_at_mm: number; hint: string | null }[];
  stations: Record<string, { z_mm: number | null; aim_mm: number | null }>;
  spans: ChainSpan[];
};

export type ChainSpan = {
  from: string;
  to: string;
  nominal_mm: number | null;
  min_mm: number | null;
  max_mm: number | null;
  rss_min_mm: number | null;
  rss_max_mm: number | null;
  lengths: string[];
};

/** What the solver hands to the rest of core: the report's section and exact places. */
export type SolvedChains = {
  readonly report: ChainsReport;
  /** Nominal and aim places in pm by station id; absent where undetermined or hanging on a clash. */
  readonly places: ReadonlyMap<string, { readonly nominal: Length; readonly aim: Length }>;
  /** Closed or doubled, every station placed, order sound and the limits possible: a plan may be made. */
  readonly placeable: boolean;
  /** Tightest span between two stations by all lengths together; null across groups or where impossible. */
  readonly span: (from: string, to: string) => { readonly min: Length; readonly max: Length } | null;
  readonly errors: readonly Problem[];
  readonly warnings: readonly Problem[];
};
