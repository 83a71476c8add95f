import type { Choice } from './choice.ts';
import type { Scene } from './scene.ts';
import type { Spot } from './viewport.ts';

/** A place on the canvas that stands for a choice: px from the drawing's origin, y down. Later ones lie on top. */
export type HitArea = {
  readonly choice: Choice;
  readonly points: readonly number[];
  readonly closed: boolean;
  /** Width of the rim that still counts, px. */
  readonly reach: number;
};

const rectangle = (x0: number, y0: number, x1: number, y1: number) => [x0, y0, x1, y0, x1, y1, x0, y1];

/** Large things below, small ones above; faces are easy to take hold of along their whole height. */
export function hitAreas(scene: Scene): HitArea[] {
  return [...segments(scene), ...features(scene), ...stations(scene), ...labels(scene)];
}

function segments({ drawing, picture, view }: Scene): HitArea[] {
  const { part, places, tall } = drawing;
  const tallest = new Map<string, number>();
  for (const item of picture.items)
    if (item.kind === 'area' && item.id !== undefined)
      tallest.set(item.id, item.points.reduce(higher, tallest.get(item.id) ?? tall / 8));
  return part.segments.flatMap(({ id }, k) => {
    const [a, b] = [places.at.get(part.faces[k]?.id ?? ''), places.at.get(part.faces[k + 1]?.id ?? '')];
    if (a === undefined || b === undefined) return [];
    const r = (tallest.get(id) ?? tall / 8) * view.scale;
    const points = rectangle(a * view.scale, -r, b * view.scale, r);
    return [{ choice: { kind: 'segment', id }, points, closed: true, reach: 1 }];
  });
}

/** The larger of a height and a flat list's entry, where that entry is a y. */
const higher = (most: number, value: number, i: number): number =>
  i % 2 === 1 ? Math.max(most, Math.abs(value)) : most;

function features({ drawing, picture, view }: Scene): HitArea[] {
  return picture.items.flatMap((item) => {
    if (item.kind !== 'line' || item.id === undefined) return [];
    const kind = drawing.kinds.get(item.id);
    if (kind !== 'hole' && kind !== 'crossing') return [];
    const points = item.points.map((v, j) => (j % 2 === 0 ? v : -v) * view.scale);
    return [{ choice: { kind, id: item.id }, points, closed: false, reach: 7 }];
  });
}

function stations({ stations: all, drawing, view }: Scene): HitArea[] {
  return all.map(({ id, kind, x, radius, line, note }) => {
    const top = kind === 'face' ? -radius * view.scale : drawing.tall * view.scale;
    const bottom = line?.to ?? radius * view.scale;
    const far = note && note.x < x ? x - 62 : x + 62;
    const words = note ? [far, bottom + 8, far, bottom - 10, x, bottom - 10] : [];
    const points = [x, top, x, bottom, ...words];
    return { choice: { kind: 'station', id }, points, closed: false, reach: 10 };
  });
}

function labels({ dimensions, leaders, sides }: Scene): HitArea[] {
  return [
    ...dimensions.flatMap((d): HitArea[] => {
      const choice: Choice = { kind: 'length', id: d.id };
      const text = rectangle(d.textX - 4, d.y - 20, d.textX + d.width + 4, d.y + 2);
      return [
        { choice, points: [d.x0, d.y, d.x1, d.y], closed: false, reach: 10 },
        { choice, points: text, closed: true, reach: 1 },
      ];
    }),
    ...sides.map(({ choice, textX, textY, width }): HitArea => {
      const points = rectangle(textX - 3, textY - 17, textX + width + 3, textY + 6);
      return { choice, points, closed: true, reach: 1 };
    }),
    ...leaders.map(({ choice, x, y, width }): HitArea => {
      const points = rectangle(x, y - 15, x + width, y + 4);
      return { choice, points, closed: true, reach: 1 };
    }),
  ];
}

/** The uppermost of some areas at a place, px from the drawing's origin; null where there is none. */
export const areaAt = (areas: readonly HitArea[], spot: Spot): HitArea | null =>
  areas.findLast((area) => covers(area, spot)) ?? null;

/** How far a finger may be off, px: half of what is easily hit. */
const FINGER = 12;

/**
 * What a finger means: what lies there; where that is nothing, or a segment with room beside its ends, the nearest of what
 * it may have missed.
 */
export function areaNear(areas: readonly HitArea[], spot: Spot): HitArea | null {
  const exact = areaAt(areas, spot);
  const segment = exact?.choice.kind === 'segment' ? exact : null;
  if (exact && (!segment || width(segment) < 4 * FINGER)) return exact;
  const near = areas
    .filter(({ choice }) => segment === null || choice.kind !== 'segment')
    .map((area) => ({ area, far: rim(area, spot) }))
    .filter(({ far }) => far <= FINGER)
    .sort((one, other) => one.far - other.far);
  return near[0]?.area ?? exact;
}

function width({ points }: HitArea): number {
  const xs = points.filter((_, i) => i % 2 === 0);
  return Math.max(...xs) - Math.min(...xs);
}

/** How far a place is from an area's line, px. */
function rim({ points, closed }: HitArea, { x, y }: Spot): number {
  const count = points.length / 2;
  let least = Infinity;
  for (let i = 0; i < (closed ? count : count - 1); i++) {
    const j = (i + 1) % count;
    const [ax, ay] = [points[2 * i] ?? 0, points[2 * i + 1] ?? 0];
    const [bx, by] = [points[2 * j] ?? 0, points[2 * j + 1] ?? 0];
    least = Math.min(least, distance(x - ax, y - ay, bx - ax, by - ay));
  }
  return least;
}

/** Whether a place is inside an area that is closed, or within half its reach of its line. */
function covers({ points, closed, reach }: HitArea, { x, y }: Spot): boolean {
  const count = points.length / 2;
  let inside = false;
  for (let i = 0; i < (closed ? count : count - 1); i++) {
    const j = (i + 1) % count;
    const [ax, ay] = [points[2 * i] ?? 0, points[2 * i + 1] ?? 0];
    const [bx, by] = [points[2 * j] ?? 0, points[2 * j + 1] ?? 0];
    if (distance(x - ax, y - ay, bx - ax, by - ay) <= reach / 2) return true;
    // A ray to the right leaves a closed area once more often than it enters it where it starts inside.
    if (closed && ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay)) inside = !inside;
  }
  return inside;
}

/** How far a place is from the stretch between the origin and u, v. */
function distance(x: number, y: number, u: number, v: number): number {
  const long = u * u + v * v;
  const share = long === 0 ? 0 : Math.min(Math.max((x * u + y * v) / long, 0), 1);
  return Math.hypot(x - share * u, y - share * v);
}
