import type { Choice } from './choice.ts';
import { drawPicture } from './draw-picture.ts';
import type { Drawing } from './drawing.ts';
import type { Inks } from './inks.ts';
import { drawLabel, type LabelFont } from './label.ts';
import type { Scene } from './scene.ts';
import type { Size, Viewport } from './viewport.ts';

/** A place too small to be seen at this zoom, and how many times larger it is shown beside the drawing. */
export type Lens = { readonly mm: number; readonly up: number; readonly times: number };

/** What is smaller than this on the screen is enlarged, px; and about how large it then is. */
const TINY = 16;
const SHOWN = 60;
const MOST = 40;
/** Radius of the round window it is shown in, px: a fifth of a low board's height, so that most of the drawing stays in sight. */
export const lensRadius = ({ height }: Pick<Size, 'height'>): number =>
  Math.min(78, Math.max(height / 5, 44));

type Place = { readonly mm: number; readonly up: number; readonly size: number };

/** The enlargement of a chosen thing; null where it is large enough to be seen, or has no extent of its own. */
export function lensFor({ drawing, view, leaders }: Scene, choice: Choice | null): Lens | null {
  const place = choice && placeOf(drawing, choice);
  const leader = choice && leaders.find((l) => l.choice.kind === choice.kind && l.choice.id === choice.id);
  if (!place || place.size <= 0 || place.size * view.scale >= TINY) return null;
  const times = Math.min(Math.round(SHOWN / (place.size * view.scale)), MOST);
  const up = leader && choice.kind !== 'segment' ? -leader.anchorY / view.scale : place.up;
  return { mm: place.mm, up, times };
}

function placeOf({ part, places, radii, callouts }: Drawing, { kind, id }: Choice): Place | null {
  const at = (station: string | undefined) => places.at.get(station ?? '') ?? 0;
  if (kind === 'segment') {
    const k = part.segments.findIndex((s) => s.id === id);
    const [a, b] = [at(part.faces[k]?.id), at(part.faces[k + 1]?.id)];
    return k < 0 ? null : { mm: (a + b) / 2, up: radii[k]?.left ?? 0, size: b - a };
  }
  if (kind !== 'edge' && kind !== 'crossing') return null;
  const callout = callouts.find(({ choice }) => choice.kind === kind && choice.id === id);
  return callout ? { mm: callout.mm, up: callout.up, size: callout.size } : null;
}

/**
 * Draws the enlargement in a corner of the window, with a ring around its place on the drawing. The pen's origin is
 * the drawing's; lines keep their weight, as they do at any zoom.
 */
export function drawLens(
  pen: CanvasRenderingContext2D,
  lens: Lens,
  scene: Scene,
  view: Viewport,
  window: Size,
  inks: Inks,
  font: LabelFont,
): void {
  const { scale } = scene.view;
  const [x, y] = [lens.mm * scale, -lens.up * scale];
  const radius = lensRadius(window);
  const left = view.x + x > window.width / 2;
  const cx = (left ? radius + 14 : window.width - radius - 14) - view.x;
  const cy = window.height - radius - 14 - view.y;
  pen.save();
  pen.strokeStyle = inks.graphite;
  pen.lineWidth = 1;
  pen.beginPath();
  pen.arc(x, y, Math.max(radius / lens.times, 9), 0, 2 * Math.PI);
  pen.stroke();
  pen.beginPath();
  pen.arc(cx, cy, radius, 0, 2 * Math.PI);
  pen.fillStyle = inks.paper;
  pen.fill();
  pen.lineWidth = 1.5;
  pen.stroke();
  pen.clip();
  pen.translate(cx - x * lens.times, cy - y * lens.times);
  drawPicture(pen, scene.picture, scale * lens.times, inks);
  pen.translate(x * lens.times - cx, y * lens.times - cy);
  const text = `${lens.times} times`;
  pen.fillStyle = inks.paper;
  pen.fillRect(cx - 34, cy + radius - 24, 68, 18);
  pen.fillStyle = inks.graphite;
  drawLabel(pen, font, text, cx - 24, cy + radius - 11);
  pen.restore();
}
