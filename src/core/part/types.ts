import type { Unit } from '../lengths/length.ts';

/** A size as it stands on the plan: its text, or the text with a tolerance and a role. */
export type SizeText = string | SizeRecord;
export type SizeRecord = { size: string; tol?: string; role?: string };

export type GeneralRule =
  | { rule: 'decimals'; fraction?: string; [decimals: string]: string | undefined }
  | { rule: 'fixed'; tol: string }
  | { rule: 'iso2768'; class: string };

export type Face = { id: string; sketched: number; name?: string };
export type Point = { id: string; sketched: number; name?: string };

/** `trial`: the fit is proved on a trial land in waste before it is turned. */
export type Mate = { bearing?: string; bore?: string; trial?: boolean };
/** `index_line`: a line along the axis is scribed on it and stays. */
type SegmentCommon = {
  id: string;
  role?: string;
  mate?: Mate;
  name?: string;
  falls?: Falls;
  index_line?: boolean;
};
export type Segment =
  | (SegmentCommon & { form: 'cylinder'; diameter: SizeText; aim?: 'metal' })
  | (SegmentCommon & {
      form: 'taper';
      start?: SizeText;
      end?: SizeText;
      half_angle?: string;
      included_angle?: string;
      ratio?: string;
      per_foot?: string;
      large?: 'start' | 'end';
    })
  | (SegmentCommon & { form: 'thread'; thread: string });

/**
 * How a size falls within its limits over many parts:
 * - `normal`: about the middle, three standard deviations to a limit, cut off there;
 * - `uniform`: anywhere alike;
 * - `metal-safe`: linear from nothing at the lower limit to most at the upper, as one who stops while metal is left;
 * - `uncut`: normal, three standard deviations to a limit, with its tails, as textbooks reckon.
 */
export type Falls = 'normal' | 'uniform' | 'metal-safe' | 'uncut';

/** A length between two stations. `role: "reference"` may stand beside `size` or inside it. */
export type PartLength = {
  id: string;
  from: string;
  to: string;
  size: SizeText;
  tol?: string;
  role?: string;
  /** The lane its dimension is drawn in, 0 nearest to the part; left out: where it packs itself. */
  lane?: number;
  falls?: Falls;
};

type EdgeCommon = { id?: string; face: string; side: 'left' | 'right' };
export type Edge =
  | (EdgeCommon & { form: 'chamfer'; size: SizeText; angle?: string })
  | (EdgeCommon & { form: 'fillet'; radius: SizeText })
  | (EdgeCommon & { form: 'undercut'; width: SizeText; depth: SizeText });

type HoleCommon = { id: string; from: string };
export type Hole =
  | (HoleCommon & { form: 'drill'; diameter: SizeText; depth?: SizeText; through?: boolean })
  | (HoleCommon & { form: 'tap'; thread: string; depth: SizeText; drill_depth?: SizeText })
  | (HoleCommon & { form: 'bore'; diameter: SizeText; depth?: SizeText; through?: boolean })
  | (HoleCommon & { form: 'centre'; size: string });

type CrossingCommon = { id: string; at: string; angle?: string };
export type Crossing =
  | (CrossingCommon & { form: 'hole'; diameter: SizeText; reaches: SizeText })
  | (CrossingCommon & { form: 'keyseat'; width: SizeText; depth: SizeText; to: string })
  | (CrossingCommon & { form: 'flat'; across?: SizeText; depth?: SizeText; to: string });

export type Requirement = { id: string; from: string; to: string; min: string; max: string; why?: string };

/** What the user has settled about the plan; the rest is planned around it. */
export type Pins = {
  /** Out of the bar at once or in stages, from both ends, or between centres. */
  way?: 'bar' | 'stages' | 'both-ends' | 'centres';
  /** The end of the part that is at the tailstock first: its face. */
  first?: string;
  centre?: boolean;
  /** A bar of the lathe file, as it is named there. */
  bar?: string;
  /** The land gripped when the work is turned round. */
  grip?: string;
  /** The only blade to be used. */
  blade?: string;
  /** Where the centre bears: a drawn centre hole, the mouth of a hole, a stub faced off later, a hole left in. */
  seat?: 'drawn' | 'mouth' | 'stub' | 'left';
  /** False: the work is never parted off with a blade, the blank is sawn to length. */
  part_off?: false;
  /** The face at which the two holdings of the way from both ends meet. */
  split?: string;
  /** Faces that are cut with a given end of the part, by its face, at the tailstock. */
  faces?: FacePin[];
  /** Where a holding's grip begins: so far from the finished end at the tailstock. */
  grips?: GripPin[];
  /** Lengths that are measured at the lathe, and Z set from them, before their last cut. */
  measured?: string[];
};

/**
 * A stub that stays standing beyond an end of the part, for a later fixture: `end` is that end's face. Without a
 * diameter it is of the bar, untouched. `centre`: a centre hole goes into its end.
 */
export type Stub = { end: string; length: string; diameter?: SizeText; centre?: boolean };

export type FacePin = { face: string; from: string };
/** `holding` as the plan names it ("H2"), `out` a size. */
export type GripPin = { holding: string; out: string };

/** A step of a plan by what it works on, its kind, and which of that kind it is: so it is found in another plan too. */
export type StepName = { of: string; kind: string; pass: number };

/**
 * A size as it was typed at the lathe, in the unit the readout had (the part's where none is named), at which step, and
 * what the readout showed then. `set` says what was done about it: the readout was set to the truth, or it was left and
 * the readings follow.
 */
type TypedSize = {
  text: string;
  unit?: Unit;
  step?: StepName;
  cut?: number;
  holding?: string;
  shown?: string;
  set?: 'readout' | 'readings';
};

/**
 * One thing that happened at the lathe. `of` is a segment or hole, a station, a tool, or whatever has a size. `edge` is
 * the edge that a blade was touched off by, as the operator sees it; where only that is said, the text is empty.
 */
export type Actual =
  | ({ what: 'diameter'; of: string; end?: 'start' | 'end' } & TypedSize)
  | ({ what: 'face'; of: string; from: string } & TypedSize)
  | ({ what: 'touch'; of: string; edge?: 'left' | 'right' } & TypedSize)
  | ({ what: 'fit'; of: string } & TypedSize)
  | ({ what: 'size'; of: string; field: string } & TypedSize)
  | { what: 'done'; step: StepName; cut?: number };

/** The part file, version 1. Unknown fields are kept beside the known ones and written back. */
export type Part = {
  shaftwright: 1;
  title: string;
  drawing?: string;
  unit: Unit;
  material?: string;
  general?: { lengths?: GeneralRule; diameters?: GeneralRule };
  faces: Face[];
  segments: Segment[];
  points: Point[];
  lengths: PartLength[];
  edges: Edge[];
  holes: Hole[];
  crossings: Crossing[];
  requirements: Requirement[];
  matched: string[][];
  /** What was measured and ticked at the lathe, in the order it was done. */
  actuals?: Actual[];
  /** Waste that the user wants kept, beyond the ends of the part. */
  stubs?: Stub[];
  scan?: unknown;
  pins?: Pins;
};
