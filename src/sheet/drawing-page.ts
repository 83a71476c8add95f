import { drawingPlaces, type DrawingPlaces } from '../core/outline/drawing-places.ts';
import type { Picture } from '../core/outline/picture.ts';
import { packLeaders } from '../core/outline/lanes.ts';
import { profilePicture } from '../core/outline/profile-picture.ts';
import type { Segment } from '../core/part/types.ts';
import { readableCheck } from './state-text.ts';
import {
  drawDimensions,
  LABEL,
  LANE,
  laneCount,
  lanesOf,
  namesHeight,
  stationNames,
  type DrawnLane,
  type StationName,
  type View,
} from './dimension-lines.ts';
import { drawPicture, extentOf, NO_HATCH, type Room } from './draw-picture.ts';
import { startFlow, type Flow } from './flow.ts';
import type { Book } from './book.ts';
import type { Ink } from './ink.ts';
import type { Frame, Turn } from './paper.ts';
import { plain, table } from './table.ts';
import type { Typesetter } from './type.ts';
import { figureText, ruleText, segmentText, writtenText, type SheetMatter } from './wording.ts';

const THIN = { width: 0.25 } as const;

/**
 * The part with its sizes as written, general limits, material and the state of the chains, then the tables of sizes with the
 * aims beside them. The drawing lies across where upright it would be smaller than life or its texts more crowded.
 */
export function drawingPages(book: Book, matter: SheetMatter): void {
  const { part } = matter;
  const turn = betterTurn(book, matter);
  const flow = startFlow(book, 'Drawing', turn);
  if (part.title !== '' && book.type.width(part.title, 12) > 120) flow.paragraph(part.title, 11);
  drawPart(flow, layOut(book.type, flow.page().frame, matter), matter);
  const unit = part.unit === 'in' ? 'inches' : 'millimetres';
  flow.paragraph(`Sizes without a unit are ${unit}. Use the sizes; do not measure the drawing.`, 8);
  table(
    flow,
    [
      { head: 'Drawing', share: 3 },
      { head: 'Material', share: 2 },
      { head: 'Lengths without limits', share: 4 },
      { head: 'Diameters without limits', share: 4 },
    ],
    [
      [
        plain(part.drawing ?? '–'),
        plain(part.material ?? 'not given'),
        plain(ruleText(part.general?.lengths)),
        plain(ruleText(part.general?.diameters)),
      ],
    ],
  );
  readableCheck(flow, matter);
  const sizes = turn === 'upright' ? flow : startFlow(book, 'Drawing: sizes');
  lengthTable(sizes, matter);
  diameterTable(sizes, matter);
}

type Layout = {
  readonly view: View;
  readonly rough: ReturnType<typeof extentOf>;
  readonly notes: DiameterNotes;
  readonly lanes: readonly DrawnLane[];
  readonly names: readonly StationName[];
};

/** Where everything of the drawing comes to stand between the side margins. */
function layOut(type: Typesetter, frame: Frame, matter: SheetMatter): Layout {
  const { part, report } = matter;
  const places = drawingPlaces(part, report.chains);
  const rough = extentOf(profilePicture(part, report, { places, hatch: NO_HATCH }));
  const view = viewOf(type, frame, matter, places, rough);
  return {
    view,
    rough,
    notes: diameterNotes(type, frame, part.segments, view),
    lanes: lanesOf(type, view, matter),
    names: stationNames(type, frame, view, part),
  };
}

/** Rows of texts that a drawing has to save before its page is turned. */
const ROWS_SAVED = 2;

function betterTurn(book: Book, matter: SheetMatter): Turn {
  const [upright, across] = (['upright', 'across'] as const).map((turn) => {
    const { view, notes, lanes } = layOut(book.type, book.frame(turn), matter);
    return { scale: view.scale, rows: notes.rows + laneCount(lanes) };
  });
  if (!upright || !across) return 'upright';
  const larger = upright.scale < 1 && across.scale > upright.scale;
  return larger || upright.rows - across.rows >= ROWS_SAVED ? 'across' : 'upright';
}

function drawPart(flow: Flow, { view, rough, notes, lanes, names }: Layout, matter: SheetMatter): void {
  const { part, report } = matter;
  const { frame } = flow.page();
  const { scale, places } = view;
  const tall = Math.max(rough.y1 - rough.y0, 1e-3);
  const above = notes.rows * LANE + 4;
  const below = laneCount(lanes) * LANE + namesHeight(names) + 6;
  flow.need(Math.min(above + tall * scale + below, frame.bottom - frame.top));
  const axis = flow.at() + above + rough.y1 * scale;
  const { ink } = flow.page();
  const picture = profilePicture(part, report, { places, hatch: 2 / scale });
  const lowest = (x: number): number => lowestAt(picture, (x - view.x) / scale) * scale;
  const alt = `The part, upper half from outside, lower half cut open: ${part.segments.length} segments between ${part.faces.length} faces. Its sizes stand in the tables that follow.`;
  ink.tagged(flow.section.add('Figure', alt), () => {
    drawPicture(ink, picture, { x: view.x, y: axis, scale }, roomOf(flow));
    notes.draw(ink, axis, rough.y1 * scale);
    drawDimensions(ink, view, lanes, names, { axis, bottom: axis - rough.y0 * scale, lowest });
  });
  flow.move(above + tall * scale + below);
}

const roomOf = (flow: Flow): Room => {
  const { left, right, top, bottom } = flow.page().frame;
  return { x0: left, x1: right, y0: top, y1: bottom };
};

/** The largest scale at which the part and the texts that stand beside short dimensions fit the page. */
function viewOf(
  type: Typesetter,
  frame: Frame,
  matter: SheetMatter,
  places: DrawingPlaces,
  rough: ReturnType<typeof extentOf>,
): View {
  const [long, tall] = [Math.max(rough.x1 - rough.x0, 1e-3), Math.max(rough.y1 - rough.y0, 1e-3)];
  let [left, right] = [frame.left + 2, frame.right - 2];
  let view: View = { x: left, scale: 1, places };
  for (let round = 0; round < 4; round++) {
    const scale = Math.min((right - left) / long, 60 / tall);
    view = { x: (left + right - (rough.x1 + rough.x0) * scale) / 2, scale, places };
    const lanes = lanesOf(type, view, matter);
    const over = {
      left: frame.left - Math.min(frame.left, ...lanes.map(({ textX }) => textX)),
      right: Math.max(frame.right, ...lanes.map(({ textX, width }) => textX + width)) - frame.right,
    };
    if (over.left < 0.01 && over.right < 0.01) break;
    left += over.left;
    right -= over.right;
    if (right - left < 40) break;
  }
  return view;
}

/** How far below the axis the outline reaches at a place, in part mm: extension lines begin there. */
function lowestAt(picture: Picture, x: number): number {
  let lowest = 0;
  for (const item of picture.items) {
    if (item.kind !== 'line' || item.role !== 'outline') continue;
    for (let i = 0; i + 3 < item.points.length; i += 2) {
      const [ax = 0, ay = 0, bx = 0, by = 0] = item.points.slice(i, i + 4);
      if (Math.min(ax, bx) - 1e-6 > x || x > Math.max(ax, bx) + 1e-6) continue;
      const at = bx === ax ? Math.min(ay, by) : ay + ((by - ay) * (x - ax)) / (bx - ax);
      lowest = Math.max(lowest, -at);
    }
  }
  return lowest;
}

type DiameterNotes = {
  readonly rows: number;
  readonly draw: (ink: Ink, axis: number, top: number) => void;
};

function diameterNotes(
  type: Typesetter,
  frame: Frame,
  segments: readonly Segment[],
  { x, scale, places }: View,
): DiameterNotes {
  const faces = [...places.at.values()];
  const wishes = segments.map((segment, i) => {
    const text = type.fit(segmentText(segment), LABEL, LABEL, 60).text;
    const middle = x + (((faces[i] ?? 0) + (faces[i + 1] ?? 0)) / 2) * scale;
    const width = type.width(text, LABEL);
    return { id: String(i), x: Math.min(middle, frame.right - width), middle, width, text };
  });
  const leaders = packLeaders(wishes, 2);
  const rows = Math.max(0, ...leaders.map(({ row }) => row + 1));
  return {
    rows,
    draw: (ink, axis, top) => {
      leaders.forEach((leader, i) => {
        const wish = wishes[i];
        if (!wish) return;
        const y = axis - top - 3 - leader.row * LANE;
        ink.text(wish.text, leader.x + 0.6, y, LABEL);
        ink.line([leader.x, y - 2, leader.x, y + 1, wish.middle, axis - top * 0.2], THIN);
      });
    },
  };
}

function lengthTable(flow: Flow, { part, report }: SheetMatter): void {
  const aim = (id: string): number | null => report.chains.stations[id]?.aim_mm ?? null;
  flow.heading('Lengths');
  table(
    flow,
    [
      { head: 'Length', share: 2 },
      { head: 'From – to', share: 3 },
      { head: 'As written', share: 4 },
      { head: `Aim, ${report.unit}`, share: 2, align: 'end' },
    ],
    part.lengths.map((length) => {
      const [a, b] = [aim(length.from), aim(length.to)];
      return [
        plain(length.id),
        plain(`${length.from} – ${length.to}`),
        plain(writtenText(length.size, length.tol, length.role)),
        plain(figureText(a === null || b === null ? null : Math.abs(b - a), report.unit)),
      ];
    }),
  );
}

function diameterTable(flow: Flow, { part, report }: SheetMatter): void {
  const { unit } = report;
  flow.heading('Diameters');
  table(
    flow,
    [
      { head: 'Segment', share: 3 },
      { head: 'As written', share: 5 },
      { head: `Limits, ${unit}`, share: 4, align: 'end' },
      { head: `Aim, ${unit}`, share: 2.4, align: 'end' },
      { head: 'Clearance', share: 4, align: 'end' },
    ],
    report.diameters.map((row) => {
      const segment = part.segments.find(({ id }) => id === row.segment);
      const end = row.end === null ? '' : row.end === 'start' ? ', drawn left end' : ', drawn right end';
      const fit = row.fit
        ? `${figureText(row.fit.clearance_min_mm, unit)} to ${figureText(row.fit.clearance_max_mm, unit)}`
        : '';
      return [
        plain(`${row.segment}${end}`),
        plain(segment ? segmentText(segment) : '–'),
        plain(`${figureText(row.min_mm, unit)} – ${figureText(row.max_mm, unit)}`),
        plain(figureText(row.aim_mm, unit), 10, true),
        plain(fit),
      ];
    }),
  );
}
