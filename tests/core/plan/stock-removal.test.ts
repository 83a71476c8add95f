import { describe, expect, test } from 'vitest';
import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import type { Lathe } from '../../../src/core/part/lathe.ts';
import type { Part } from '../../../src/core/part/types.ts';
import { report } from '../../../src/core/report.ts';
import { shapes } from './shapes.ts';

const hill = shapes.find((s) => s.name === 'a hill' && s.unit === 'in')?.part;
if (!hill) throw new Error('no hill among the shapes');
const part: Part = { ...hill, pins: { way: 'both-ends', first: 'A' } };
const removals = (lathe: Lathe) => report(part, lathe).plan?.stock_removal ?? [];
const inch = 25.4;

// Errors by hand, from the lathe file: repeat ±.0005, touch ±.0005, blade ±.0005 on its other edge. Stock removal is
// the sum on the path between two states of one face, as in the constructed cases K1 to K3 of published/charting.test.ts.
describe('what is left on a face for its last cut', () => {
  test('a shoulder roughed and finished by one tool: half the allowance, two positionings', () => {
    const row = removals(firstLathe).find((r) => r.face === 'B');
    expect(row?.taken_mm).toBeCloseTo((0.02 / 2) * inch, 9); // .020 left on the diameter
    expect(row?.range_mm[0]).toBeCloseTo((0.01 - 2 * 0.0005) * inch, 9);
    expect(row?.range_mm[1]).toBeCloseTo((0.01 + 2 * 0.0005) * inch, 9);
  });

  test('the sawn end of the bar: what is left for facing, give or take half a millimetre by rule', () => {
    const row = removals(firstLathe).find((r) => r.face === 'A');
    expect(row?.taken_mm).toBeCloseTo((3 / 64) * inch, 9);
    expect(row?.range_mm[0]).toBeCloseTo((3 / 64) * inch - 0.5, 9);
  });

  test('the parted end after turning round: blade and facing tool, each touched off, and the measured length between', () => {
    const row = removals(firstLathe).find((r) => r.face === 'F');
    expect(row?.holding).toBe('H3');
    expect(row?.taken_mm).toBeCloseTo(0.02 * inch, 9);
    // Parted: repeat, touch, and the blade's width, as its headstock edge is touched off. H2's zero is face A itself.
    // Faced: repeat, touch, and H3's zero from the length measured over A, repeat. Six times .0005.
    const error = ((row?.range_mm[1] ?? 0) - (row?.range_mm[0] ?? 0)) / 2 / inch;
    expect(error).toBeCloseTo(6 * 0.0005, 9);
  });

  test('all of it is safe on the first lathe; with a poor touch the parted end may not clean up, and is warned of', () => {
    expect(removals(firstLathe).every((row) => row.ok)).toBe(true);
    const poor: Lathe = { ...firstLathe, readout: { ...firstLathe.readout, touch: '.012' } };
    const bad = removals(poor).filter((row) => !row.ok);
    expect(bad.map((row) => row.face)).toEqual(['F']);
    expect(bad.every((row) => row.range_mm[0] <= 0)).toBe(true);
    const warned = report(part, poor).warnings.filter((w) => w.code === 'may-not-clean-up');
    expect(warned.map((w) => w.where)).toEqual(['F']);
  });
});
