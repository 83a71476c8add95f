import { planStrips, type SegmentWrap } from '../core/marks/plan-strips.ts';
import { printerScale } from '../core/marks/printer.ts';
import {
  stripPieces,
  type Strip,
  type StripPiece,
  type StripTick,
  type WasteSide,
} from '../core/marks/strip.ts';
import { packLeaders } from '../core/outline/lanes.ts';
import type { Book } from './book.ts';
import type { Ink } from './ink.ts';
import { startFlow, type Flow } from './flow.ts';
import { frameOf, measureOf, type PageSize, type Turn } from './paper.ts';
import { figureText, stationText, type SheetMatter } from './wording.ts';

const SIZE = 8;
/** Least height of a row of labels, and the air between two. */
const ROW = { least: 4.4, air: 0.6 } as const;
const BAND = 9;
const OVERLAP = 20;
/** Rows of labels that a strip bears before it is too broad to handle. */
const MOST_ROWS = 4;
const EDGE = { width: 0.25 } as const;
const TICK = { width: 0.25 } as const;

/** Millimetres of paper, as the printer takes them, for one millimetre of strip. */
type Scale = number;

/**
 * Strips at true size, to cut out and lay along the bar, and strips to wrap round it.
 *
 * @param measured_mm - What 100 mm came out as on a strip page of this printer; the strips are drawn longer or shorter
 *   to make up for it.
 */
export function stripPages(book: Book, matter: SheetMatter, size: PageSize, measured_mm: number): void {
  const { strips, wraps } = planStrips(matter.part, matter.report);
  if (strips.length + wraps.length === 0) return;
  const roomUpright = measureOf(frameOf(size, 'upright')) - TAIL - LABEL_ROOM;
  const longest = Math.max(0, ...[...strips, ...wraps].map(({ length_mm }) => length_mm));
  const turn: Turn = longest <= roomUpright ? 'upright' : 'across';
  const flow = startFlow(book, 'Strips at true size', turn);
  flow.paragraph(
    'Print at 100 % and check the bar below. Cut along the frame. The hatched side of a line is waste.',
    9.5,
  );
  const scale = printerScale(measured_mm);
  correctionBox(flow, scale, measured_mm);
  for (const strip of strips) drawStrip(flow, matter, strip, scale);
  for (const wrap of wraps) drawWrap(flow, matter, wrap, scale);
}

/** A bar along the way of the strips, with a blank for what it measures. */
function correctionBox(flow: Flow, scale: Scale, measured_mm: number): void {
  const height = 15;
  flow.need(height + 4);
  const { ink, frame } = flow.page();
  const top = flow.at();
  ink.rectangle(frame.left, top, measureOf(frame), height, EDGE);
  const [x0, y] = [frame.left + 4, top + 10.5];
  const x1 = x0 + 100 * scale;
  ink.line([x0, y, x1, y], EDGE);
  for (const x of [x0, x1]) ink.line([x, y - 2.4, x, y + 2.4], EDGE);
  const said =
    measured_mm === 100
      ? 'This bar is 100 mm long, from line to line. Where it measures otherwise, type what it measures in at Print.'
      : `Strips corrected: this printer made ${shortFigure(measured_mm)} mm of 100 mm. This bar must now measure 100 mm; those at the edge stay as they were.`;
  ink.tagged(flow.section.add('P'), () => ink.text(said, x0, top + 5, SIZE));
  const label = 'measured';
  ink.text(label, x1 + 4, y + 1, SIZE);
  const blank = x1 + 5 + ink.type.width(label, SIZE);
  ink.line([blank, y + 1.6, blank + 16, y + 1.6], EDGE);
  ink.text('of 100 mm', blank + 17, y + 1, SIZE);
  flow.move(height + 4);
}

const shortFigure = (mm: number): string => String(Math.round(mm * 100) / 100);

/** Paper beyond the end of a strip; at the right there is room for the last label as well. */
const TAIL = 6;
const LABEL_ROOM = 48;

type Label = {
  readonly at: number;
  readonly waste: WasteSide;
  readonly text: string;
  readonly width: number;
  readonly step: number;
};

/** What stands beside the zero and each tick; `brief` is the station alone, for strips with many lines. */
function labelsOf({ type }: Book, { from, ticks }: Strip, brief: boolean): Label[] {
  const label = (at: number, waste: WasteSide, long: string): Label => {
    const { text } = type.fit(long, SIZE, SIZE, LABEL_ROOM - 2);
    return { at, waste, text, width: type.width(text, SIZE) + 2, step: type.leading(text, SIZE).step };
  };
  const readings = ({ text, rule_text }: StripTick): string =>
    `  ${text}${rule_text === null ? '' : `  (${rule_text})`}`;
  return [
    label(0, 'none', `0 = ${from}`),
    ...ticks.map((tick) => label(tick.at_mm, tick.waste, `${tick.station}${brief ? '' : readings(tick)}`)),
  ];
}

function drawStrip(flow: Flow, matter: SheetMatter, strip: Strip, scale: Scale): void {
  const full = piecesOf(flow, strip, scale, false);
  const pieces = full.some(({ rows }) => rows > MOST_ROWS) ? piecesOf(flow, strip, scale, true) : full;
  pieces.forEach((piece, i) => {
    flow.need(piece.height + 14);
    const count = pieces.length === 1 ? '' : `, piece ${i + 1} of ${pieces.length}`;
    const from = stationText(matter.part, strip.from);
    flow.paragraph(`Holding ${strip.holding}, from ${from} toward the ${strip.way}${count}`, 10, {
      bold: true,
    });
    flow.move(2);
    const { ink } = flow.page();
    const alt = `Strip at true size with ${piece.labels.length} lines, the headstock at its left.`;
    ink.tagged(flow.section.add('Figure', alt), () => drawPiece(ink, flow.at(), piece));
    flow.move(piece.height + 5);
  });
}

function piecesOf(flow: Flow, strip: Strip, scale: Scale, brief: boolean): Layout[] {
  const labels = labelsOf(flow.book, strip, brief);
  const reserve = Math.max(TAIL, ...labels.map(({ width }) => width));
  const room = (measureOf(flow.page().frame) - TAIL - reserve) / scale;
  return stripPieces(strip.length_mm, room, OVERLAP).map((piece) => {
    const shown = labels.filter(({ at }) => at >= piece.from_mm && at <= piece.to_mm);
    return layOut(flow, strip, piece, shown, { reserve, scale });
  });
}

type Layout = {
  readonly piece: StripPiece;
  readonly rows: number;
  readonly row: number;
  readonly place: (at: number) => number;
  readonly left: number;
  readonly right: number;
  readonly height: number;
  readonly labels: readonly (Label & { readonly x: number; readonly row: number })[];
};

/** Where everything of one piece stands on the page: the headstock is at the left, as at the lathe. */
function layOut(
  flow: Flow,
  strip: Strip,
  piece: StripPiece,
  shown: readonly Label[],
  { reserve, scale }: { reserve: number; scale: Scale },
): Layout {
  const { frame } = flow.page();
  const place = (at: number): number =>
    strip.way === 'headstock'
      ? frame.right - reserve - (at - piece.from_mm) * scale
      : frame.left + TAIL + (at - piece.from_mm) * scale;
  const wishes = shown.map(({ at, width }, i) => ({ id: String(i), x: place(at), width }));
  const leaders = packLeaders(wishes, 1.5);
  const labels = shown.flatMap((label, i) => {
    const leader = leaders[i];
    return leader ? [{ ...label, x: leader.x, row: leader.row }] : [];
  });
  const rows = Math.max(1, ...labels.map(({ row }) => row + 1));
  const row = Math.max(ROW.least, ...labels.map(({ step }) => step + ROW.air));
  const ends = [place(piece.from_mm), place(piece.to_mm)];
  return {
    piece,
    rows,
    row,
    place,
    left: Math.min(...ends) - TAIL,
    right: Math.max(Math.max(...ends) + TAIL, ...labels.map(({ x, width }) => x + width)),
    height: BAND + rows * row + 1,
    labels,
  };
}

function drawPiece(ink: Ink, top: number, layout: Layout): void {
  const { piece, place, left, right, height, labels } = layout;
  ink.rectangle(left, top, right - left, height, EDGE);
  for (const register of piece.registers) drawRegister(ink, place(register), top, height);
  for (const { at, waste, x, row, text } of labels) {
    const y = top + BAND + row * layout.row + (layout.row - ROW.least);
    ink.line([x, top, x, y + 3.4], TICK);
    if (at === 0) ink.area([x, top, x - 1.2, top + 2.4, x + 1.2, top + 2.4], 'black');
    hatchWaste(ink, waste, x, top);
    ink.text(text, x + 1, y + 3.2, SIZE);
  }
}

function hatchWaste(ink: Ink, waste: WasteSide, x: number, top: number): void {
  if (waste === 'none') return;
  const to = waste === 'headstock' ? x - 3.5 : x + 3.5;
  ink.hatch([x, top, to, top, to, top + 4, x, top + 4], { apart: 0.9, width: 0.18, degrees: [45] });
}

function drawRegister(ink: Ink, x: number, top: number, height: number): void {
  ink.line([x, top - 2, x, top + height + 2], { width: 0.25, dash: [2, 1] });
  const y = top + 5;
  ink.line([x - 2.5, y, x + 2.5, y], { width: 0.25 });
  ink.line([x - 1.5, y - 1.5, x + 1.5, y + 1.5], { width: 0.25 });
  ink.line([x - 1.5, y + 1.5, x + 1.5, y - 1.5], { width: 0.25 });
}

function drawWrap(flow: Flow, { report }: SheetMatter, wrap: SegmentWrap, scale: Scale): void {
  const height = 18;
  flow.need(height + 20);
  const size = `${figureText(wrap.diameter_mm, report.unit)} ${report.unit}`;
  flow.paragraph(
    `To wrap round ${wrap.segment}, diameter ${size}: upper edge toward the drawn right end, print outward, ends at the scribed 0° line`,
    10,
    {
      bold: true,
    },
  );
  const { ink, frame } = flow.page();
  const place = { x0: frame.left + TAIL, top: flow.at(), height };
  const angles = wrap.ticks.map(({ id, degrees }) => `${id} at ${degrees}°`).join(', ');
  ink.tagged(flow.section.add('Figure', `Strip at true size, to be wrapped round: ${angles}.`), () =>
    drawWrapped(ink, place, wrap, scale),
  );
  flow.move(height + 5);
}

type WrapPlace = { readonly x0: number; readonly top: number; readonly height: number };

function drawWrapped(ink: Ink, { x0, top, height }: WrapPlace, wrap: SegmentWrap, scale: Scale): void {
  const long = wrap.length_mm * scale;
  ink.rectangle(x0, top, long, height, EDGE);
  const label = (x: number, y: number, text: string): void => {
    const end = x + ink.type.width(text, SIZE) + 1 > x0 + long;
    ink.text(text, end ? x - 0.8 : x + 0.8, y, SIZE, { align: end ? 'end' : 'start' });
  };
  label(x0, top + 3.4, '0°');
  wrap.ticks.forEach(({ id, degrees, at_mm }, i) => {
    const x = x0 + at_mm * scale;
    ink.line([x, top + 4.2, x, top + height], TICK);
    label(x, top + 7.8 + (i % 3) * 3.8, `${id} ${degrees}°`);
  });
}
