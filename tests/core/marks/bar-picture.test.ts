import { describe, expect, test } from 'vitest';
import { barPicture } from '../../../src/core/marks/bar-picture.ts';
import { heldBar, supportAt } from '../../../src/core/marks/held-bar.ts';
import type { Picture, PictureItem } from '../../../src/core/outline/picture.ts';
import { samplePlan } from '../../sheet/sample-report.ts';

const texts = (picture: Picture): string[] =>
  picture.items.flatMap((item) => (item.kind === 'text' ? [item.text] : []));
const areas = (picture: Picture, role: string): (readonly number[])[] =>
  picture.items.flatMap((item) => (item.kind === 'area' && item.role === role ? [item.points] : []));

/** Area of a closed outline, by the shoelace formula. */
function size(points: readonly number[]): number {
  let twice = 0;
  for (let i = 0; i < points.length; i += 2) {
    const [x0 = 0, y0 = 0] = points.slice(i, i + 2);
    const x1 = points[(i + 2) % points.length] ?? 0;
    const y1 = points[(i + 3) % points.length] ?? 0;
    twice += x0 * y1 - x1 * y0;
  }
  return Math.abs(twice) / 2;
}

const xs = (points: readonly number[]): number[] => points.filter((_, i) => i % 2 === 0);
const total = (all: readonly (readonly number[])[]): number =>
  all.reduce((sum, points) => sum + size(points), 0);
const inch = 25.4;

describe('the bar as it is held', () => {
  test('stands with the headstock at the left, whichever end of the part that is', () => {
    const first = heldBar(samplePlan, 0, null);
    expect(first && [first.start.z0 / 1e9, first.start.z1 / 1e9]).toEqual([-33.02, 77.724]);
    const device = (index: number): number =>
      Math.max(
        ...areas(barPicture(samplePlan, index, null), 'device')
          .slice(0, 2)
          .flatMap(xs),
      );
    const steel = (index: number): number =>
      Math.max(...areas(barPicture(samplePlan, index, null), 'steel').flatMap(xs));
    for (const index of [0, 1]) expect(device(index)).toBeLessThan(steel(index));
    // The free end of the second holding is drawn end A and the waste of the part-off beyond it, turned round.
    expect(steel(1)).toBeCloseTo(0.06 * inch, 9);
  });

  test('between holdings, what was parted off stays behind', () => {
    const second = heldBar(samplePlan, 1, null);
    expect(second && [second.start.z0 / 1e9, second.start.z1 / 1e9]).toEqual([-1.524, 76.2]);
  });

  test('what a step cuts is told from what goes later, and the two make up the waste before it', () => {
    const at = barPicture(samplePlan, 1, 10);
    const cutting = total(areas(at, 'cutting'));
    // Cut 10 turns .74 in from Ø.625 to Ø.520: two rectangles in the picture.
    expect(cutting).toBeCloseTo(2 * 0.74 * inch * ((0.625 - 0.52) / 2) * inch, 6);
    const next = total(areas(barPicture(samplePlan, 1, 11), 'cutting'));
    expect(total(areas(at, 'waste'))).toBeCloseTo(next, 6);
    expect(total(areas(barPicture(samplePlan, 1, 11), 'waste'))).toBe(0);
  });

  test('a hole is waste inside the bar', () => {
    const drilled = barPicture(samplePlan, 0, 2);
    const [above, below] = areas(drilled, 'cutting');
    expect(above && below && xs(above).every((x) => x >= 2.8 * inch - 1e-9)).toBe(true);
  });

  test('the centre is there once it was brought up, and not before', () => {
    const [first] = samplePlan.holdings;
    if (!first) throw new Error('the sample has holdings');
    expect(supportAt(first, 3)).toEqual([]);
    expect(supportAt(first, 4)).toEqual([{ kind: 'centre', at_mm: null }]);
    expect(supportAt(first, null)).toEqual([{ kind: 'centre', at_mm: null }]);
    expect(texts(barPicture(samplePlan, 0, 2))).not.toContain('centre');
    expect(texts(barPicture(samplePlan, 0, 6))).toContain('centre');
  });

  test('stick-out, device and scribed lines are named; a line is there from its cut on', () => {
    expect(texts(barPicture(samplePlan, 0, null, { unit: 'in' }))).toEqual(
      expect.arrayContaining(['headstock: collet', 'stick-out 3 9/16 in', 'C', 'D', 'P1', 'Z 0', 'Z +']),
    );
    expect(texts(barPicture(samplePlan, 0, null))).toContain('stick-out 90 mm');
    expect(texts(barPicture(samplePlan, 0, 3))).not.toContain('C');
    expect(texts(barPicture(samplePlan, 0, 4))).toContain('C');
    expect(texts(barPicture(samplePlan, 1, null))).toContain('headstock: chuck');
  });

  test('the stick-out dimension is as long as the report says', () => {
    const length = (item: PictureItem): number =>
      item.kind === 'line' && item.points.length === 4 && item.points[1] === item.points[3]
        ? Math.abs((item.points[2] ?? 0) - (item.points[0] ?? 0))
        : NaN;
    const lengths = barPicture(samplePlan, 0, null).items.map(length);
    expect(lengths.some((mm) => Math.abs(mm - 3.56 * inch) < 1e-9)).toBe(true);
  });

  test('a holding that is not there is an empty picture; a cut of another holding shows the start', () => {
    expect(barPicture(samplePlan, 7, null).items).toEqual([]);
    expect(heldBar(samplePlan, 1, 2)?.cut).toBeNull();
  });
});
