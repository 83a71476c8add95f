import type { AreaRole, LineRole, Picture } from '../core/outline/picture.ts';
import type { Hatch } from './hatch.ts';
import type { Ink, Stroke } from './ink.ts';

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
/** Corners of a stretch of page, in mm. */
export type Room = { readonly x0: number; readonly y0: number; readonly x1: number; readonly y1: number };

const SIZE = 8;
/** Between hatch lines, mm: none, where only the size of a picture is asked for. */
export const NO_HATCH = 1e6;

/** Draws a picture, its texts at one size whatever the scale. They keep inside `room` and clear of one another. */
export function drawPicture(ink: Ink, picture: Picture, { x, y, scale }: Placing, room: Room): void {
  const at = (points: readonly number[]): number[] =>
    points.map((value, i) => (i % 2 === 0 ? x + value * scale : y - value * scale));
  const taken: Room[] = [];
  for (const item of picture.items) {
    if (item.kind === 'line') ink.line(at(item.points), STROKES[item.role]);
    else if (item.kind === 'area') {
      const hatch = HATCHES[item.role];
      if (hatch) ink.hatch(at(item.points), hatch);
    }
  }
  for (const item of picture.items) {
    if (item.kind !== 'text') continue;
    const { text } = ink.type.fit(item.text, SIZE, SIZE, room.x1 - room.x0);
    const width = ink.type.width(text, SIZE);
    const back = item.align === 'start' ? 0 : item.align === 'middle' ? width / 2 : width;
    const { step, base } = ink.type.leading(text, SIZE);
    const wish = { x: x + item.x * scale - back, foot: y - item.y * scale + step - base, width, line: step };
    const spot = freeSpot(wish, room, taken);
    taken.push(spot);
    ink.text(text, spot.x0, spot.y0 + base, SIZE);
  }
}

type Wish = { readonly x: number; readonly foot: number; readonly width: number; readonly line: number };

/** Where a text can stand: as near to its wish as others leave room, places above and below it first, then aside. */
function freeSpot({ x, foot, width, line }: Wish, room: Room, taken: readonly Room[]): Room {
  const spotAt = (row: number, aside: number): Room => {
    const x0 = Math.max(Math.min(x + aside * line, room.x1 - width), room.x0);
    const y1 = Math.min(Math.max(foot, room.y0 + line), room.y1) + row * (line / 4);
    return { x0, x1: x0 + width, y0: y1 - line, y1 };
  };
  const free = (spot: Room): boolean =>
    spot.y0 >= room.y0 - 1e-6 &&
    spot.y1 <= room.y1 + 1e-6 &&
    taken.every(
      (t) => t.x1 + 0.8 < spot.x0 || spot.x1 + 0.8 < t.x0 || t.y1 <= spot.y0 + 1e-6 || spot.y1 <= t.y0 + 1e-6,
    );
  for (let aside = 0; aside < 60; aside++)
    for (let row = 0; row < 100; row++)
      for (const spot of [spotAt(-row, aside), spotAt(row, aside), spotAt(-row, -aside), spotAt(row, -aside)])
        if (free(spot)) return spot;
  return spotAt(0, 0);
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
