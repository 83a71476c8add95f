import type { AreaRole, LineRole, Picture } from '../core/outline/picture.ts';
import type { Hatch, Ink, Stroke } from './ink.ts';

/** How each line looks on paper: thickness in mm after ISO 128-2 (0.25 and 0.5, 1:2), dashes by its line types. */
const STROKES: Readonly<Record<LineRole, Stroke>> = {
  outline: { width: 0.5 },
  heavy: { width: 0.7 },
  thin: { width: 0.25 },
  centre: { width: 0.25, dash: [6, 1, 0.6, 1] },
  hidden: { width: 0.25, dash: [2, 0.8] },
  hatch: { width: 0.18 },
  ghost: { width: 0.25, dash: [4, 0.8, 0.5, 0.8, 0.5, 0.8] },
  mark: { width: 0.35 },
};

/** Areas that the ink hatches itself. Steel and cut metal stay paper: a section brings its own hatch lines. */
const HATCHES: Readonly<Partial<Record<AreaRole, Hatch>>> = {
  fluid: { apart: 0.9, width: 0.18, degrees: [90] },
};

/** Where a picture comes to stand: part mm times `scale` from the origin, which is at (x, y) on the page. */
export type Placing = { readonly x: number; readonly y: number; readonly scale: number };

/** Draws a picture. Its texts are set at `size` points, whatever the scale. */
export function drawPicture(ink: Ink, picture: Picture, { x, y, scale }: Placing, size = 8): void {
  const at = (points: readonly number[]): number[] =>
    points.map((value, i) => (i % 2 === 0 ? x + value * scale : y - value * scale));
  for (const item of picture.items) {
    if (item.kind === 'line') ink.line(at(item.points), STROKES[item.role]);
    else if (item.kind === 'area') {
      const hatch = HATCHES[item.role];
      if (hatch) ink.hatch(at(item.points), hatch);
    } else ink.text(item.text, x + item.x * scale, y - item.y * scale, size, { align: item.align });
  }
}

/** The extent of a picture's lines and areas, in part mm. */
export function extentOf(picture: Picture): { x0: number; x1: number; y0: number; y1: number } {
  const box = { x0: Infinity, x1: -Infinity, y0: Infinity, y1: -Infinity };
  for (const item of picture.items) {
    const points = item.kind === 'text' ? [item.x, item.y] : item.points;
    points.forEach((value, i) => {
      const [low, high] = i % 2 === 0 ? (['x0', 'x1'] as const) : (['y0', 'y1'] as const);
      box[low] = Math.min(box[low], value);
      box[high] = Math.max(box[high], value);
    });
  }
  return Number.isFinite(box.x0) ? box : { x0: 0, x1: 1, y0: 0, y1: 1 };
}
