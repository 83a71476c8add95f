import { describe, expect, test } from 'vitest';
import { pm } from '../../src/core/lengths/length.ts';
import { firstLathe } from '../../src/core/part/first-lathe.ts';
import { resolveLathe } from '../../src/core/part/resolve-lathe.ts';
import { bladeReading } from '../../src/core/plan/readings.ts';
import type { BladeEdge } from '../../src/core/plan/types.ts';
import { pecksFor } from '../../src/core/plan/holes.ts';

// Z is 0 on the finished right-hand end, negative toward the chuck (ISO 841: away from the spindle is positive), the
// headstock at the left; the blade is 2 mm wide. Each row follows from the geometry of the two edges alone.
const lathe = { ...resolveLathe(firstLathe), unit: 'mm' as const };
const row = (touched: BladeEdge, wall: number, makes: BladeEdge): number => {
  const blade = {
    id: 'B',
    kind: 'blade' as const,
    width: pm(2e9),
    widthKnownTo: pm(0),
    reach: pm(1e10),
    edge: touched,
  };
  const zero = { z: 100e9, sign: 1 as const };
  return bladeReading({ zero, z: (100 + wall) * 1e9, station: null, makes, headstock: 'left' }, blade, lathe)
    .value_mm;
};

describe('a blade shows where its touched edge stands', () => {
  test.each([
    ['part 30 long, left edge touched, its right edge makes the end', 'left', -30, 'right', -32],
    ['the same wall made by the left edge', 'left', -30, 'left', -30],
    ['right edge touched, the left edge makes the wall', 'right', -30, 'left', -28],
    ['groove -10 to -13, left edge touched, tailstock wall', 'left', -10, 'right', -12],
    ['groove -10 to -13, left edge touched, headstock wall', 'left', -13, 'left', -13],
    ['groove -10 to -13, right edge touched, tailstock wall', 'right', -10, 'right', -10],
    ['groove -10 to -13, right edge touched, headstock wall', 'right', -13, 'left', -11],
  ] as const)('%s', (_claim, touched, wall, makes, reading) => {
    expect(row(touched, wall, makes)).toBeCloseTo(reading, 9);
  });
});

// Common practice, no source: first peck about three diameters, then 1 to 1.5, falling to half beyond five.
test('pecks fall as the hole deepens and add up to its depth', () => {
  const pecks = pecksFor(40e9, 4e9);
  expect(pecks[0]).toBeCloseTo(12, 9);
  expect(pecks.reduce((a, b) => a + b, 0)).toBeCloseTo(40, 9);
  for (let i = 1; i < pecks.length - 1; i++) expect(pecks[i]).toBeLessThanOrEqual(pecks[i - 1] ?? 0);
  expect(pecks.at(-2)).toBeCloseTo(2, 9);
  expect(pecksFor(12.7e9, 4.2e9)).toHaveLength(1);
});
