import type { InspectionRow } from '../core/actuals/types.ts';
import { toMm, type Unit } from '../core/lengths/length.ts';
import { resolvePart } from '../core/part/resolve.ts';
import type { ResolvedCrossing, ResolvedSize } from '../core/part/resolved.ts';
import { instrumentFor, type Measured } from '../core/marks/instrument.ts';
import type { Book } from './book.ts';
import { startFlow } from './flow.ts';
import { plain, table, type Cell } from './table.ts';
import { figureText, segmentText, writtenText, type SheetMatter } from './wording.ts';

/** One size to be measured when the part is done. Limits in mm; null where the plan gives none. */
type Item = {
  readonly what: string;
  /** What carries the size and which of its sizes it is, as the record of what was measured names them. */
  readonly key: string;
  readonly written: string;
  readonly min_mm: number | null;
  readonly max_mm: number | null;
  readonly instrument: string;
};

const BLANK: Cell = { texts: [], form: 'blank' };

const keyOf = (of: string, size: string): string => `${of}\0${size}`;

/**
 * Every size of the plan with its limits, what to measure it with, and room for what was found and by whom. What was
 * measured at the lathe stands there already, with its verdict in words.
 */
export function inspectionPages(book: Book, matter: SheetMatter): void {
  const items = itemsOf(matter);
  if (items.length === 0) return;
  const { unit, actuals } = matter.report;
  const found = new Map(actuals?.inspection.map((row) => [keyOf(row.of, row.size), row]));
  const flow = startFlow(book, 'Inspection', 'across');
  flow.paragraph(
    'Measure when the part has cooled to the temperature of the room. Write down what was read, not whether it was good.',
  );
  table(
    flow,
    [
      { head: 'Size', share: 4.6 },
      { head: 'As written', share: 4.4 },
      { head: `Least, ${unit}`, share: 2.4, align: 'end' },
      { head: `Most, ${unit}`, share: 2.4, align: 'end' },
      { head: 'Measure with', share: 4.4 },
      { head: 'Measured', share: 3.6 },
      { head: 'Initials', share: 2 },
    ],
    items.map(({ what, key, written, min_mm, max_mm, instrument }) => [
      plain(what, 9.5),
      plain(written, 9.5),
      plain(figureText(min_mm, unit), 11, true),
      plain(figureText(max_mm, unit), 11, true),
      plain(instrument, 9),
      measuredCell(found.get(key), unit),
      BLANK,
    ]),
    8,
  );
}

/** What was typed at the lathe, else what follows from it; a line to write on where nothing was measured. */
function measuredCell(row: InspectionRow | undefined, unit: Unit): Cell {
  if (!row || row.measured_mm === null) return BLANK;
  const beyond = `${figureText(row.by_mm, unit)} ${unit} ${row.verdict.toUpperCase()}`;
  const out = row.verdict === 'over' || row.verdict === 'under';
  return {
    texts: [
      { text: row.typed ?? figureText(row.measured_mm, unit), size: 11, bold: true },
      { text: out ? beyond : 'in limits', size: 9, bold: out },
    ],
  };
}

function itemsOf(matter: SheetMatter): Item[] {
  return [
    ...diameterItems(matter),
    ...threadItems(matter),
    ...resolvedItems(matter),
    ...requirementItems(matter),
  ];
}

function diameterItems({ part, report }: SheetMatter): Item[] {
  return report.diameters.map(({ segment: id, end, min_mm, max_mm }) => {
    const segment = part.segments.find((one) => one.id === id);
    const side = end === null ? '' : `, drawn ${end === 'start' ? 'left' : 'right'} end`;
    const size = segment?.form === 'thread' ? 'major' : (end ?? 'diameter');
    return {
      what: `diameter of ${id}${side}`,
      key: keyOf(id, size),
      written: segment ? segmentText(segment) : '–',
      min_mm,
      max_mm,
      instrument: instrumentFor('outside', width(min_mm, max_mm)),
    };
  });
}

function threadItems({ part }: SheetMatter): Item[] {
  const outside = part.segments.flatMap((segment) =>
    segment.form === 'thread' ? [[segment.id, segment.thread, 'ring gauge or mating nut'] as const] : [],
  );
  const inside = part.holes.flatMap((hole) =>
    hole.form === 'tap' ? [[hole.id, hole.thread, 'plug gauge or mating screw'] as const] : [],
  );
  return [...outside, ...inside].map(([id, written, instrument]) => ({
    what: `thread ${id}`,
    key: keyOf(id, 'thread'),
    written,
    min_mm: null,
    max_mm: null,
    instrument,
  }));
}

const width = (min: number | null, max: number | null): number | null =>
  min === null || max === null ? null : max - min;

function item(what: string, key: string, size: ResolvedSize, kind: Measured): Item {
  const [min_mm, max_mm] = [toMm(size.min), toMm(size.max)];
  return { what, key, written: size.text, min_mm, max_mm, instrument: instrumentFor(kind, max_mm - min_mm) };
}

/** Lengths, holes, edges and crossings: sizes whose limits the reading of the part has worked out. */
function resolvedItems({ part }: SheetMatter): Item[] {
  const { lengths, holes, edges, crossings } = resolvePart(part);
  const ofLengths = lengths
    .filter(({ size }) => !size.reference)
    .map(({ id, index, from, to, size }) => ({
      ...item(`length ${id}, ${from} to ${to}`, keyOf(id, 'length'), size, 'length'),
      written: writtenText(part.lengths[index]?.size ?? size.text, part.lengths[index]?.tol),
    }));
  const ofHoles = holes.flatMap((hole): Item[] => {
    if (hole.form === 'centre') return [];
    const deep = hole.depth
      ? [item(`depth of ${hole.id}`, keyOf(hole.id, 'depth'), hole.depth, 'depth')]
      : [];
    return hole.form === 'tap'
      ? deep
      : [item(`hole ${hole.id}`, keyOf(hole.id, 'diameter'), hole.diameter, 'inside'), ...deep];
  });
  const ofEdges = edges.flatMap((edge): Item[] => {
    const at = `at ${edge.face}, drawn ${edge.side} side`;
    if (edge.form === 'chamfer') return [item(`chamfer ${at}`, keyOf(edge.id, 'size'), edge.size, 'edge')];
    if (edge.form === 'fillet')
      return [item(`fillet ${at}`, keyOf(edge.id, 'radius'), edge.radius, 'radius')];
    return [
      item(`undercut ${at}: width`, keyOf(edge.id, 'width'), edge.width, 'width'),
      item(`undercut ${at}: depth`, keyOf(edge.id, 'depth'), edge.depth, 'depth'),
    ];
  });
  return [...ofLengths, ...ofHoles, ...ofEdges, ...crossings.flatMap(crossingItems)];
}

function crossingItems(crossing: ResolvedCrossing): Item[] {
  const { id, form } = crossing;
  const angle: Item = {
    what: `angle of ${id}`,
    key: keyOf(id, 'angle'),
    written: `${crossing.angleDeg}°`,
    min_mm: null,
    max_mm: null,
    instrument: 'indexing head or protractor',
  };
  if (form === 'hole') {
    const deep =
      typeof crossing.reaches === 'string'
        ? []
        : [item(`depth of ${id}`, keyOf(id, 'depth'), crossing.reaches, 'depth')];
    return [item(`cross hole ${id}`, keyOf(id, 'diameter'), crossing.diameter, 'inside'), ...deep, angle];
  }
  if (form === 'keyseat')
    return [
      item(`keyseat ${id}: width`, keyOf(id, 'width'), crossing.width, 'width'),
      item(`keyseat ${id}: depth`, keyOf(id, 'depth'), crossing.depth, 'depth'),
      angle,
    ];
  return [
    ...(crossing.across ? [item(`flat ${id}: across`, keyOf(id, 'across'), crossing.across, 'across')] : []),
    ...(crossing.depth ? [item(`flat ${id}: depth`, keyOf(id, 'depth'), crossing.depth, 'depth')] : []),
    angle,
  ];
}

function requirementItems({ part }: SheetMatter): Item[] {
  return resolvePart(part).requirements.map(({ id, index, from, to, min, max }) => {
    const [a, b] = [Math.abs(toMm(min)), Math.abs(toMm(max))];
    const wanted = part.requirements[index];
    return {
      what: `requirement ${id}, ${from} to ${to}`,
      key: keyOf(id, 'requirement'),
      written: wanted ? `${wanted.min} to ${wanted.max}` : '–',
      min_mm: Math.min(a, b),
      max_mm: Math.max(a, b),
      instrument: instrumentFor('length', Math.abs(b - a)),
    };
  });
}
