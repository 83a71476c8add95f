import type { Unit } from '../core/lengths/length.ts';
import type { Callout } from '../core/outline/dimensions.ts';
import { drawnAngle, drawnSize } from '../core/outline/profile.ts';
import type { Crossing, Part } from '../core/part/types.ts';
import { edgeIds } from '../core/part/resolve-edges.ts';
import type { Choice } from './choice.ts';

/** A callout with the point its leader touches: along the axis, and above it, mm. */
export type Anchor = {
  readonly choice: Choice;
  readonly text: string;
  readonly mm: number;
  readonly up: number;
  /** How large the thing is along the axis, mm; 0 where that is no matter. */
  readonly size: number;
  /** How far along the axis from there a leader still ends on the thing, mm. */
  readonly room: number;
};
type Point = Pick<Anchor, 'mm' | 'up' | 'size' | 'room'>;

/** So much of the half of a thing may a leader go aside: not up to its edge. */
const ASIDE = 0.8;

/** Gives every callout a point on the drawing; what stands on a station that is not there is left out. */
export function anchorsOf(
  part: Part,
  callouts: readonly Callout[],
  mmOf: (station: string) => number,
  radiusAt: (mm: number) => number,
): Anchor[] {
  const points = new Map<string, Point>();
  const add = (kind: Choice['kind'], id: string, point: Point) => points.set(`${kind} ${id}`, point);
  part.segments.forEach((segment, k) => {
    const [a, b] = [part.faces[k], part.faces[k + 1]];
    if (!a || !b) return;
    const mm = (mmOf(a.id) + mmOf(b.id)) / 2;
    add('segment', segment.id, {
      mm,
      up: segment.form === 'taper' ? radiusAt(mm) * 0.85 : radiusAt(mm),
      size: 0,
      room: (ASIDE * Math.abs(mmOf(b.id) - mmOf(a.id))) / 2,
    });
  });
  const last = part.faces.at(-1)?.id;
  const end = last === undefined ? 0 : mmOf(last);
  for (const hole of part.holes) {
    const depth = 'depth' in hole ? drawnSize(hole.depth, part.unit) : null;
    const into = Math.min((depth ?? end / 8) * 0.8, end / 2);
    add('hole', hole.id, {
      mm: hole.from === last ? end - into : into,
      up: 0,
      size: 0,
      room: (depth ?? end / 8) * (1 - ASIDE),
    });
  }
  for (const crossing of part.crossings) {
    const at = mmOf(crossing.at);
    const mm = crossing.form === 'hole' ? at : at + (mmOf(crossing.to) - at) * 0.4;
    const up = Math.max(0, Math.cos((drawnAngle(crossing.angle, 0) * Math.PI) / 180));
    const wide = crossing.form === 'hole' ? (drawnSize(crossing.diameter, part.unit) ?? 0) : 0;
    const half = crossing.form === 'hole' ? wide / 2 : Math.abs(mmOf(crossing.to) - at) * 0.4;
    add('crossing', crossing.id, {
      mm,
      up: standing(crossing, radiusAt(mm), part.unit) * up,
      size: wide,
      room: ASIDE * half,
    });
  }
  const ids = edgeIds(part);
  part.edges.forEach((edge, i) => {
    const size = edge.form === 'fillet' ? edge.radius : edge.form === 'chamfer' ? edge.size : edge.width;
    const half = (drawnSize(size, part.unit) ?? 0) / 2;
    const mm = mmOf(edge.face) + (edge.side === 'right' ? half : -half);
    add('edge', ids[i] ?? '', { mm, up: radiusAt(mm) - half, size: 2 * half, room: ASIDE * half });
  });
  return callouts.flatMap(({ kind, id, text }) => {
    const point = points.get(`${kind} ${id}`);
    return point ? [{ choice: { kind, id }, text, ...point }] : [];
  });
}

/** The radius that is left standing where a note's leader ends: a flat takes the outline away, a slot has its rims. */
function standing(crossing: Crossing, radius: number, unit: Unit): number {
  if (crossing.form !== 'flat') return radius;
  const [depth, across] = [drawnSize(crossing.depth, unit), drawnSize(crossing.across, unit)];
  const left = depth ? radius - depth : across ? across - radius : radius;
  return Math.min(Math.max(left, 0), radius);
}
