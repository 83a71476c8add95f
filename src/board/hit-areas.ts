import type { Choice } from './choice.ts';
import type { Scene } from './scene.ts';

/** A place on the canvas that stands for a choice: px from the drawing's origin, y down. Later ones lie on top. */
export type HitArea = {
  readonly key: string;
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
    return [{ key: `segment ${id}`, choice: { kind: 'segment', id }, points, closed: true, reach: 1 }];
  });
}

/** The larger of a height and a flat list's entry, where that entry is a y. */
const higher = (most: number, value: number, i: number): number =>
  i % 2 === 1 ? Math.max(most, Math.abs(value)) : most;

function features({ drawing, picture, view }: Scene): HitArea[] {
  return picture.items.flatMap((item, i) => {
    if (item.kind !== 'line' || item.id === undefined) return [];
    const kind = drawing.kinds.get(item.id);
    if (kind !== 'hole' && kind !== 'crossing') return [];
    const points = item.points.map((v, j) => (j % 2 === 0 ? v : -v) * view.scale);
    return [{ key: `line ${i}`, choice: { kind, id: item.id }, points, closed: false, reach: 7 }];
  });
}

function stations({ stations: all, drawing, view }: Scene): HitArea[] {
  return all.map(({ id, kind, x, radius, line, note }) => {
    const top = kind === 'face' ? -radius * view.scale : drawing.tall * view.scale;
    const bottom = line?.to ?? radius * view.scale;
    const words = note ? [x + 62, bottom + 8, x + 62, bottom - 10, x, bottom - 10] : [];
    const points = [x, top, x, bottom, ...words];
    return { key: `station ${id}`, choice: { kind: 'station', id }, points, closed: false, reach: 10 };
  });
}

function labels({ dimensions, leaders, sides }: Scene): HitArea[] {
  return [
    ...dimensions.flatMap((d): HitArea[] => {
      const choice: Choice = { kind: 'length', id: d.id };
      const text = rectangle(d.textX - 4, d.y - 20, d.textX + d.width + 4, d.y + 2);
      return [
        { key: `line of ${d.id}`, choice, points: [d.x0, d.y, d.x1, d.y], closed: false, reach: 10 },
        { key: `text of ${d.id}`, choice, points: text, closed: true, reach: 1 },
      ];
    }),
    ...sides.map(({ choice, textX, textY, width }): HitArea => {
      const points = rectangle(textX - 3, textY - 17, textX + width + 3, textY + 6);
      return { key: `side ${choice.id}`, choice, points, closed: true, reach: 1 };
    }),
    ...leaders.map(({ choice, x, y, width }): HitArea => {
      const points = rectangle(x, y - 15, x + width, y + 4);
      return { key: `leader ${choice.kind} ${choice.id}`, choice, points, closed: true, reach: 1 };
    }),
  ];
}
