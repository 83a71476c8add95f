import { describe, expect, test } from 'vitest';
import { fromInches, fromMm, nearest } from '../../../src/core/lengths/length.ts';
import { drillAtOrUnder, drillName, drills, readDrill } from '../../../src/core/standards/drills.ts';
import { cell, need, readCsv } from './csv.ts';

// Source: a public-domain list of metric, inch and fractional drills (#97 to about #54), two independent public source
// files with the whole number and letter series, and the tap drill decimals of handbook pages. Fractions: arithmetic.

const rows = readCsv('drills');

test('every number, letter and fraction is there', () => {
  expect(rows.filter((row) => row['type'] === 'number')).toHaveLength(80);
  expect(rows.filter((row) => row['type'] === 'letter')).toHaveLength(26);
  expect(rows.filter((row) => row['type'] === 'fraction')).toHaveLength(32);
});

describe.each(rows.map((row) => [cell(row, 'designation'), row] as const))('%s', (designation, row) => {
  test('is read, measured and named as published', () => {
    const read = readDrill(designation);
    if (!read.ok) throw new Error(read.problem.say);
    expect(read.value.diameter).toBe(fromInches(need(row, 'decimal_in')));
    expect(read.value.series).toBe(cell(row, 'type'));
    // The millimetre column is rounded to four decimals, fractions to six.
    expect(Math.abs(read.value.diameter - fromMm(need(row, 'mm')))).toBeLessThanOrEqual(fromMm(0.00005));
    // Letter E and 1/4 are one size; the fraction is the name.
    expect(drillName(read.value.diameter, 'in')).toBe(designation === 'E' ? '1/4' : designation);
    expect(drillAtOrUnder(read.value.diameter)?.diameter).toBe(read.value.diameter);
  });
});

// Metric drills by tenths: arithmetic.
test('metric drills run by tenths to 13 mm', () => {
  const metric = drills.filter(({ series, diameter }) => series === 'metric' && diameter <= fromMm(13));
  expect(metric.map(({ diameter }) => diameter)).toEqual(
    Array.from({ length: 128 }, (_, i) => nearest((i + 3) * 1e8)),
  );
});

test('and by halves from there to 25 mm', () => {
  const large = drills.filter(({ series, diameter }) => series === 'metric' && diameter > fromMm(13));
  expect(large.map(({ diameter }) => diameter)).toEqual(
    Array.from({ length: 24 }, (_, i) => nearest((27 + i) * 5e8)),
  );
});
