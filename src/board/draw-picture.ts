import type { AreaRole, LineRole, Picture, PictureItem } from '../core/outline/picture.ts';
import type { Inks } from './inks.ts';
import type { Pen } from './pen.ts';

type Stroke = { readonly width: number; readonly ink: keyof Inks; readonly dash: readonly number[] };

/** Line weights in px; wide for what is seen, narrow for what is said about it. */
const strokes: Readonly<Record<LineRole, Stroke>> = {
  outline: { width: 1.8, ink: 'graphite', dash: [] },
  heavy: { width: 3.2, ink: 'graphite', dash: [] },
  thin: { width: 0.8, ink: 'graphite', dash: [] },
  centre: { width: 0.9, ink: 'graphite', dash: [16, 3, 3, 3] },
  hidden: { width: 1, ink: 'soft', dash: [5, 3] },
  hatch: { width: 0.6, ink: 'soft', dash: [] },
  ghost: { width: 0.9, ink: 'soft', dash: [12, 3, 2, 3, 2, 3] },
  mark: { width: 1.8, ink: 'blue', dash: [] },
};
const order: readonly LineRole[] = ['hatch', 'ghost', 'hidden', 'thin', 'centre', 'mark', 'outline', 'heavy'];

/** Metal that stays is steel; what goes is bare paper under the hatching that comes with the picture. */
const fills: Readonly<Record<AreaRole, keyof Inks>> = {
  steel: 'bright',
  section: 'bright',
  waste: 'paper',
  cutting: 'paper',
  fluid: 'blue',
  device: 'line',
};

/**
 * Draws a picture with its origin at the pen's, `scale` px per mm, y up. Texts in the given font.
 *
 * @param cover - How far areas hide what lies under them, 1 for all of it.
 */
export function drawPicture(pen: Pen, picture: Picture, scale: number, inks: Inks, cover = 1): void {
  pen.lineJoin = 'round';
  // A picture of the bar is hatched where metal goes, a drawing of the part where it is cut open.
  const goes = picture.items.some((i) => i.kind === 'area' && (i.role === 'waste' || i.role === 'cutting'));
  for (const item of picture.items) if (item.kind === 'area') drawArea(pen, item, scale, inks, cover);
  for (const role of order) {
    const { width, ink, dash } = strokes[role];
    pen.beginPath();
    for (const item of picture.items)
      if (item.kind === 'line' && item.role === role) trace(pen, item.points, scale);
    pen.setLineDash([...dash]);
    const swarf = goes && role === 'hatch';
    pen.lineWidth = swarf ? 1 : width;
    pen.strokeStyle = inks[swarf ? 'swarf' : ink];
    pen.stroke();
  }
  pen.setLineDash([]);
  for (const item of picture.items) if (item.kind === 'text') drawText(pen, item, scale, inks);
}

/** Adds a list of points to the pen's path. */
export function trace(pen: Pen, points: readonly number[], scale: number): void {
  for (let i = 0; i + 1 < points.length; i += 2) {
    const [x, y] = [(points[i] ?? 0) * scale, -(points[i + 1] ?? 0) * scale];
    if (i === 0) pen.moveTo(x, y);
    else pen.lineTo(x, y);
  }
}

type Area = PictureItem & { kind: 'area' };

function drawArea(pen: Pen, area: Area, scale: number, inks: Inks, cover: number): void {
  const fill = fills[area.role];
  pen.beginPath();
  trace(pen, area.points, scale);
  pen.closePath();
  pen.globalAlpha = area.role === 'fluid' ? 0.35 : cover;
  pen.fillStyle = inks[fill];
  pen.fill();
  pen.globalAlpha = 1;
}

function drawText(pen: Pen, item: PictureItem & { kind: 'text' }, scale: number, inks: Inks): void {
  pen.font = `13px ${inks.family}`;
  const width = pen.measureText(item.text).width;
  const x = item.x * scale - (item.align === 'start' ? 0 : item.align === 'middle' ? width / 2 : width);
  pen.fillStyle = inks.paper;
  pen.globalAlpha = 0.85;
  pen.fillRect(x - 2, -item.y * scale - 12, width + 4, 16);
  pen.globalAlpha = 1;
  pen.fillStyle = inks.graphite;
  pen.fillText(item.text, x, -item.y * scale);
}
