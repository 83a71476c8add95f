import type { Inks } from './inks.ts';
import { drawLabel, type LabelFont } from './label.ts';
import type { Pen } from './pen.ts';
import { ARROW, arrowsOutside } from './scene.ts';
import type { SceneLeader } from './leaders.ts';
import type { SceneDimension, SceneOrdinate, SceneStation } from './scene.ts';
import type { SceneSide } from './sides.ts';

/** Half the width of a zigzag's tooth, px. */
const TOOTH = 6;

/** A dimension line with arrows and text; the shape of the line tells the state of its chain. */
export function drawDimension(
  pen: Pen,
  d: SceneDimension,
  inks: Inks,
  font: LabelFont,
  measure: (t: string) => number,
): void {
  const outside = arrowsOutside(d.x0, d.x1);
  const from = d.beside === 'left' ? d.textX - 2 : outside ? d.x0 - 2 * ARROW : d.x0;
  const to = d.beside === 'right' ? d.textX + d.width + 2 : outside ? d.x1 + 2 * ARROW : d.x1;
  pen.lineWidth = 1;
  pen.strokeStyle = inks.graphite;
  pen.beginPath();
  const free = d.beside !== null || d.textX - d.x0 > 8 * TOOTH;
  if (d.shape === 'zigzag') zigzag(pen, from, to, d, free);
  else {
    for (const y of d.shape === 'twice' ? [d.y - 1.5, d.y + 1.5] : [d.y]) {
      pen.moveTo(from, y);
      pen.lineTo(to, y);
    }
  }
  pen.stroke();
  arrow(pen, d.x0, d.y, outside ? 1 : -1, inks);
  arrow(pen, d.x1, d.y, outside ? -1 : 1, inks);
  const baseline = d.y - ((d.shape === 'zigzag' && !free) || d.shape === 'twice' ? 6 : 5);
  behind(pen, d.textX - 2, baseline, d.width + 4, font, inks);
  pen.fillStyle = inks.graphite;
  drawLabel(pen, font, d.text, d.textX, baseline);
  if (d.note)
    badge(pen, d.textX + measure(d.text) + 6, baseline, d.note, d.shape === 'zigzag', inks, font, measure);
}

/** Breaks the line by teeth that stand out at a glance: left of the text where there is room, else lower ones below it. */
function zigzag(pen: Pen, from: number, to: number, d: SceneDimension, free: boolean): void {
  const [x0, x1] = d.x1 - d.x0 <= 30 ? [from, to] : [d.x0, free && !d.beside ? d.textX : d.x1];
  const tooth = Math.min(TOOTH, (x1 - x0) / 10);
  const start = (x0 + x1) / 2 - 3 * tooth;
  const high = free ? 5.5 : 4;
  pen.moveTo(from, d.y);
  pen.lineTo(start, d.y);
  for (let i = 0; i < 3; i++) {
    pen.lineTo(start + (2 * i + 0.5) * tooth, d.y - high);
    pen.lineTo(start + (2 * i + 1.5) * tooth, d.y + high);
  }
  pen.lineTo(start + 6 * tooth, d.y);
  pen.lineTo(to, d.y);
}

/** Words on a plate: in red lead where something is wrong, else outlined. */
function badge(
  pen: Pen,
  x: number,
  baseline: number,
  text: string,
  wrong: boolean,
  inks: Inks,
  font: LabelFont,
  measure: (t: string) => number,
): void {
  const width = measure(text) + 4;
  pen.beginPath();
  pen.roundRect(x - 3, baseline - font.size + 1, width + 2, font.size + 3, 3);
  pen.fillStyle = wrong ? inks.lead : inks.paper;
  pen.fill();
  if (!wrong) {
    pen.lineWidth = 0.8;
    pen.strokeStyle = inks.soft;
    pen.stroke();
  }
  pen.fillStyle = wrong ? inks.onLead : inks.graphite;
  drawLabel(pen, font, text, x, baseline);
}

/** Paper under a text, so that lines stop short of it; no higher than lanes that stand near to each other leave free. */
function behind(pen: Pen, x: number, baseline: number, width: number, font: LabelFont, inks: Inks): void {
  pen.fillStyle = inks.paper;
  pen.fillRect(x, baseline - font.size, width, font.size + 3);
}

function arrow(pen: Pen, x: number, y: number, toward: 1 | -1, inks: Inks): void {
  pen.fillStyle = inks.graphite;
  pen.beginPath();
  pen.moveTo(x, y);
  pen.lineTo(x - toward * ARROW, y - 2.4);
  pen.lineTo(x - toward * ARROW, y + 2.4);
  pen.closePath();
  pen.fill();
}

/** The extension line of a station; a small wave and words end it where nothing places the station. */
export function drawExtension(pen: Pen, s: SceneStation, inks: Inks, font: LabelFont): void {
  if (!s.line) return;
  pen.lineWidth = 0.8;
  pen.strokeStyle = inks.graphite;
  pen.beginPath();
  pen.moveTo(s.x, s.line.from);
  if (!s.note) {
    pen.lineTo(s.x, s.line.to);
    pen.stroke();
    return;
  }
  const end = s.line.to + 4;
  pen.lineTo(s.x, end - 18);
  for (let i = 0; i < 3; i++) {
    const y = end - 18 + i * 6;
    pen.quadraticCurveTo(s.x + (i % 2 === 0 ? 8 : -8), y + 3, s.x, y + 6);
  }
  pen.stroke();
  pen.fillStyle = inks.soft;
  drawLabel(pen, { ...font, size: font.size - 1 }, s.note.text, s.note.x, s.note.y);
}

/** A note on its leader, which ends in a dot on the part. */
export function drawLeader(pen: Pen, l: SceneLeader, inks: Inks, font: LabelFont): void {
  pen.lineWidth = 0.8;
  pen.strokeStyle = inks.graphite;
  pen.beginPath();
  pen.moveTo(l.tipX, l.anchorY);
  // It goes aside just below the lowest notes, clear of the part.
  if (l.tipX !== l.x) pen.lineTo(l.x, Math.min(l.bendY, l.anchorY));
  pen.lineTo(l.x, l.y + 3);
  pen.lineTo(l.x + l.width - 4, l.y + 3);
  pen.stroke();
  pen.beginPath();
  pen.arc(l.tipX, l.anchorY, 2, 0, 2 * Math.PI);
  pen.fillStyle = inks.graphite;
  pen.fill();
  drawLabel(pen, font, l.text, l.x + 3, l.y - 1);
}

/** A place at the end of its extension line. */
export function drawOrdinate(
  pen: Pen,
  { text, x, y, width }: SceneOrdinate,
  inks: Inks,
  font: LabelFont,
): void {
  behind(pen, x + 3, y, width - 3, font, inks);
  pen.fillStyle = inks.graphite;
  drawLabel(pen, font, text, x + 5, y);
}

/** A diameter at the side of the part: an upright line between two extension lines, its text level on it. */
export function drawSide(pen: Pen, s: SceneSide, inks: Inks, font: LabelFont): void {
  const beyond = s.x < s.edgeX ? -6 : 6;
  const outside = s.radius < 2 * ARROW;
  const reach = s.radius + (outside ? 2 * ARROW : 0);
  pen.lineWidth = 0.8;
  pen.strokeStyle = inks.graphite;
  pen.beginPath();
  for (const y of [-s.radius, s.radius]) {
    pen.moveTo(s.edgeX + (beyond < 0 ? -3 : 3), y);
    pen.lineTo(s.x + beyond, y);
  }
  pen.moveTo(s.x, -reach);
  pen.lineTo(s.x, reach);
  pen.stroke();
  upright(pen, s.x, -s.radius, outside ? 1 : -1, inks);
  upright(pen, s.x, s.radius, outside ? -1 : 1, inks);
  behind(pen, s.textX - 3, s.textY, s.width + 6, font, inks);
  pen.fillStyle = inks.graphite;
  drawLabel(pen, font, s.text, s.textX, s.textY);
}

/** An arrow whose point is at x, y; toward 1 points down. */
function upright(pen: Pen, x: number, y: number, toward: 1 | -1, inks: Inks): void {
  pen.fillStyle = inks.graphite;
  pen.beginPath();
  pen.moveTo(x, y);
  pen.lineTo(x - 2.4, y - toward * ARROW);
  pen.lineTo(x + 2.4, y - toward * ARROW);
  pen.closePath();
  pen.fill();
}
