import type { Unit } from '../core/lengths/length.ts';
import { profilePicture, type View } from '../core/outline/profile-picture.ts';
import type { Part } from '../core/part/types.ts';
import type { Report } from '../core/report-types.ts';
import { drawScene, type Style } from './draw-scene.ts';
import { drawingOf } from './drawing.ts';
import { dayInks } from './inks.ts';
import { labelMeasure } from './label.ts';
import { withDots } from './png-dots.ts';
import { sceneOf, type Scene } from './scene.ts';
import { PX_PER_MM, SvgPen } from './svg-pen.ts';

/** What is exported, and how it is shown on the board. */
export type Exported = {
  readonly part: Part;
  readonly report: Report;
  readonly unit: Unit;
  readonly view: View | null;
  readonly how: Parameters<typeof drawingOf>[3];
  readonly sides: boolean;
  /** The fonts that the board writes in. */
  readonly family: string;
};

/** Dots to the inch of a picture, and the longest side that browsers draw. */
const DPI = 300;
const MOST_SIDE = 16_000;
/** Height of figures: 13.2 px are 3.5 mm, of the row of ISO 3098, from memory. */
const FIGURES = 13.2;
/** Distance of hatching, mm. */
const HATCH = 2;

function canvasPen(width: number, height: number): CanvasRenderingContext2D {
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [width, height];
  const pen = canvas.getContext('2d');
  if (!pen) throw new Error('This browser has no room left to draw the part.');
  return pen;
}

/** The drawing at true size, with everything that is written about it, in ink on white. */
function laid({ part, report, unit, view, how, sides, family }: Exported): { scene: Scene; style: Style } {
  const font = { family, size: FIGURES };
  const style = { inks: dayInks(family), font, measure: labelMeasure(canvasPen(1, 1), font) };
  const drawing = drawingOf(part, report, unit, how);
  const shown = view === null ? {} : { view };
  const profile = profilePicture(part, report, { places: drawing.places, hatch: HATCH, ...shown });
  const at = { scale: PX_PER_MM, x: 0, y: 0 };
  return { scene: sceneOf(drawing, profile, at, style.measure, { sides }), style };
}

/** An SVG of the drawing alone: a millimetre of the part is one on paper, and texts are texts. */
export function drawingSvg(exported: Exported): string {
  const { scene, style } = laid(exported);
  const pen = new SvgPen(canvasPen(1, 1));
  drawScene(pen, scene, style);
  return pen.file(scene.bounds, exported.part.title || 'Untitled shaft', exported.family);
}

/**
 * A PNG of the drawing alone on white, 300 dots to the inch at true size, which the file says; fewer where the part is
 * too long for that.
 */
export async function drawingPng(exported: Exported): Promise<Blob> {
  const { scene, style } = laid(exported);
  const { left, right, top, bottom } = scene.bounds;
  const [width, height] = [right - left, bottom - top];
  const dots = Math.min(DPI / 96, MOST_SIDE / Math.max(width, height));
  const pen = canvasPen(Math.ceil(width * dots), Math.ceil(height * dots));
  pen.fillStyle = style.inks.paper;
  pen.fillRect(0, 0, pen.canvas.width, pen.canvas.height);
  pen.setTransform(dots, 0, 0, dots, -left * dots, -top * dots);
  drawScene(pen, scene, style);
  const blob = await new Promise<Blob | null>((resolve) => pen.canvas.toBlob(resolve, 'image/png'));
  if (!blob) throw new Error('This browser could not make a picture of that size.');
  const bytes = withDots(new Uint8Array(await blob.arrayBuffer()), dots * PX_PER_MM * 1000);
  return new Blob([bytes], { type: 'image/png' });
}
