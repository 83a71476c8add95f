import { fromMm, toMm } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import type { Origin } from './origin.ts';

export const generalOrigin: Origin = {
  source: 'ISO 2768-1, tables 1 to 3, as printed in published tables that agree',
  provenance: 'published',
};

type Class = 'f' | 'm' | 'c' | 'v';
/** Size up to and including, then the deviation of each class either way; null where the standard leaves a blank. */
type Row = readonly [upTo: number, f: number | null, m: number | null, c: number | null, v: number | null];

/** Table 1, in mm. Sizes under 0.5 mm carry their own tolerance. */
const LINEAR: readonly Row[] = [
  [3, 0.05, 0.1, 0.2, null],
  [6, 0.05, 0.1, 0.3, 0.5],
  [30, 0.1, 0.2, 0.5, 1],
  [120, 0.15, 0.3, 0.8, 1.5],
  [400, 0.2, 0.5, 1.2, 2.5],
  [1000, 0.3, 0.8, 2, 4],
  [2000, 0.5, 1.2, 3, 6],
  [4000, null, 2, 4, 8],
];

/** Table 2, in mm: outside radii and chamfer heights. */
const EDGE: readonly Row[] = [
  [3, 0.2, 0.2, 0.4, 0.4],
  [6, 0.5, 0.5, 1, 1],
  [Infinity, 1, 1, 2, 2],
];

/** Table 3, in minutes of arc, by the length of the shorter side in mm. */
const ANGULAR: readonly Row[] = [
  [10, 60, 60, 90, 180],
  [50, 30, 30, 60, 120],
  [120, 20, 20, 30, 60],
  [400, 10, 10, 15, 30],
  [Infinity, 5, 5, 10, 20],
];

/** The three tables as they stand, for looking up. */
export const generalTables = { linear: LINEAR, edge: EDGE, angular: ANGULAR };

const COLUMN: Readonly<Record<Class, 1 | 2 | 3 | 4>> = { f: 1, m: 2, c: 3, v: 4 };
const LEAST_MM = 0.5;

/** The linear class in a text such as `m`, `M`, `mK` or `ISO 2768-mK`; null where it names none. */
export function generalClass(text: string): Class | null {
  const match = /^(?:(?:DIN\s*)?(?:ISO\s*)?2768\s*(?:-\s*1\s*)?[-\s]\s*)?([fmcv])[hkl]?$/i.exec(text.trim());
  const letter = match?.[1]?.toLowerCase();
  return letter === 'f' || letter === 'm' || letter === 'c' || letter === 'v' ? letter : null;
}

/**
 * The general deviation of a size without its own tolerance, either way from the nominal, by ISO 2768-1.
 * `table`: `linear` for lengths and diameters, `edge` for outside radii and chamfer heights.
 * Null for an unknown class, a size under 0.5 mm, over the table, or where the standard leaves the cell blank.
 */
export function generalDeviation(nominal: Length, cls: string, table: 'linear' | 'edge'): Length | null {
  const mm = toMm(nominal);
  if (mm < LEAST_MM) return null;
  const value = cell(table === 'linear' ? LINEAR : EDGE, mm, cls);
  return value === null ? null : fromMm(value);
}

/** The general deviation of an angle in degrees, by the shorter side of the angle; null as above. */
export function generalAngle(shorterSide: Length, cls: string): number | null {
  const mm = toMm(shorterSide);
  const minutes = mm > 0 ? cell(ANGULAR, mm, cls) : null;
  return minutes === null ? null : minutes / 60;
}

function cell(rows: readonly Row[], mm: number, cls: string): number | null {
  const known = generalClass(cls);
  const row = rows.find(([upTo]) => mm <= upTo);
  return known && row ? row[COLUMN[known]] : null;
}
