import type { Pins } from '../part/types.ts';

/** The `plan` part of the report, field for field as in docs/part-file.md. Places are part coordinates in mm. */
export type CutKind =
  | 'face'
  | 'centre-drill'
  | 'drill'
  | 'tap'
  | 'bore'
  | 'rough'
  | 'finish'
  | 'spring'
  | 'groove'
  | 'taper'
  | 'chamfer'
  | 'fillet'
  | 'undercut'
  | 'thread'
  | 'part-off'
  | 'sever'
  | 'touch'
  | 'measure'
  | 'support'
  | 'prove'
  | 'cross'
  | 'deburr';

export type BladeEdge = 'left' | 'right';
export type Support = 'centre' | 'steady' | 'travelling-steady';

export type Reading = {
  axis: 'X' | 'Z' | 'quill';
  value_mm: number;
  text: string;
  station?: string | null;
  edge?: BladeEdge | null;
  other?: { edge: BladeEdge; value_mm: number; text: string } | null;
};

export type Setting = {
  compound_deg?: number;
  compound_travel_mm?: number;
  /** Pass by pass, by how much smaller the diameter becomes: tapers and threads alike. */
  infeeds_mm?: number[];
  /** Of a thread or a tap. */
  pitch_mm?: number;
  drill?: string;
  tap?: string;
  die?: string;
  centre_drill?: string;
  pecks_mm?: number[];
  angle_deg?: number;
  depth_mm?: number;
  width_mm?: number;
};

export type Cut = {
  n: number;
  kind: CutKind;
  segment: string | null;
  makes: string | null;
  tool: string | null;
  inside: boolean;
  z0_mm: number;
  z1_mm: number;
  d0_mm: number | null;
  d1_mm: number | null;
  passes: number;
  rpm: number | null;
  feed_mm: number | null;
  hand_turned: boolean;
  support: Support[] | null;
  readings: Reading[];
  setting: Setting | null;
  say: string;
};

export type Mark = {
  station: string;
  z_mm: number;
  reading_mm: number;
  text: string;
  rule_text: string | null;
  from: string;
  before: number;
  waste: 'left' | 'right' | 'none';
};

export type Holding = {
  id: string;
  device: 'collet' | 'chuck' | 'centres';
  grips: { z0_mm: number; z1_mm: number; on: 'bar' | string[] } | null;
  headstock: 'left' | 'right';
  stick_out_mm: number | null;
  support: Support[];
  steady_at_mm: number | null;
  datum: { station: string; how: string };
  zero_z_mm: number;
  z_sign: 1 | -1;
  marks: Mark[];
  cuts: Cut[];
};

export type Stock = { diameter_mm: number; length_mm: number; z0_mm: number; z1_mm: number; bar: string };
export type ChartRow = {
  length: string;
  allowed_mm: [number, number];
  held_mm: [number, number];
  ok: boolean;
  through: string[];
};
/** What a facing or finishing cut finds to take on its face. */
export type StockRow = {
  face: string;
  holding: string;
  /** The cut that takes it. */
  cut: number;
  taken_mm: number;
  range_mm: [number, number];
  ok: boolean;
};
export type StiffnessRow = {
  holding: string;
  segment: string;
  force_n: number;
  error_mm: number;
  limit_mm: number;
  ok: boolean;
};

/** What one size of bar costs in length; lengths of a bar that is not the plan's are the most it takes. */
export type BarRow = {
  bar: string;
  diameter_mm: number;
  /** The lathe file has it; else it is a size that dealers commonly stock. */
  at_hand: boolean;
  planned: boolean;
  /** Sawn to blanks first, rather than turned out of the bar one part after another. */
  sawn: boolean;
  /** What the first part takes of a bar, and what every further one takes besides. */
  one_mm: number;
  next_mm: number;
  /** How many parts one whole bar yields, and what is left of it then. */
  parts: number;
  left_mm: number;
};

/** A stub that stays beyond an end of the part: `outer` names its own end where a rule stands against it. */
export type StubRow = {
  id: string;
  end: string;
  outer: string;
  z0_mm: number;
  z1_mm: number;
  d_mm: number;
  centre: boolean;
};

export type Plan = {
  stock: Stock;
  /** Waste that stays, where any was asked for. */
  stubs?: StubRow[];
  /** How many parts each size of bar yields; `bar_mm` is the length of a whole bar. */
  order?: { bar_mm: number; bars: BarRow[] };
  holdings: Holding[];
  off_lathe: Cut[];
  chart: ChartRow[];
  /** Metal left on faces for their last cut, charted. */
  stock_removal?: StockRow[];
  stiffness: StiffnessRow[];
  /** How it is held, in words, what settles it, and the face at which two holdings meet, where they do. */
  way?: { name: string; pins: Pins; split: string | null };
  /** What was thought through and left, best first: `pins` brings it about; `runner_up` is second best. */
  rejected: { way: string; why: string; pins?: Pins; runner_up?: boolean }[];
};
