import type { Callout } from '../core/outline/dimensions.ts';
import { drawnAngle, drawnSize } from '../core/outline/profile.ts';
import type { Part } from '../core/part/types.ts';
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
};
type Point = { readonly mm: number; readonly up: number; readonly size: number };

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
    });
  });
  const last = part.faces.at(-1)?.id;
  const end = last === undefined ? 0 : mmOf(last);
  for (const hole of part.holes) {
    const depth = 'depth' in hole ? drawnSize(hole.depth, part.unit) : null;
    const into = Math.min((depth ?? end / 8) * 0.8, end / 2);
    add('hole', hole.id, { mm: hole.from === last ? end - into : into, up: 0, size: 0 });
  }
  for (const crossing of part.crossings) {
    const at = mmOf(crossing.at);
    const mm = crossing.form === 'hole' ? at : at + (mmOf(crossing.to) - at) * 0.4;
    const up = Math.max(0, Math.cos((drawnAngle(crossing.angle, 0) * Math.PI) / 180));
    const wide = crossing.form === 'hole' ? (drawnSize(crossing.diameter, part.unit) ?? 0) : 0;
    add('crossing', crossing.id, { mm, up: radiusAt(mm) * up, size: wide });
  }
  const ids = edgeIds(part);
  part.edges.forEach((edge, i) => {
    const size = edge.form === 'fillet' ? edge.radius : edge.form === 'chamfer' ? edge.size : edge.width;
    const half = (drawnSize(size, part.unit) ?? 0) / 2;
    const mm = mmOf(edge.face) + (edge.side === 'right' ? half : -half);
    add('edge', ids[i] ?? '', { mm, up: radiusAt(mm) - half, size: 2 * half });
  });
  return callouts.flatMap(({ kind, id, text }) => {
    const point = points.get(`${kind} ${id}`);
    return point ? [{ choice: { kind, id }, text, ...point }] : [];
  });
}
