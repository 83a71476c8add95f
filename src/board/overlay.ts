import type { Inks } from './inks.ts';
import { drawLabel, type LabelFont, type Measure } from './label.ts';

/** What a drag shows besides the drawing, px from the drawing's origin, y down. */
export type Overlay = {
  /** A rectangle that is drawn out: a box that chooses, or a land or a groove to be. */
  readonly frame: {
    readonly x0: number;
    readonly y0: number;
    readonly x1: number;
    readonly y1: number;
    readonly solid: boolean;
  } | null;
  /** An upright line at the place a drag fell into. */
  readonly guide: number | null;
  /** A few words beside the pointer. */
  readonly hint: { readonly x: number; readonly y: number; readonly text: string } | null;
};

export const noOverlay: Overlay = { frame: null, guide: null, hint: null };

export function drawOverlay(
  pen: CanvasRenderingContext2D,
  { frame, guide, hint }: Overlay,
  inks: Inks,
  font: LabelFont,
  measure: Measure,
): void {
  pen.strokeStyle = inks.graphite;
  pen.lineWidth = 1;
  if (guide !== null) {
    pen.setLineDash([4, 4]);
    pen.beginPath();
    pen.moveTo(guide, -2000);
    pen.lineTo(guide, 2000);
    pen.stroke();
  }
  if (frame) {
    pen.setLineDash(frame.solid ? [] : [6, 4]);
    pen.lineWidth = frame.solid ? 1.8 : 1;
    pen.strokeRect(frame.x0, frame.y0, frame.x1 - frame.x0, frame.y1 - frame.y0);
  }
  pen.setLineDash([]);
  if (!hint) return;
  const width = measure(hint.text) + 14;
  pen.fillStyle = inks.graphite;
  pen.beginPath();
  pen.roundRect(hint.x + 14, hint.y - 32, width, font.size + 10, 3);
  pen.fill();
  pen.fillStyle = inks.paper;
  drawLabel(pen, font, hint.text, hint.x + 21, hint.y - 14);
}
