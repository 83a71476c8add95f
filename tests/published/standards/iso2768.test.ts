import { describe, expect, test } from 'vitest';
import { fromMm, pm } from '../../../src/core/lengths/length.ts';
import { generalAngle, generalDeviation } from '../../../src/core/standards/iso2768.ts';
import { cell, figure, need, readCsv } from './csv.ts';
import type { Row } from './csv.ts';

// Source: ISO 2768-1 tables 1, 2 and 3, read in three published tables that agree (angular class v: one).

const named = (rows: readonly Row[], from: string) =>
  rows.map((row) => [cell(row, 'class'), cell(row, from), row] as const);

describe.each([
  ['linear', 'iso2768-linear'],
  ['edge', 'iso2768-edges'],
] as const)('%s sizes', (table, file) => {
  test.each(named(readCsv(file), 'over_mm'))('class %s over %s mm', (cls, over, row) => {
    const expected = figure(row, 'tol_plus_minus_mm');
    const first = Number(over) === 0.5 ? fromMm(0.5) : pm(fromMm(Number(over)) + 1);
    const last = fromMm(figure(row, 'up_to_mm') ?? 5000);
    for (const size of [first, last]) {
      expect(generalDeviation(size, cls, table)).toBe(expected === null ? null : fromMm(expected));
    }
  });
});

test.each(named(readCsv('iso2768-angular'), 'shorter_side_over_mm'))(
  'angles, class %s over %s mm',
  (cls, over, row) => {
    const last = fromMm(figure(row, 'shorter_side_up_to_mm') ?? 2000);
    for (const side of [pm(fromMm(Number(over)) + 1), last]) {
      expect(generalAngle(side, cls)).toBe(need(row, 'tol_plus_minus_arcmin') / 60);
    }
  },
);

test('under half a millimetre, over four metres and for an unknown class there is no general limit', () => {
  expect(generalDeviation(pm(fromMm(0.5) - 1), 'm', 'linear')).toBeNull();
  expect(generalDeviation(pm(fromMm(4000) + 1), 'm', 'linear')).toBeNull();
  expect(generalDeviation(fromMm(10), 'x', 'linear')).toBeNull();
  expect(generalAngle(pm(0), 'm')).toBeNull();
});
