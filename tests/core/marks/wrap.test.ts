import { expect, test } from 'vitest';
import { PAPER_THICKNESS_MM, wrapLength, wrapStrip } from '../../../src/core/marks/wrap.ts';

// Circumference of a circle by its diameter, both in inches, as engineers' pocket books tabulate it: rows from memory,
// each equal to diameter × 3.14159.
test.each([
  [1 / 4, 0.7854],
  [1 / 2, 1.5708],
  [1, 3.1416],
  [2, 6.2832],
  [5, 15.708],
])('a circle of %d in is %d in round', (diameter, round) => {
  expect(wrapLength(diameter * 25.4, 0) / 25.4).toBeCloseTo(round, diameter < 4 ? 4 : 3);
});

test('paper makes it longer by π times its thickness', () => {
  expect(wrapLength(10) - wrapLength(10, 0)).toBeCloseTo(Math.PI * PAPER_THICKNESS_MM, 12);
});

test('angles become places, whole turns are taken off, ticks come in order', () => {
  const { ticks, length_mm } = wrapStrip(20, [
    { id: 'c', degrees: 270 },
    { id: 'a', degrees: -360 },
    { id: 'b', degrees: 450 },
    { id: 'd', degrees: -30 },
  ]);
  expect(ticks.map(({ id, degrees }) => [id, degrees])).toEqual([
    ['a', 0],
    ['b', 90],
    ['c', 270],
    ['d', 330],
  ]);
  for (const { degrees, at_mm } of ticks) expect(at_mm).toBeCloseTo((degrees / 360) * length_mm, 12);
});
