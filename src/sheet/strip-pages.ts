import {
  stripPieces,
  stripsOf,
  type Strip,
  type StripPiece,
  type StripTick,
  type WasteSide,
} from '../core/marks/strip.ts';
import { wrapStrip } from '../core/marks/wrap.ts';
import { packLeaders } from '../core/outline/lanes.ts';
import type { Plan } from '../core/plan/types.ts';
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

/** Strips at true size, to cut out and lay along the bar, and strips to wrap round it. */
export function stripPages(book: Book, matter: SheetMatter, plan: Plan, size: PageSize): void {
  const places = new Map(
    Object.entries(matter.report.chains.stations).flatMap(([id, { aim_mm }]) =>
      aim_mm === null ? [] : [[id, aim_mm] as const],
    ),
  );
  const strips = plan.holdings.flatMap((holding) => stripsOf(holding, places));
  const wraps = wrapsOf(matter, places);
  if (strips.length + wraps.length === 0) return;
  const roomUpright = measureOf(frameOf(size, 'upright')) - TAIL - LABEL_ROOM;
  const longest = Math.max(
    0,
    ...strips.map(({ length_mm }) => length_mm),
    ...wraps.map(({ wrap }) => wrap.length_mm),
  );
  const turn: Turn = longest <= roomUpright ? 'upright' : 'across';
  const flow = startFlow(book, 'Strips at true size', turn);
  flow.paragraph(
    'Print at 100 % and check the bars at the edge of this page. Cut along the frame. The hatched side of a line is waste.',
    9.5,
  );
  for (const strip of strips) drawStrip(flow, matter, strip);
  for (const wrap of wraps) drawWrap(flow, matter, wrap);
}

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

function drawStrip(flow: Flow, matter: SheetMatter, strip: Strip): void {
  const full = piecesOf(flow, strip, false);
  const pieces = full.some(({ rows }) => rows > MOST_ROWS) ? piecesOf(flow, strip, true) : full;
  pieces.forEach((piece, i) => {
    flow.need(piece.height + 14);
    const count = pieces.length === 1 ? '' : `, piece ${i + 1} of ${pieces.length}`;
    const from = stationText(matter.part, strip.from);
    flow.paragraph(`Holding ${strip.holding}, from ${from} toward the ${strip.way}${count}`, 10, {
      bold: true,
    });
    flow.move(2);
    drawPiece(flow.page().ink, flow.at(), piece);
    flow.move(piece.height + 5);
  });
}

function piecesOf(flow: Flow, strip: Strip, brief: boolean): Layout[] {
  const labels = labelsOf(flow.book, strip, brief);
  const reserve = Math.max(TAIL, ...labels.map(({ width }) => width));
  const room = measureOf(flow.page().frame) - TAIL - reserve;
  return stripPieces(strip.length_mm, room, OVERLAP).map((piece) => {
    const shown = labels.filter(({ at }) => at >= piece.from_mm && at <= piece.to_mm);
    return layOut(flow, strip, piece, shown, reserve);
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
  reserve: number,
): Layout {
  const { frame } = flow.page();
  const place = (at: number): number =>
    strip.way === 'headstock'
      ? frame.right - reserve - (at - piece.from_mm)
      : frame.left + TAIL + (at - piece.from_mm);
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

type NamedWrap = { readonly segment: string; readonly wrap: ReturnType<typeof wrapStrip> };

/** One strip for each segment that carries something clocked about the axis. */
function wrapsOf({ part, report }: SheetMatter, places: ReadonlyMap<string, number>): NamedWrap[] {
  const bySegment = new Map<number, { id: string; degrees: number }[]>();
  for (const crossing of part.crossings) {
    const z = places.get(crossing.at);
    if (z === undefined) continue;
    const after = part.faces.findLastIndex(({ id }) => (places.get(id) ?? Infinity) <= z);
    const index = Math.min(Math.max(after, 0), part.segments.length - 1);
    const degrees = Number.parseFloat(crossing.angle ?? '0');
    if (!Number.isFinite(degrees)) continue;
    bySegment.set(index, [...(bySegment.get(index) ?? []), { id: crossing.id, degrees }]);
  }
  return [...bySegment].flatMap(([index, clocked]) => {
    const segment = part.segments[index]?.id;
    const diameter = report.diameters.find((row) => row.segment === segment)?.aim_mm ?? null;
    return segment === undefined || diameter === null
      ? []
      : [{ segment, wrap: wrapStrip(diameter, clocked) }];
  });
}

function drawWrap(flow: Flow, { report }: SheetMatter, { segment, wrap }: NamedWrap): void {
  const height = 18;
  flow.need(height + 20);
  const size = `${figureText(wrap.diameter_mm, report.unit)} ${report.unit}`;
  flow.paragraph(
    `To wrap round ${segment}, diameter ${size}: upper edge toward the drawn right end, print outward, ends at the scribed 0° line`,
    10,
    {
      bold: true,
    },
  );
  const { ink, frame } = flow.page();
  const top = flow.at();
  const x0 = frame.left + TAIL;
  ink.rectangle(x0, top, wrap.length_mm, height, EDGE);
  const label = (x: number, y: number, text: string): void => {
    const end = x + ink.type.width(text, SIZE) + 1 > x0 + wrap.length_mm;
    ink.text(text, end ? x - 0.8 : x + 0.8, y, SIZE, { align: end ? 'end' : 'start' });
  };
  label(x0, top + 3.4, '0°');
  wrap.ticks.forEach(({ id, degrees, at_mm }, i) => {
    const x = x0 + at_mm;
    ink.line([x, top + 4.2, x, top + height], TICK);
    label(x, top + 7.8 + (i % 3) * 3.8, `${id} ${degrees}°`);
  });
  flow.move(height + 5);
}
