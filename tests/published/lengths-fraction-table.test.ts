import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { pm, toMm } from '../../src/core/lengths/length.ts';
import { readSize } from '../../src/core/lengths/read-size.ts';
import { nearestFraction, writeDecimal, writeFraction } from '../../src/core/lengths/write.ts';

// Source: data/fraction_decimal.csv, the fraction, decimal and millimetre table that hangs in every workshop, to 1/64 in.
// Its figures are n/64 in and n·25.4/64 mm, exact by the definition of the inch (1959 agreement, 1 in = 25.4 mm).
const table = readFileSync(new URL('data/fraction_decimal.csv', import.meta.url), 'utf8');
const rows = table
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split(','))
  .map(([fraction = '', count = '', inches = '', mm = '']) => ({
    fraction,
    count: Number(count),
    inches,
    mm,
  }));

const nominal = (text: string, unit: 'in' | 'mm') => {
  const read = readSize(text, unit);
  if (!read.ok) throw new Error(read.problem.say);
  return read.value.nominal;
};

test('the table is whole: every sixty-fourth under an inch', () => {
  expect(rows.map((row) => row.count)).toEqual(Array.from({ length: 63 }, (_, i) => i + 1));
});

describe.each(rows)('$fraction in', ({ fraction, count, inches, mm }) => {
  const length = pm(count * 396_875_000); // 25.4 mm / 64 in picometres
  test('reads the same as fraction, decimal and millimetres', () => {
    expect([nominal(fraction, 'in'), nominal(inches, 'in'), nominal(mm, 'mm')]).toEqual([
      length,
      length,
      length,
    ]);
  });

  test('is written as the table has it', () => {
    expect(writeFraction(length, 64)).toBe(fraction);
    expect(writeDecimal(length, 'in', inches.split('.')[1]?.length ?? 0)).toBe(inches.replace(/^0/, ''));
    expect(writeDecimal(length, 'mm', mm.split('.')[1]?.length ?? 0)).toBe(mm);
    expect(toMm(length)).toBe(Number(mm));
  });

  test('is its own nearest sixty-fourth, also when it was rounded to four decimals', () => {
    const rounded = pm(nominal(writeDecimal(length, 'in', 4), 'in'));
    expect(nearestFraction(rounded, 64)).toEqual({ text: fraction, length });
  });
});

// Source: the closing pages of workshop tables give these as rounded decimals; from memory, checked by long division.
test.each([
  ['1/64', '.0156'],
  ['3/64', '.0469'],
  ['9/64', '.1406'],
  ['27/64', '.4219'],
  ['63/64', '.9844'],
])('%s in is %s to four places', (fraction, decimal) => {
  expect(writeDecimal(nominal(fraction, 'in'), 'in', 4)).toBe(decimal);
});
