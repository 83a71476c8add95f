import { stripPieces, stripsOf, type Strip, type StripPiece, type StripTick } from '../core/marks/strip.ts';
import { wrapStrip } from '../core/marks/wrap.ts';
import type { Plan } from '../core/plan/types.ts';
import type { Book, SheetPage } from './book.ts';
import type { Ink } from './ink.ts';
import { startFlow, type Flow } from './flow.ts';
import { frameOf, measureOf, type PageSize, type Turn } from './paper.ts';
import { figureText, stationText, type SheetMatter } from './wording.ts';

const SIZE = 8;
const LANE = 4.4;
const BAND = 9;
const OVERLAP = 20;
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
  const roomUpright = measureOf(frameOf(size, 'upright')) - 2 * TAIL;
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

/** Paper beyond both ends of a strip. */
const TAIL = 6;

function drawStrip(flow: Flow, matter: SheetMatter, strip: Strip): void {
  const { part } = matter;
  const room = measureOf(flow.page().frame) - 2 * TAIL;
  const pieces = stripPieces(strip.length_mm, room, OVERLAP);
  pieces.forEach((piece, i) => {
    const lanes = labelLanes(flow, matter, strip, piece);
    const height = BAND + lanes.count * LANE + 2;
    flow.need(height + 13);
    const count = pieces.length === 1 ? '' : `, piece ${i + 1} of ${pieces.length}`;
    flow.paragraph(
      `Holding ${strip.holding}, from ${stationText(part, strip.from)} toward the ${strip.way}${count}`,
      10,
      {
        bold: true,
      },
    );
    drawPiece(flow.page(), flow.at(), strip, piece, lanes, height);
    flow.move(height + 4);
  });
}

type Lanes = {
  readonly count: number;
  readonly labels: readonly { tick: StripTick; x: number; lane: number; text: string }[];
};

/** Where a place on the strip stands on the page: the headstock is at the left, as at the lathe. */
function across(page: SheetPage, strip: Strip, piece: StripPiece): (at: number) => number {
  const { frame } = page;
  return strip.way === 'headstock'
    ? (at) => frame.right - TAIL - (at - piece.from_mm)
    : (at) => frame.left + TAIL + (at - piece.from_mm);
}

function labelLanes(flow: Flow, { part }: SheetMatter, strip: Strip, piece: StripPiece): Lanes {
  const { type } = flow.book;
  const page = flow.page();
  const place = across(page, strip, piece);
  const ends: number[] = [];
  const inside = strip.ticks
    .filter(({ at_mm }) => at_mm >= piece.from_mm && at_mm <= piece.to_mm)
    .map((tick) => ({ tick, x: place(tick.at_mm) }))
    .sort((a, b) => b.x - a.x);
  const labels = inside.map(({ tick, x }) => {
    const rule = tick.rule_text === null ? '' : ` · ${tick.rule_text}`;
    const all = `${stationText(part, tick.station)} · ${tick.text}${rule} · before ${tick.before.join(', ')}`;
    const text = type.fit(all, SIZE, SIZE, measureOf(page.frame) / 2).text;
    const width = type.width(text, SIZE) + 2;
    const left = x + width <= page.frame.right ? x : x - width - 1;
    let lane = ends.findIndex((end) => left + width <= end);
    if (lane < 0) lane = ends.length;
    ends[lane] = Math.min(left, x) - 1;
    for (let k = 0; k < lane; k++) ends[k] = Math.min(ends[k] ?? Infinity, x - 1);
    return { tick, x, lane, text, left };
  });
  return { count: ends.length, labels: labels.map(({ left, ...rest }) => ({ ...rest, textX: left })) };
}

function drawPiece(
  page: SheetPage,
  top: number,
  strip: Strip,
  piece: StripPiece,
  lanes: Lanes,
  height: number,
): void {
  const { ink, frame } = page;
  const place = across(page, strip, piece);
  const [a, b] = [place(piece.from_mm), place(piece.to_mm)].sort((p, q) => p - q);
  const [x0, x1] = [Math.max((a ?? 0) - TAIL, frame.left), Math.min((b ?? 0) + TAIL, frame.right)];
  ink.rectangle(x0, top, x1 - x0, height, EDGE);
  if (piece.from_mm === 0) drawZero(ink, place(0), top, height);
  for (const register of piece.registers) drawRegister(ink, place(register), top, height);
  for (const { tick, x, lane, text, textX } of lanes.labels as readonly (Lanes['labels'][number] & {
    textX: number;
  })[]) {
    const y = top + BAND + lane * LANE;
    ink.line([x, top, x, y + 3], TICK);
    hatchWaste(ink, tick, x, top);
    ink.text(text, textX + 1, y + 3.2, SIZE);
  }
}

function hatchWaste(ink: Ink, { waste }: StripTick, x: number, top: number): void {
  if (waste === 'none') return;
  const to = waste === 'headstock' ? x - 3.5 : x + 3.5;
  ink.hatch([x, top, to, top, to, top + 4, x, top + 4], { apart: 0.9, width: 0.18, degrees: [45] });
}

/** The end that is laid against what the rule would stand against. */
function drawZero(ink: Ink, x: number, top: number, height: number): void {
  ink.line([x, top, x, top + height], { width: 0.5 });
  ink.area([x, top, x - 1.2, top + 2.4, x + 1.2, top + 2.4], 'black');
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
    `To wrap round ${segment}, diameter ${size}: upper edge toward the drawn right end, print outward`,
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
    const end = x + ink.type.width(text, SIZE) + 1 > frame.right;
    ink.text(text, end ? x - 0.8 : x + 0.8, y, SIZE, { align: end ? 'end' : 'start' });
  };
  label(x0, top + 3.4, '0° line');
  wrap.ticks.forEach(({ id, degrees, at_mm }, i) => {
    const x = x0 + at_mm;
    ink.line([x, top, x, top + height], TICK);
    label(x, top + 7.4 + (i % 3) * 3.8, `${id} ${degrees}°`);
  });
  flow.move(height + 5);
}
