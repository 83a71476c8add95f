import { barPicture } from '../core/marks/bar-picture.ts';
import { wasteSide } from '../core/marks/strip.ts';
import { CUT_NAMES } from '../core/plan/cut-names.ts';
import type { Cut, Holding, Plan, Reading, Setting } from '../core/plan/types.ts';
import type { Book } from './book.ts';
import { drawPicture, extentOf, NO_HATCH } from './draw-picture.ts';
import { startFlow, type Flow } from './flow.ts';
import { measureOf } from './paper.ts';
import { plain, table, type Cell, type CellText } from './table.ts';
import {
  bothUnits,
  centreDrillText,
  degreesText,
  edgeText,
  figureText,
  stationText,
  type SheetMatter,
} from './wording.ts';

/** Readings stand large: they are read at arm's length. */
const READING = 15;

/** One holding: the bar as it is held, its datum and zero, the lines to scribe, and its cuts in order. */
export function holdingPages(book: Book, matter: SheetMatter, plan: Plan, index: number): void {
  const holding = plan.holdings[index];
  if (!holding) return;
  const flow = startFlow(book, `Holding ${holding.id} (${index + 1} of ${plan.holdings.length})`);
  const { lathe } = matter;
  flow.paragraph(deviceText(holding, matter), 11, { bold: true });
  drawHeld(flow, plan, index, lathe.unit);
  flow.paragraph(`Datum: ${stationText(matter.part, holding.datum.station)}. ${holding.datum.how}`, 10);
  flow.paragraph(`Z counts up toward the ${lathe.readout.z_positive}. X reads the ${lathe.readout.x}.`, 10);
  markTable(flow, matter, holding);
  flow.heading('Cuts');
  cutTable(flow, matter, holding.cuts);
}

/** Steps on the bench, after the last holding. */
export function offLathePages(book: Book, matter: SheetMatter, plan: Plan): void {
  if (plan.off_lathe.length === 0) return;
  const flow = startFlow(book, 'Off the lathe');
  cutTable(flow, matter, plan.off_lathe);
}

function deviceText(holding: Holding, { lathe }: SheetMatter): string {
  const on =
    holding.grips === null
      ? ''
      : holding.grips.on === 'bar'
        ? ' on the bar'
        : ` on ${holding.grips.on.join(', ')}`;
  const held = {
    collet: `In a collet${on}`,
    chuck: `In the chuck${on}`,
    centres: `Between centres${on && `, dog${on}`}`,
  };
  const out =
    holding.stick_out_mm === null ? '' : `, sticking out ${bothUnits(holding.stick_out_mm, lathe.unit)}`;
  const support =
    holding.support.length === 0 ? '' : `, with ${holding.support.join(' and ').replaceAll('-', ' ')}`;
  return `${held[holding.device]}${out}${support}. The drawn ${holding.headstock} end is toward the headstock.`;
}

function drawHeld(flow: Flow, plan: Plan, index: number, unit: 'in' | 'mm'): void {
  const { frame } = flow.page();
  const rough = extentOf(barPicture(plan, index, null, { unit, hatch: NO_HATCH }));
  const scale = Math.min((measureOf(frame) - 6) / (rough.x1 - rough.x0), 62 / (rough.y1 - rough.y0));
  const picture = barPicture(plan, index, null, { unit, hatch: 1.5 / scale });
  const height = (rough.y1 - rough.y0) * scale + 8;
  flow.need(height);
  const { ink } = flow.page();
  const x = (frame.left + frame.right - (rough.x0 + rough.x1) * scale) / 2;
  const room = { x0: frame.left, x1: frame.right, y0: flow.at(), y1: flow.at() + height };
  const alt = 'The bar as it is held, with its zero, what supports it, and the lines to scribe.';
  ink.tagged(flow.section.add('Figure', alt), () =>
    drawPicture(ink, picture, { x, y: flow.at() + 4 + rough.y1 * scale, scale }, room),
  );
  flow.move(height);
}

function markTable(flow: Flow, { part, lathe }: SheetMatter, holding: Holding): void {
  if (holding.marks.length === 0) return;
  flow.heading('Lines to scribe in layout fluid');
  table(
    flow,
    [
      { head: 'At', share: 5 },
      { head: 'Z reading', share: 3, align: 'end' },
      { head: `By rule, ${lathe.unit}`, share: 2.4, align: 'end' },
      { head: 'Measured from', share: 5 },
      { head: 'Before cut', share: 1.8, align: 'end' },
      { head: 'Waste toward', share: 3 },
    ],
    holding.marks.map((mark) => [
      plain(stationText(part, mark.station), 10),
      plain(mark.text, 14),
      plain(mark.rule_text ?? '–', 12),
      plain(stationText(part, mark.from), 10),
      plain(String(mark.before), 10),
      plain(wasteSide(mark.waste, holding.headstock), 10),
    ]),
  );
}

const TICK: Cell = { texts: [], form: 'tick' };
const NOTHING_TO_MEASURE: ReadonlySet<Cut['kind']> = new Set([
  'touch',
  'support',
  'spring',
  'sever',
  'deburr',
  'tap',
]);
const BLANK: Cell = { texts: [], form: 'blank' };

function cutTable(flow: Flow, matter: SheetMatter, cuts: readonly Cut[]): void {
  table(
    flow,
    [
      { head: '', share: 7 },
      { head: 'Cut', share: 10, align: 'end' },
      { head: 'What', share: 80 },
      { head: 'X', share: 22, align: 'end' },
      { head: 'Z', share: 32, align: 'end' },
      { head: 'Measured', share: 21 },
    ],
    cuts.map((cut) => [
      TICK,
      plain(String(cut.n), 12, true),
      { texts: whatTexts(cut, matter) },
      { texts: cut.readings.filter(({ axis }) => axis === 'X').flatMap((r) => readingTexts(r, matter)) },
      { texts: cut.readings.filter(({ axis }) => axis !== 'X').flatMap((r) => readingTexts(r, matter)) },
      NOTHING_TO_MEASURE.has(cut.kind) ? { texts: [] } : BLANK,
    ]),
    9,
  );
}

function readingTexts(reading: Reading, { part }: SheetMatter): CellText[] {
  const notes = [
    reading.axis === 'quill' ? 'on the quill' : '',
    reading.station ? `at ${stationText(part, reading.station)}` : '',
    reading.edge ? edgeText(reading.edge) : '',
  ].filter((note) => note !== '');
  return [
    { text: reading.text, size: READING },
    ...(notes.length > 0 ? [{ text: notes.join(', '), size: 8 }] : []),
    ...(reading.other
      ? [
          { text: `or ${reading.other.text}`, size: READING - 1 },
          { text: edgeText(reading.other.edge), size: 8 },
        ]
      : []),
  ];
}

function whatTexts(cut: Cut, matter: SheetMatter): CellText[] {
  const on = [cut.segment, cut.makes].filter((name) => name !== null);
  const details = [...driveTexts(cut, matter), ...settingTexts(cut.setting, matter)];
  return [
    { text: [CUT_NAMES[cut.kind], ...on].join(' · '), size: 10.5, bold: true },
    { text: cut.say, size: 9.5 },
    ...(details.length > 0 ? [{ text: details.join(' · '), size: 8.5 }] : []),
  ];
}

function driveTexts(cut: Cut, { lathe }: SheetMatter): string[] {
  return [
    cut.tool === null ? '' : `tool ${cut.tool}`,
    cut.passes > 1 ? `${cut.passes} passes` : '',
    cut.hand_turned ? 'turn by hand' : '',
    cut.rpm === null ? '' : `${cut.rpm} rpm`,
    cut.feed_mm === null
      ? ''
      : `feed ${figureText(cut.feed_mm, lathe.unit, lathe.unit === 'in' ? 4 : 2)} a turn`,
  ].filter((text) => text !== '');
}

function settingTexts(setting: Setting | null, { lathe }: SheetMatter): string[] {
  if (!setting) return [];
  const { unit } = lathe;
  const size = (mm: number): string => `${figureText(mm, unit)} ${unit}`;
  const listed = (all: readonly number[]): string => all.map((mm) => figureText(mm, unit)).join(', ');
  return [
    setting.compound_deg === undefined ? '' : `compound at ${degreesText(setting.compound_deg)}`,
    setting.compound_travel_mm === undefined ? '' : `compound travel ${size(setting.compound_travel_mm)}`,
    setting.infeeds_mm === undefined ? '' : `infeeds on the diameter ${listed(setting.infeeds_mm)} ${unit}`,
    setting.drill === undefined ? '' : `drill ${setting.drill}`,
    setting.centre_drill === undefined ? '' : centreDrillText(setting.centre_drill),
    setting.tap === undefined ? '' : `tap ${setting.tap}`,
    setting.die === undefined ? '' : `die ${setting.die}`,
    setting.pecks_mm === undefined ? '' : `pecks of ${listed(setting.pecks_mm)} ${unit}`,
    setting.angle_deg === undefined ? '' : `at ${degreesText(setting.angle_deg)}`,
    setting.depth_mm === undefined ? '' : `depth ${size(setting.depth_mm)}`,
    setting.width_mm === undefined ? '' : `width ${size(setting.width_mm)}`,
  ].filter((text) => text !== '');
}
