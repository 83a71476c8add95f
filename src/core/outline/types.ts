import type { Length } from '../lengths/length.ts';
import type { ThreadSpec } from '../standards/thread-spec.ts';

/**
 * The solved part at its aims, as a body of revolution: what the plan must leave standing. Places and diameters in
 * pm, part coordinates (0 at the first face, growing to the drawn right).
 */
export type Outline = {
  readonly length: Length;
  /** Aim places of all stations. */
  readonly stations: ReadonlyMap<string, Length>;
  readonly segments: readonly OutlineSegment[];
  readonly edges: readonly OutlineEdge[];
  readonly holes: readonly OutlineHole[];
  readonly crossings: readonly OutlineCrossing[];
  readonly matched: readonly (readonly string[])[];
  /** Where stubs stay beyond the ends of the part: they are segments like any other, and this says which they are. */
  readonly kept?: Kept;
};

export type Kept = {
  /** The part alone, in its own coordinates. */
  readonly bare: Outline;
  readonly stubs: readonly KeptStub[];
};

/** A stub as a segment of the outline: its id, the face of the part that it covers, its own end. */
export type KeptStub = {
  readonly id: string;
  readonly end: 'first' | 'last';
  readonly face: string;
  readonly outer: string;
  readonly centre: boolean;
};

export type OutlineSegment = {
  readonly id: string;
  readonly form: 'cylinder' | 'taper' | 'thread';
  readonly left: string;
  readonly right: string;
  readonly z0: Length;
  readonly z1: Length;
  /** Aim diameters at z0 and z1; equal but for a taper. A thread has its blank. */
  readonly d0: Length;
  readonly d1: Length;
  /** Limits of the diameter at its larger end (cylinder: its own), for readout and stiffness checks. */
  readonly min: Length;
  readonly max: Length;
  readonly role: string | null;
  readonly thread: ThreadSpec | null;
  /** Half angle in degrees of a taper, signed: positive where the diameter grows to the right; 0 otherwise. */
  readonly halfAngleDeg: number;
  /** The bar's own skin is inside the limits, and the aim is the bar's size: no cut. */
  readonly keepsSkin: boolean;
};

/** An edge as a piece of outside profile: from d0 at z0 to d1 at z1, straight (chamfer, undercut) or an arc (fillet). */
export type OutlineEdge = {
  readonly id: string;
  readonly face: string;
  readonly side: 'left' | 'right';
  readonly segment: string;
  readonly form: 'chamfer' | 'fillet' | 'undercut';
  readonly z0: Length;
  readonly z1: Length;
  readonly d0: Length;
  readonly d1: Length;
  readonly angleDeg: number;
};

/** A hole from one end. `depth` to the end of the full diameter, from the finished face; null: right through. */
export type OutlineHole = {
  readonly id: string;
  readonly from: 'first' | 'last';
  readonly form: 'drill' | 'tap' | 'bore' | 'centre';
  /** Diameter left in the metal: the drill, the bore, the tap drill, a centre hole's mouth. */
  readonly diameter: Length;
  readonly min: Length;
  readonly max: Length;
  readonly depth: Length | null;
  readonly thread: ThreadSpec | null;
  /** Full thread depth of a tapped hole. */
  readonly threadDepth: Length | null;
  /** What a person picks from the drawer: "No. 19", "4.2 mm", "No. 2 centre drill". */
  readonly toolName: string;
};

export type OutlineCrossing = {
  readonly id: string;
  readonly form: 'hole' | 'keyseat' | 'flat';
  readonly z0: Length;
  readonly z1: Length;
  /** Tool size: drill diameter or cutter width; for a flat its depth. */
  readonly size: Length;
  readonly depth: Length | null;
  readonly angleDeg: number;
  readonly reaches: 'axis' | 'through' | 'depth';
};
