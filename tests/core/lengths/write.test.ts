import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fromInches, fromMm, PM_PER, pm, type Length, type Unit } from '../../../src/core/lengths/length.ts';
import { readSize } from '../../../src/core/lengths/read-size.ts';
import {
  nearestFraction,
  writeDecimal,
  writeFraction,
  writeGap,
  writeReading,
  writeShort,
} from '../../../src/core/lengths/write.ts';

const nominal = (text: string, unit: Unit): number => {
  const read = readSize(text, unit);
  if (!read.ok) throw new Error(read.problem.say);
  return read.value.nominal;
};
// Rounding up must not leave what `readSize` reads, so a little under its 10 m.
const anyLength = fc.nat({ max: 9_900 * PM_PER.mm }).map(pm);
const anyUnit = fc.constantFrom<Unit>('in', 'mm');

// By hand: 10 mm are .393700787... in; a plan that rounds it to .3937 misses it by .000000787 in or .00002 mm.
test.each<[gap: Length, unit: Unit, text: string]>([
  [fromInches(0.005), 'in', '.0050 in'],
  [fromMm(2.28598), 'in', '.0900 in'],
  [fromMm(0.00002), 'in', '0.00002 mm'],
  [fromInches(0.00002), 'in', '.00002 in'],
  [fromMm(0.00002), 'mm', '0.00002 mm'],
  [fromMm(0.5), 'mm', '0.500 mm'],
])('a gap is never rounded to nothing: %s pm in %s are %s', (gap, unit, text) => {
  expect(writeGap(gap, unit)).toBe(text);
});

describe('decimals', () => {
  const table: [length: Length, unit: Unit, decimals: number, text: string][] = [
    [fromInches(0.5), 'in', 4, '.5000'],
    [fromInches(-0.5), 'in', 4, '-.5000'],
    [fromInches(1.25), 'in', 3, '1.250'],
    [fromMm(12.7), 'mm', 2, '12.70'],
    [fromMm(0.05), 'mm', 2, '0.05'],
    [fromMm(-0.05), 'mm', 2, '-0.05'],
    [fromMm(12), 'mm', 0, '12'],
    [pm(0), 'in', 3, '.000'],
    [pm(0), 'in', 0, '0'],
    [fromMm(0.005), 'mm', 2, '0.01'],
    [fromMm(-0.005), 'mm', 2, '-0.01'],
    [fromMm(-0.004), 'mm', 2, '0.00'],
    [fromMm(9.999), 'mm', 2, '10.00'],
    [fromMm(25.4), 'in', 3, '1.000'],
  ];
  test.each(table)('%d pm in %s to %d', (length, unit, decimals, text) => {
    expect(writeDecimal(length, unit, decimals)).toBe(text);
  });
});

describe('fractions', () => {
  const sixtyFourth = PM_PER.in / 64;
  test.each([
    [104, 64, '1 5/8'],
    [40, 64, '5/8'],
    [128, 64, '2'],
    [0, 64, '0'],
    [-104, 64, '-1 5/8'],
    [3, 64, '3/64'],
    [3, 32, null],
    [6, 32, '3/32'],
  ])('%d sixty-fourths to 1/%d', (count, denominator, text) => {
    expect(writeFraction(pm(count * sixtyFourth), denominator)).toBe(text);
  });

  test('the nearest fraction is within half a step, and says its own length', () => {
    fc.assert(
      fc.property(anyLength, fc.constantFrom(2, 8, 16, 32, 64), fc.boolean(), (size, denominator, minus) => {
        const length = pm(minus ? -size : size);
        const near = nearestFraction(length, denominator);
        expect(Math.abs(near.length - length) * 2 * denominator).toBeLessThanOrEqual(PM_PER.in);
        expect(nominal(near.text.replace('-', ''), 'in')).toBe(Math.abs(near.length));
        expect(near.text.startsWith('-')).toBe(near.length < 0);
      }),
    );
  });
});

describe('read after write is the identity', () => {
  test('shortest texts, for every picometre', () => {
    fc.assert(
      fc.property(anyLength, anyUnit, (length, unit) => {
        expect(nominal(writeShort(length, unit), unit)).toBe(length);
      }),
      { numRuns: 500 },
    );
  });

  test('decimals of an inch and of a millimetre', () => {
    const fine = fc.record({
      count: fc.nat({ max: 9_999_999 }),
      decimals: fc.integer({ min: 0, max: 6 }),
      unit: anyUnit,
    });
    fc.assert(
      fc.property(fine, ({ count, decimals, unit }) => {
        const length = pm((count % 10 ** (decimals + 1)) * (PM_PER[unit] / 10 ** decimals));
        const text = writeDecimal(length, unit, decimals);
        expect(nominal(text, unit)).toBe(length);
        expect(readSize(text, unit)).toMatchObject({ value: { decimals } });
      }),
    );
  });

  test('binary fractions to 1/512', () => {
    const fractions = fc.record({ power: fc.nat({ max: 9 }), count: fc.nat({ max: 200_000 }) });
    fc.assert(
      fc.property(fractions, ({ power, count }) => {
        const length = pm((count % (380 * 2 ** power)) * (PM_PER.in / 2 ** power));
        expect(nominal(writeFraction(length, 512) ?? 'none', 'in')).toBe(length);
      }),
    );
  });

  test('write after read gives back what a tidy draughtsman wrote', () => {
    for (const text of ['.428', '1.5', '12.7', '3/64', '1 5/64', '.0005'])
      expect(writeShort(pm(nominal(text, 'in')), 'in')).toBe(text);
  });
});

describe('shortest exact texts', () => {
  test.each<[Length, Unit, string]>([
    [fromInches(0.625), 'in', '.625'],
    [fromMm(15.875), 'in', '.625'],
    [pm(PM_PER.in / 64), 'in', '1/64'],
    [pm(PM_PER.in / 64), 'mm', '0.396875'],
    [fromMm(1), 'in', '1 mm'],
    [fromMm(100), 'mm', '100'],
    [pm(1), 'in', '0.000000001 mm'],
    [pm(0), 'in', '0'],
    [fromInches(10), 'in', '10'],
    [fromInches(-0.25), 'in', '-.25'],
    [fromInches(0.00001), 'in', '.00001'],
  ])('%d pm in %s', (length, unit, text) => {
    expect(writeShort(length, unit)).toBe(text);
  });
});

describe('readings', () => {
  const halfThou = fromInches(0.0005);
  test.each<[Length, Unit, Length, 'nearest' | 'up' | 'down', string]>([
    [fromInches(-0.5), 'in', halfThou, 'nearest', '-.5000'],
    [fromMm(12.7), 'mm', fromMm(0.01), 'nearest', '12.70'],
    [fromInches(0.5201), 'in', halfThou, 'up', '.5205'],
    [fromInches(0.5201), 'in', halfThou, 'down', '.5200'],
    [fromInches(0.5201), 'in', halfThou, 'nearest', '.5200'],
    [fromInches(0.52), 'in', halfThou, 'up', '.5200'],
    [fromMm(9.9951), 'mm', fromMm(0.005), 'up', '10.000'],
    [fromMm(9.9949), 'mm', fromMm(0.005), 'down', '9.990'],
    [fromMm(-0.002), 'mm', fromMm(0.005), 'nearest', '0.000'],
    [fromMm(-0.0025), 'mm', fromMm(0.005), 'nearest', '-0.005'],
    [fromMm(12.4), 'mm', fromMm(1), 'nearest', '12'],
    [fromMm(0.5), 'in', fromMm(0.005), 'nearest', '.0197'],
  ])('%d pm in %s by counts of %d, %s', (length, unit, resolution, round, text) => {
    expect(writeReading(length, unit, resolution, round)).toBe(text);
  });

  test('a reading is a whole count, on the side asked for, less than a count away', () => {
    const counts = fc.constantFrom(
      { unit: 'in' as const, resolution: fromInches(0.0005) },
      { unit: 'in' as const, resolution: fromInches(0.0002) },
      { unit: 'mm' as const, resolution: fromMm(0.005) },
      { unit: 'mm' as const, resolution: fromMm(0.01) },
    );
    fc.assert(
      fc.property(anyLength, counts, (length, { unit, resolution }) => {
        const shown = (round: 'nearest' | 'up' | 'down') =>
          nominal(writeReading(length, unit, resolution, round), unit);
        const [up, down, nearest] = [shown('up'), shown('down'), shown('nearest')];
        for (const reading of [up, down, nearest]) expect(reading % resolution).toBe(0);
        expect(up - length).toBeGreaterThanOrEqual(0);
        expect(up - length).toBeLessThan(resolution);
        expect(length - down).toBeGreaterThanOrEqual(0);
        expect(length - down).toBeLessThan(resolution);
        expect(Math.abs(nearest - length) * 2).toBeLessThanOrEqual(resolution);
        const mirrored = writeReading(pm(-length), unit, resolution, 'nearest').replace('-', '');
        expect(mirrored).toBe(writeReading(length, unit, resolution, 'nearest'));
      }),
    );
  });
});
