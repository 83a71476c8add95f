import { readFileSync } from 'node:fs';

export type Row = Readonly<Record<string, string>>;

/** The rows of a reference table in data/standards; quoted cells may hold commas. A missing column is a bug of the test. */
export function readCsv(name: string): readonly Row[] {
  const text = readFileSync(new URL(`../data/standards/${name}.csv`, import.meta.url), 'utf8');
  const [head = [], ...rows] = text.trim().split('\n').map(cells);
  if (rows.length === 0) throw new Error(`${name}: no rows`);
  return rows.map((row) => Object.fromEntries(head.map((column, i) => [column, row[i] ?? ''])));
}

const cells = (line: string): string[] =>
  [...`,${line}`.matchAll(/,(?:"([^"]*)"|([^,]*))/g)].map(([, quoted, plain]) => quoted ?? plain ?? '');

export function cell(row: Row, column: string): string {
  const value = row[column];
  if (value === undefined) throw new Error(`no column ${column}`);
  return value;
}

/** A figure of the table; null for a blank cell. */
export function figure(row: Row, column: string): number | null {
  const text = cell(row, column);
  if (text === '') return null;
  const value = Number(text);
  if (Number.isNaN(value)) throw new Error(`${column}: “${text}” is no figure`);
  return value;
}

/** A figure that must be there. */
export function need(row: Row, column: string): number {
  const value = figure(row, column);
  if (value === null) throw new Error(`${column} is blank`);
  return value;
}

/** "1-1/4", "5/16", "2" as a number. */
export function fraction(text: string): number {
  const match = /^(?:(\d+)-)?(\d+)(?:\/(\d+))?$/.exec(text);
  if (!match) throw new Error(`“${text}” is no fraction`);
  return Number(match[1] ?? 0) + Number(match[2]) / Number(match[3] ?? 1);
}
