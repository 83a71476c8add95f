import { expect, test } from 'vitest';
import { fromInches, fromMm } from '../../../src/core/lengths/length.ts';
import { collets, erCloses } from '../../../src/core/standards/collets.ts';
import { cell, fraction, need, readCsv } from './csv.ts';

// Source: a collet maker's technical section, edition 10/2004 (ER11 to ER32), a page of nut threads, pages on 5C and
// 16C; the rest from memory. Only the largest sizes are firm: the smallest depend on the maker.

const rows = readCsv('collets');
const sized = (text: string, unit: string) =>
  unit === 'mm' ? fromMm(Number(text)) : fromInches(fraction(text));

test('the table is whole', () => expect(collets).toHaveLength(rows.length));

test.each(rows.map((row) => [cell(row, 'series'), row] as const))('%s', (series, row) => {
  const collet = collets.find(
    (c) => c.series === series.replace(' (thin wall / short grip)', ', short grip'),
  );
  const [least, unit] = [cell(row, 'round_min'), cell(row, 'unit')];
  expect(collet?.max).toBe(sized(cell(row, 'round_max'), unit));
  expect(collet?.min).toBe(least === '' ? null : sized(least, unit));
  expect(collet?.nutThread).toBe(cell(row, 'nut_thread') || null);
  expect(collet?.provenance).toBe(cell(row, 'provenance'));
});

test.each(readCsv('collet-closing').map((row) => [cell(row, 'case'), row] as const))('%s', (which, row) => {
  const nominal = which.endsWith('up to 3 mm') ? 3 : 3.001;
  expect(erCloses(fromMm(nominal))).toBe(fromMm(need(row, 'grips_down_to_nominal_minus_mm')));
});
