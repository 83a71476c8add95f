import type { Length, Unit } from '../lengths/length.ts';
import type { Problem } from '../problem.ts';
import type { Falls, Pins } from './types.ts';
import type { ThreadSpec } from '../standards/thread-spec.ts';

/** A size with its limits worked out (written, by class, by general rule), all in pm. Limits are inclusive. */
export type Limits = { readonly nominal: Length; readonly min: Length; readonly max: Length };

/** A resolved size: its limits, and how it was written (for reference agreement, rounding and suspects). */
export type ResolvedSize = Limits & {
  readonly text: string;
  readonly unit: Unit;
  readonly decimals: number | null;
  readonly fraction: boolean;
  readonly reference: boolean;
  /** Where the limits come from: written with the size, a class, a general rule, or none at all (exact). */
  readonly limitsFrom: 'written' | 'fit' | 'general' | 'none';
};

/** A drawing length, turned so that `from` lies left of `to` in the file's order of faces. Index into part.lengths. */
export type ResolvedLength = {
  readonly id: string;
  readonly index: number;
  readonly from: string;
  readonly to: string;
  readonly size: ResolvedSize;
};

/** Tangent of a taper's half angle and how it was given. `exact` where the tangent is rational (a ratio or per foot). */
export type TaperAngle = {
  readonly tan: number;
  /** For a rational tangent: diameter change per length as numerator/denominator, exact. */
  readonly ratio: { readonly num: number; readonly den: number } | null;
  readonly text: string;
};

export type ResolvedSegment =
  | {
      readonly id: string;
      readonly form: 'cylinder';
      readonly index: number;
      readonly left: string;
      readonly right: string;
      readonly role: string | null;
      readonly mate: ResolvedMate | null;
      readonly diameter: ResolvedSize | null;
      /** Aimed at the metal side rather than the middle of its limits. */
      readonly metalSide?: boolean;
    }
  | {
      readonly id: string;
      readonly form: 'thread';
      readonly index: number;
      readonly left: string;
      readonly right: string;
      readonly role: string | null;
      readonly mate: ResolvedMate | null;
      readonly thread: ThreadSpec | null;
    }
  | {
      readonly id: string;
      readonly form: 'taper';
      readonly index: number;
      readonly left: string;
      readonly right: string;
      readonly role: string | null;
      readonly mate: ResolvedMate | null;
      readonly start: ResolvedSize | null;
      readonly end: ResolvedSize | null;
      readonly angle: TaperAngle | null;
      readonly large: 'start' | 'end' | null;
    };

/** Limits of what runs on a segment. `chamfer`: the bearing's own corner, which the shaft's corner must clear. */
export type ResolvedMate = {
  readonly text: string;
  readonly min: Length;
  readonly max: Length;
  readonly chamfer?: Length | null;
};

export type ResolvedEdge =
  | {
      readonly id: string;
      readonly index: number;
      readonly face: string;
      readonly side: 'left' | 'right';
      readonly form: 'chamfer';
      readonly size: ResolvedSize;
      readonly angleDeg: number;
    }
  | {
      readonly id: string;
      readonly index: number;
      readonly face: string;
      readonly side: 'left' | 'right';
      readonly form: 'fillet';
      readonly radius: ResolvedSize;
    }
  | {
      readonly id: string;
      readonly index: number;
      readonly face: string;
      readonly side: 'left' | 'right';
      readonly form: 'undercut';
      readonly width: ResolvedSize;
      readonly depth: ResolvedSize;
    };

/** `from` is 'first' or 'last' face. Depths null where the hole goes right through. */
export type ResolvedHole =
  | {
      readonly id: string;
      readonly index: number;
      readonly from: 'first' | 'last';
      readonly form: 'drill' | 'bore';
      readonly diameter: ResolvedSize;
      readonly depth: ResolvedSize | null;
    }
  | {
      readonly id: string;
      readonly index: number;
      readonly from: 'first' | 'last';
      readonly form: 'tap';
      readonly thread: ThreadSpec;
      readonly depth: ResolvedSize;
      readonly drillDepth: ResolvedSize;
    }
  | {
      readonly id: string;
      readonly index: number;
      readonly from: 'first' | 'last';
      readonly form: 'centre';
      readonly size: string;
      readonly pilot: Length;
      readonly mouth: Length;
    };

export type ResolvedCrossing =
  | {
      readonly id: string;
      readonly index: number;
      readonly at: string;
      readonly angleDeg: number;
      readonly form: 'hole';
      readonly diameter: ResolvedSize;
      readonly reaches: 'axis' | 'through' | ResolvedSize;
    }
  | {
      readonly id: string;
      readonly index: number;
      readonly at: string;
      readonly angleDeg: number;
      readonly form: 'keyseat';
      readonly to: string;
      readonly width: ResolvedSize;
      readonly depth: ResolvedSize;
    }
  | {
      readonly id: string;
      readonly index: number;
      readonly at: string;
      readonly angleDeg: number;
      readonly form: 'flat';
      readonly to: string;
      readonly across: ResolvedSize | null;
      readonly depth: ResolvedSize | null;
    };

export type ResolvedRequirement = {
  readonly id: string;
  readonly index: number;
  readonly from: string;
  readonly to: string;
  /** Signed the way from -> to runs after turning both to drawn order. Null where the text cannot be read. */
  readonly min: Length;
  readonly max: Length;
  readonly why: string;
};

/** `Pins` with every text read; a grip whose size cannot be read is left out, and named in `errors`. */
export type ResolvedPins = Omit<Pins, 'grips'> & {
  readonly grips?: readonly { readonly holding: string; readonly out: Length }[];
};

/** A stub that stays beyond an end of the part. `diameter` null: of the bar, untouched. */
export type ResolvedStub = {
  readonly end: 'first' | 'last';
  readonly face: string;
  readonly length: Length;
  readonly diameter: { readonly aim: Length; readonly min: Length; readonly max: Length } | null;
  readonly centre: boolean;
};

/** The part with every text read. Fields that could not be read are null or left out, and named in `errors`. */
export type ResolvedPart = {
  readonly unit: Unit;
  readonly title: string;
  readonly material: string;
  /** Faces in drawn order. */
  readonly faces: readonly string[];
  readonly points: readonly string[];
  /** Rough places by station id, in pm. */
  readonly sketched: ReadonlyMap<string, Length>;
  readonly names: ReadonlyMap<string, string>;
  readonly segments: readonly ResolvedSegment[];
  /** All readable lengths, references included (see size.reference). */
  readonly lengths: readonly ResolvedLength[];
  readonly edges: readonly ResolvedEdge[];
  readonly holes: readonly ResolvedHole[];
  readonly crossings: readonly ResolvedCrossing[];
  readonly requirements: readonly ResolvedRequirement[];
  readonly matched: readonly (readonly string[])[];
  /** How sizes fall within their limits, by id of length or segment; the others fall normally, cut at their limits. */
  readonly falls?: ReadonlyMap<string, Falls>;
  /** Segments whose fit is proved on a trial land, and the one that keeps a line along the axis. */
  readonly trials: readonly string[];
  readonly indexLine: string | null;
  readonly stubs: readonly ResolvedStub[];
  /** What the user has settled about the plan; see `Pins`. */
  readonly pins: ResolvedPins;
  readonly errors: readonly Problem[];
  readonly warnings: readonly Problem[];
};

export type ResolvedTool =
  | {
      readonly id: string;
      readonly kind: 'turn';
      readonly hand: 'right' | 'left' | 'neutral';
      readonly nose: Length;
      readonly trailingDeg: number;
    }
  | {
      readonly id: string;
      readonly kind: 'blade';
      readonly width: Length;
      readonly widthKnownTo: Length;
      readonly reach: Length;
      readonly edge: 'left' | 'right';
    }
  | { readonly id: string; readonly kind: 'bore'; readonly minBore: Length; readonly reach: Length }
  | { readonly id: string; readonly kind: 'chamfer'; readonly angleDeg: number }
  | { readonly id: string; readonly kind: 'form'; readonly nose: Length }
  | { readonly id: string; readonly kind: 'thread' };

/** The lathe with every text read. */
export type ResolvedLathe = {
  readonly name: string;
  readonly unit: Unit;
  readonly swing: Length;
  readonly betweenCentres: Length;
  readonly spindleBore: Length;
  readonly collets: {
    readonly min: Length;
    readonly max: Length;
    readonly step: Length;
    readonly close: Length;
    readonly runout: Length;
  } | null;
  readonly chucks: readonly {
    readonly jaws: number;
    readonly min: Length;
    readonly max: Length;
    readonly runout: Length;
  }[];
  /** Null: the larger of one diameter and 10 mm. */
  readonly minGrip: Length | null;
  readonly support: readonly string[];
  readonly betweenCentresDrive: boolean;
  /** Steps in rpm, ascending, or the ends of a variable drive. */
  readonly speeds: { readonly steps: readonly number[] } | { readonly min: number; readonly max: number };
  /** Per turn, ascending; empty for hand feed. */
  readonly feeds: readonly Length[];
  readonly readout: {
    readonly x: 'diameter' | 'radius';
    readonly zPositive: 'tailstock' | 'headstock';
    readonly resolution: Length;
    readonly repeat: Length;
    readonly touch: Length;
  };
  readonly compoundTravel: Length | null;
  readonly quillTravel: Length | null;
  readonly tools: readonly ResolvedTool[];
  readonly taps: readonly string[] | null;
  readonly dies: readonly string[] | null;
  readonly drills: 'all' | readonly string[];
  readonly cut: { readonly rough: Length; readonly finish: Length; readonly allowance: Length };
  readonly bars: {
    readonly diameters: readonly { readonly text: string; readonly diameter: Length }[];
    readonly length: Length;
  };
  /** Where no such tool exists the lathe file says so; problems found while reading. */
  readonly errors: readonly Problem[];
};
