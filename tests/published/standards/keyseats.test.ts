import { describe, expect, test } from 'vitest';
import { fromInches, fromMm, pm } from '../../../src/core/lengths/length.ts';
import { inchKey, inchKeyseat, metricKey } from '../../../src/core/standards/keyseats.ts';
import { cell, figure, fraction, need, readCsv } from './csv.ts';

// Source: DIN 6885-1 in a hardware guide (6 to 58 mm), a keyway sheet (to 18 mm) and a motor catalogue, p. 7/3 (38 to
// 230 mm). ASME B17.1: Machinery's Handbook Pocket Companion, keys and keyseats, table 1.

describe.each(
  readCsv('keyseats-metric').map(
    (row) => [cell(row, 'shaft_over_mm'), cell(row, 'shaft_up_to_mm'), row] as const,
  ),
)('shaft over %s to %s mm', (over, upTo, row) => {
  test.each([pm(fromMm(Number(over)) + 1), fromMm(Number(upTo))])('at %d pm', (shaft) => {
    expect(metricKey(shaft)).toMatchObject({
      width: fromMm(need(row, 'key_width_b_mm')),
      height: fromMm(need(row, 'key_height_h_mm')),
      shaftDepth: fromMm(need(row, 'shaft_depth_t1_mm')),
      hubDepth: fromMm(need(row, 'hub_depth_t2_mm')),
    });
  });
});

test('there is no key at 6 mm and under, nor over 110 mm', () => {
  expect(metricKey(fromMm(6))).toBeNull();
  expect(metricKey(pm(fromMm(110) + 1))).toBeNull();
});

describe.each(readCsv('keyseats-inch').map((row) => [cell(row, 'shaft_dia'), row] as const))(
  'shaft of %s in',
  (_d, row) => {
    const shaft = fromInches(need(row, 'shaft_dia_in'));
    const width = fromInches(fraction(String(need(row, 'key_width_in') * 32)) / 32);
    const key = inchKey(shaft);
    test('the key', () => {
      expect(key?.width).toBe(width);
      expect(Math.abs((key?.flat ?? 0) - fromInches(need(row, 'rect_key_height_in')))).toBeLessThanOrEqual(
        fromInches(0.0001),
      );
    });
    test.each([
      ['square', 'S_square_table_in', 'T_square_table_in'],
      ['flat', 'S_rect_table_in', 'T_rect_table_in'],
    ] as const)('depths for a %s key, to the 0.001 in of the table', (form, s, t) => {
      const checks = inchKeyseat(shaft, width, key?.[form] ?? width);
      const near = (found: number | undefined, inches: number) =>
        expect(Math.abs((found ?? NaN) - fromInches(inches))).toBeLessThanOrEqual(fromInches(0.001));
      near(checks?.shaft, need(row, s));
      near(checks?.hub, need(row, t));
    });
  },
);

describe.each(
  readCsv('keys-inch-by-shaft').map(
    (row) => [cell(row, 'shaft_over_in'), cell(row, 'shaft_up_to_in'), row] as const,
  ),
)('range over %s to %s in, from memory', (over, upTo, row) => {
  test.each([pm(fromInches(fraction(over)) + 1), fromInches(fraction(upTo))])('at %d pm', (shaft) => {
    const key = inchKey(shaft);
    expect(key?.origin.provenance).toBe('memory');
    expect(key?.width).toBe(fromInches(fraction(cell(row, 'square_key_width_in'))));
    const flat = cell(row, 'rect_key_height_in');
    expect(key?.flat).toBe(flat === '' ? null : fromInches(fraction(flat)));
  });
});

test('a key as wide as the shaft has no keyseat', () => {
  expect(figure({ x: '' }, 'x')).toBeNull();
  expect(inchKeyseat(fromInches(0.5), fromInches(0.5), fromInches(0.5))).toBeNull();
});
