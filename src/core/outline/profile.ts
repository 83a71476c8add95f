import { readAngle } from '../lengths/read-angle.ts';
import { readSize } from '../lengths/read-size.ts';
import { toMm, type Unit } from '../lengths/length.ts';
import type { Edge, Part, SizeText } from '../part/types.ts';
import type { DrawnDiameters } from './drawing-diameters.ts';
import { sizeTextOf, type DrawingPlaces } from './drawing-places.ts';
import { through, type Piece } from './radial.ts';

/** One segment as it is drawn, edges worked in, mm. */
export type DrawnSegment = {
  readonly id: string;
  readonly x0: number;
  readonly x1: number;
  readonly outside: readonly Piece[];
  /** Places where an edge begins or ends and a line is seen across the part. */
  readonly corners: readonly number[];
  /** Drawn thread root, null where the segment carries no thread. */
  readonly root: number | null;
};
/** What an edge makes of an end, from the face inward; `id` says which edge. */
type End = { readonly points: (readonly [number, number])[]; readonly corner: number | null };

/** A size's nominal in mm; null where it is absent or cannot be read. */
export function drawnSize(size: SizeText | undefined, unit: Unit): number | null {
  const read = size === undefined ? null : readSize(sizeTextOf(size), unit);
  return read?.ok ? toMm(read.value.nominal) : null;
}

/** An angle in degrees; the given one where it is absent or cannot be read. */
export function drawnAngle(text: string | undefined, otherwise: number): number {
  const read = text === undefined ? null : readAngle(text);
  return read?.ok ? read.value : otherwise;
}

/** The outside of every segment in drawn order, with chamfers, fillets and undercuts. Unreadable edges are left out. */
export function drawnSegments(
  part: Part,
  places: DrawingPlaces,
  diameters: ReadonlyMap<string, DrawnDiameters>,
): DrawnSegment[] {
  const radii = part.segments.map((s) => {
    const d = diameters.get(s.id);
    return { left: (d?.left ?? 0) / 2, right: (d?.right ?? 0) / 2 };
  });
  return part.segments.flatMap((segment, k) => {
    const [from, to] = [part.faces[k], part.faces[k + 1]];
    const r = radii[k];
    if (!from || !to || !r) return [];
    const [x0, x1] = [places.at.get(from.id) ?? 0, places.at.get(to.id) ?? 0];
    const at = (x: number) => r.left + ((x - x0) / (x1 - x0)) * (r.right - r.left);
    const end = (face: string, side: Edge['side'], x: number, next: number | undefined): End =>
      worked(
        part.edges.filter((e) => e.face === face && e.side === side),
        { x, inward: side === 'right' ? 1 : -1, at, room: (x1 - x0) / 2, next: next ?? 0, unit: part.unit },
      );
    const left = end(from.id, 'right', x0, radii[k - 1]?.right);
    const right = end(to.id, 'left', x1, radii[k + 1]?.left);
    const root = diameters.get(segment.id)?.root;
    return [
      {
        id: segment.id,
        x0,
        x1,
        outside: through([...left.points, ...[...right.points].reverse()]),
        corners: [left.corner, right.corner].filter((x): x is number => x !== null),
        root: segment.form === 'thread' ? (root ?? 0.85 * 2 * r.left) / 2 : null,
      },
    ];
  });
}

type EndOf = {
  readonly x: number;
  readonly inward: 1 | -1;
  readonly at: (x: number) => number;
  /** How far an edge may reach in. */
  readonly room: number;
  /** Radius on the other side of the face. */
  readonly next: number;
  readonly unit: Unit;
};

function worked(edges: readonly Edge[], end: EndOf): End {
  const plain: End = { points: [[end.x, end.at(end.x)]], corner: null };
  for (const edge of edges) {
    const made =
      edge.form === 'chamfer'
        ? chamfer(edge, end)
        : edge.form === 'fillet'
          ? fillet(edge, end)
          : undercut(edge, end);
    if (made) return made;
  }
  return plain;
}

function chamfer(edge: Edge & { form: 'chamfer' }, { x, inward, at, room, unit }: EndOf): End | null {
  const size = drawnSize(edge.size, unit);
  if (!size) return null;
  const along = Math.min(size, room);
  const inner = x + inward * along;
  const drop = along * Math.tan((drawnAngle(edge.angle, 45) * Math.PI) / 180);
  return {
    points: [
      [x, Math.max(at(x) - drop, 0.05 * at(x))],
      [inner, at(inner)],
    ],
    corner: inner,
  };
}

function fillet(edge: Edge & { form: 'fillet' }, { x, inward, at, room, next, unit }: EndOf): End | null {
  const size = drawnSize(edge.radius, unit);
  const radius = Math.min(size ?? 0, room, next - at(x));
  if (!(radius > 0)) return null;
  const points = Array.from({ length: 7 }, (_, i): readonly [number, number] => {
    const turn = (i / 6) * (Math.PI / 2);
    return [x + inward * radius * (1 - Math.cos(turn)), at(x) + radius * (1 - Math.sin(turn))];
  });
  return { points, corner: null };
}

function undercut(edge: Edge & { form: 'undercut' }, { x, inward, at, room, unit }: EndOf): End | null {
  const [width, depth] = [drawnSize(edge.width, unit), drawnSize(edge.depth, unit)];
  if (!width || !depth) return null;
  const inner = x + inward * Math.min(width, room);
  const floor = Math.max(at(x) - depth, 0.05 * at(x));
  return {
    points: [
      [x, floor],
      [inner, floor],
      [inner, at(inner)],
    ],
    corner: inner,
  };
}
