import type { SolvedChains } from '../chains/types.ts';
import { type Length, middle, nearest, pm } from '../lengths/length.ts';
import { aimAt } from '../part/aim.ts';
import type {
  ResolvedHole,
  ResolvedLathe,
  ResolvedPart,
  ResolvedSegment,
  ResolvedSize,
} from '../part/resolved.ts';
import type { Outcome, Problem } from '../problem.ts';
import { drillName } from '../standards/drills.ts';
import { outlineCrossings } from './crossings.ts';
import { outlineEdges } from './corners.ts';
import type { Outline, OutlineHole, OutlineSegment } from './types.ts';

/**
 * The part at its aims as a body of revolution: places from the chains, diameters at mid-limits, a thread at its
 * blank, a land inside whose limits the chosen bar lies at the bar's own size.
 *
 * @param bar - Diameter of the bar the part is cut from; null where none is chosen yet (no land keeps its skin).
 * @returns Not ok, with the field that is missing, where a place or a diameter is undetermined.
 */
export function solidOf(
  part: ResolvedPart,
  chains: SolvedChains,
  lathe: ResolvedLathe,
  bar: Length | null,
): Outcome<Outline> {
  const stations = new Map([...chains.places].map(([id, at]) => [id, at.aim] as const));
  const segments: OutlineSegment[] = [];
  for (const segment of part.segments) {
    const z0 = stations.get(segment.left);
    const z1 = stations.get(segment.right);
    if (z0 === undefined || z1 === undefined)
      return missing(`segments[${segment.index}]`, 'its ends have no place');
    const shape = shapeOf(segment, z0, z1, bar);
    if (!shape) return missing(`segments[${segment.index}]`, 'a diameter is missing or cannot be read');
    segments.push(shape);
  }
  const last = segments.at(-1);
  if (!last) return missing('segments', 'the part has no segments');
  return {
    ok: true,
    value: {
      length: last.z1,
      stations,
      segments,
      edges: outlineEdges(part, segments),
      holes: part.holes.map((hole) => outlineHole(hole, lathe)),
      crossings: outlineCrossings(part, stations, segments),
      matched: part.matched,
    },
  };
}

const missing = (where: string, why: string): { ok: false; problem: Problem } => ({
  ok: false,
  problem: { code: 'no-outline', where, say: `The outline cannot be drawn up: ${why}.` },
});

/** The largest aim diameter, which the bar must clean up, and the limits of every segment as thick as that. */
export function largestDiameter(outline: Outline): Length {
  return pm(Math.max(...outline.segments.map((s) => Math.max(s.d0, s.d1))));
}

function shapeOf(
  segment: ResolvedSegment,
  z0: Length,
  z1: Length,
  bar: Length | null,
): OutlineSegment | null {
  const common = { id: segment.id, left: segment.left, right: segment.right, z0, z1, role: segment.role };
  if (segment.form === 'thread') {
    const thread = segment.thread;
    if (!thread) return null;
    const limits = thread.major ?? { min: thread.blank, max: thread.nominal };
    const at = { d0: thread.blank, d1: thread.blank, min: limits.min, max: limits.max };
    return { ...common, form: 'thread', ...at, thread, halfAngleDeg: 0, keepsSkin: false };
  }
  if (segment.form === 'cylinder') {
    const size = segment.diameter;
    if (!size) return null;
    const fine = segment.role === 'journal' || segment.role === 'seat';
    const keepsSkin = bar !== null && !fine && bar >= size.min && bar <= size.max;
    const aim = keepsSkin ? bar : aimAt(size, segment.metalSide);
    const at = { d0: aim, d1: aim, min: size.min, max: size.max };
    return { ...common, form: 'cylinder', ...at, thread: null, halfAngleDeg: 0, keepsSkin };
  }
  return taperShape(segment, common, z1 - z0);
}

type Common = Pick<OutlineSegment, 'id' | 'left' | 'right' | 'z0' | 'z1' | 'role'>;

/** D − d = 2 L tan α: with one diameter and an angle the other follows from the length. */
function taperShape(
  segment: ResolvedSegment & { form: 'taper' },
  common: Common,
  length: number,
): OutlineSegment | null {
  const mid = (size: ResolvedSize | null): Length | null => (size ? middle(size.min, size.max) : null);
  let d0 = mid(segment.start);
  let d1 = mid(segment.end);
  if (segment.angle && (d0 === null) !== (d1 === null)) {
    const { tan, ratio } = segment.angle;
    const change = ratio ? Math.round((length * ratio.num) / ratio.den) : 2 * length * tan;
    if (d0 !== null) d1 = nearest(d0 + (segment.large === 'end' ? change : -change));
    else if (d1 !== null) d0 = nearest(d1 + (segment.large === 'start' ? change : -change));
  }
  if (d0 === null || d1 === null || d0 <= 0 || d1 <= 0) return null;
  const big = d0 >= d1 ? segment.start : segment.end;
  const limits = big ?? { min: pm(Math.max(d0, d1)), max: pm(Math.max(d0, d1)) };
  const halfAngleDeg = (Math.atan2((d1 - d0) / 2, length) * 180) / Math.PI;
  return {
    ...common,
    form: 'taper',
    d0,
    d1,
    min: limits.min,
    max: limits.max,
    thread: null,
    halfAngleDeg,
    keepsSkin: false,
  };
}

function outlineHole(hole: ResolvedHole, lathe: ResolvedLathe): OutlineHole {
  const common = { id: hole.id, from: hole.from };
  if (hole.form === 'centre') {
    const depth = nearest((hole.mouth - hole.pilot) / 2 / Math.tan(Math.PI / 6) + hole.pilot);
    const at = { diameter: hole.mouth, min: hole.mouth, max: hole.mouth, depth };
    return { ...common, form: 'centre', ...at, thread: null, threadDepth: null, toolName: hole.size };
  }
  if (hole.form === 'tap') {
    const diameter = hole.thread.tapDrill?.diameter ?? hole.thread.minor;
    return {
      ...common,
      form: 'tap',
      diameter,
      min: diameter,
      max: diameter,
      depth: hole.drillDepth.nominal,
      thread: hole.thread,
      threadDepth: hole.depth.nominal,
      toolName: hole.thread.tapDrill?.name ?? drillName(diameter, lathe.unit),
    };
  }
  const diameter =
    hole.form === 'bore' ? middle(hole.diameter.min, hole.diameter.max) : hole.diameter.nominal;
  return {
    ...common,
    form: hole.form,
    diameter,
    min: hole.diameter.min,
    max: hole.diameter.max,
    depth: hole.depth?.nominal ?? null,
    thread: null,
    threadDepth: null,
    toolName: drillName(diameter, lathe.unit),
  };
}
