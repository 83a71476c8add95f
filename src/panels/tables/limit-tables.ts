import { fromMm, nearest, type Length } from '../../core/lengths/length.ts';
import type { Outcome } from '../../core/problem.ts';
import { generalOrigin, generalTables } from '../../core/standards/iso2768.ts';
import { grades, gradesOrigin } from '../../core/standards/iso286-grades.ts';
import { deviationsOrigin, shaftLetters } from '../../core/standards/iso286-shafts.ts';
import { fitDeviations, readFitClass } from '../../core/standards/iso286.ts';
import { rowsOf, type Cell, type Table } from './table.ts';

const PM_PER_UM = 1_000_000;
/** Ends of all steps of size that any class has, in mm. */
const steps = [
  ...new Set([...grades.map(({ upTo }) => upTo), ...[...shaftLetters.values()].flatMap(({ upTo }) => upTo)]),
].sort((a, b) => a - b);

const zone = (found: Outcome<{ readonly lower: Length; readonly upper: Length }>): Cell =>
  found.ok ? found.value : null;
const upTo = (end: number): Cell => (end === Infinity ? 'over' : fromMm(end));
const finite = (mm: number | null): Cell => (mm === null ? null : fromMm(mm));
/** A step has the deviations that its upper end has. */
const byStep = (classes: readonly string[]) =>
  rowsOf(
    'published',
    steps.map((end) => [fromMm(end), ...classes.map((name) => zone(fitDeviations(fromMm(end), name)))]),
  );

const classTable = (id: string, name: string, also: string, classes: readonly string[]): Table => ({
  id,
  name,
  also,
  columns: ['size up to', ...classes],
  rows: byStep(classes),
  origins: [deviationsOrigin, gradesOrigin],
});

/** One class at all sizes that the tables hold; null for a text that is no class, or one that no size has. */
export function tableOfClass(text: string): Table | null {
  const read = readFitClass(text);
  if (!read.ok) return null;
  const name = `${read.value.letter}${read.value.grade}`;
  const table = classTable(`class-${name}`, `${name} at all sizes`, '', [name]);
  const rows = table.rows.filter(({ cells }) => cells[1] !== null);
  return rows.length === 0 ? null : { ...table, rows };
}

const generalColumns = ['fine f', 'medium m', 'coarse c', 'very coarse v'];
const minutes = (count: number | null): Cell => (count === null ? null : `${count}′`);

export const limitTables: readonly Table[] = [
  classTable('shafts', 'Limits of shafts', 'fits ISO 286 deviations', [
    'e8',
    'f7',
    'g6',
    'h6',
    'h7',
    'h9',
    'js6',
    'k5',
    'k6',
    'm6',
    'n6',
    'p6',
    'r6',
    's6',
  ]),
  classTable('holes', 'Limits of holes', 'fits ISO 286 deviations bores', [
    'F7',
    'G7',
    'H6',
    'H7',
    'H8',
    'H9',
    'H11',
    'JS7',
    'K7',
    'M7',
    'N7',
    'N9',
    'P7',
    'P9',
  ]),
  {
    id: 'grades',
    name: 'Tolerance grades',
    also: 'ISO 286 IT',
    columns: ['size up to', ...Array.from({ length: 16 }, (_, i) => `IT${i + 1}`)],
    rows: rowsOf(
      'published',
      grades.map(({ upTo: end, it }) => [fromMm(end), ...it.map((um) => nearest(um * PM_PER_UM))]),
    ),
    origins: [gradesOrigin],
  },
  {
    id: 'general-lengths',
    name: 'General limits, lengths',
    also: 'ISO 2768 untoleranced sizes diameters, either way',
    columns: ['size up to', ...generalColumns],
    rows: rowsOf(
      'published',
      generalTables.linear.map(([end, ...own]) => [upTo(end), ...own.map(finite)]),
    ),
    origins: [generalOrigin],
  },
  {
    id: 'general-edges',
    name: 'General limits, edges',
    also: 'ISO 2768 chamfers radii, either way',
    columns: ['size up to', ...generalColumns],
    rows: rowsOf(
      'published',
      generalTables.edge.map(([end, ...own]) => [upTo(end), ...own.map(finite)]),
    ),
    origins: [generalOrigin],
  },
  {
    id: 'general-angles',
    name: 'General limits, angles',
    also: 'ISO 2768, either way, by the shorter side',
    columns: ['shorter side up to', ...generalColumns],
    rows: rowsOf(
      'published',
      generalTables.angular.map(([end, ...own]) => [upTo(end), ...own.map(minutes)]),
    ),
    origins: [generalOrigin],
  },
];
