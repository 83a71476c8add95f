import type { KeptStub, Outline, OutlineEdge, OutlineHole, OutlineSegment } from '../outline/types.ts';

/**
 * The part as the turner meets it: u runs from the end at the tailstock (0) to the end at the headstock (length), in
 * pm, whichever drawn end that is. Everything the planner decides is decided in u, so a mirrored part gets the
 * mirrored plan by construction; only what leaves the planner is turned back into part coordinates.
 */
export type Work = {
  /** The drawn end that is toward the headstock. */
  readonly headstock: 'left' | 'right';
  readonly length: number;
  readonly lands: readonly Land[];
  readonly corners: readonly Corner[];
  /** Holes that begin at the tailstock end, and at the headstock end. */
  readonly tailHoles: readonly OutlineHole[];
  readonly headHoles: readonly OutlineHole[];
  /** Stubs that stay beyond the part: the first land, and the last. */
  readonly tailStub: KeptStub | null;
  readonly headStub: KeptStub | null;
};

/** A segment of the part in u: `d0` stands at `u0`, the end nearer the tailstock. */
export type Land = {
  readonly id: string;
  readonly segment: OutlineSegment;
  readonly u0: number;
  readonly u1: number;
  readonly d0: number;
  readonly d1: number;
  /** Diameter it is turned to before a taper is cut: the larger end. */
  readonly blank: number;
  readonly tailFace: string;
  readonly headFace: string;
};

/** A chamfer, fillet or undercut in u. `atTail`: it stands at the tailstock end of its land. */
export type Corner = {
  readonly edge: OutlineEdge;
  readonly land: number;
  readonly atTail: boolean;
  readonly u0: number;
  readonly u1: number;
  readonly d0: number;
  readonly d1: number;
};

/** Looks at the outline with the given drawn end toward the headstock. */
export function workOf(outline: Outline, headstock: 'left' | 'right'): Work {
  const length = outline.length;
  const turn = headstock === 'left';
  const place = (z: number): number => (turn ? length - z : z);
  const lands = outline.segments.map((segment): Land => {
    const d0 = turn ? segment.d1 : segment.d0;
    const d1 = turn ? segment.d0 : segment.d1;
    return {
      id: segment.id,
      segment,
      u0: place(turn ? segment.z1 : segment.z0),
      u1: place(turn ? segment.z0 : segment.z1),
      d0,
      d1,
      blank: Math.max(d0, d1),
      tailFace: turn ? segment.right : segment.left,
      headFace: turn ? segment.left : segment.right,
    };
  });
  if (turn) lands.reverse();
  const corners = outline.edges.map((edge): Corner => {
    const land = lands.findIndex((l) => l.id === edge.segment);
    return {
      edge,
      land,
      atTail: (edge.side === 'right') !== turn,
      u0: place(turn ? edge.z1 : edge.z0),
      u1: place(turn ? edge.z0 : edge.z1),
      d0: turn ? edge.d1 : edge.d0,
      d1: turn ? edge.d0 : edge.d1,
    };
  });
  const tailIs = turn ? 'last' : 'first';
  return {
    headstock,
    length,
    lands,
    corners,
    tailHoles: outline.holes.filter((h) => h.from === tailIs),
    headHoles: outline.holes.filter((h) => h.from !== tailIs),
    tailStub: outline.kept?.stubs.find((s) => s.end === tailIs) ?? null,
    headStub: outline.kept?.stubs.find((s) => s.end !== tailIs) ?? null,
  };
}

/** Part coordinate of a place in u, in pm. */
export const zOf = (work: Pick<Work, 'headstock' | 'length'>, u: number): number =>
  work.headstock === 'left' ? work.length - u : u;

/** Picometres to the report's millimetres. */
export const mm = (count: number): number => (count === 0 ? 0 : count / 1e9);
