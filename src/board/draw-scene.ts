import { drawDimension, drawExtension, drawLeader, drawOrdinate, drawSide } from './draw-dimension.ts';
import { drawPicture } from './draw-picture.ts';
import type { Inks } from './inks.ts';
import type { LabelFont, Measure } from './label.ts';
import type { Pen } from './pen.ts';
import type { Scene } from './scene.ts';

export type Style = { readonly inks: Inks; readonly font: LabelFont; readonly measure: Measure };

/** Draws a scene with any pen. @param cover - How far metal hides what lies under it, 1 for all of it. */
export function drawScene(pen: Pen, scene: Scene, { inks, font, measure }: Style, cover = 1): void {
  for (const station of scene.stations) drawExtension(pen, station, inks, font);
  drawPicture(pen, scene.picture, scene.view.scale, inks, cover);
  for (const leader of scene.leaders) drawLeader(pen, leader, inks, font);
  for (const side of scene.sides) drawSide(pen, side, inks, font);
  for (const dimension of scene.dimensions) drawDimension(pen, dimension, inks, font, measure);
  for (const ordinate of scene.ordinates) drawOrdinate(pen, ordinate, inks, font);
}
