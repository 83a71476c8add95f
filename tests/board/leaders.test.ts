import { expect, test } from 'vitest';
import { drawingOf } from '../../src/board/drawing.ts';
import { sceneOf, type Layout } from '../../src/board/scene.ts';
import { firstReport } from '../../src/core/first-report.ts';
import { readPart } from '../../src/core/part/read-part.ts';

function scene(json: unknown, scale: number, within: Layout['within'] = null) {
  const read = readPart(JSON.stringify(json), 'test.json');
  if (!read.ok) throw new Error(read.problem.say);
  const drawing = drawingOf(read.value, firstReport(read.value), 'mm');
  const at = { scale, x: 0, y: 0 };
  return sceneOf(drawing, { items: [] }, at, (text) => 7 * text.length, { within });
}

/** Lands as a groove gauge has them: long, then three of 0.2 mm beside each other, then long. */
const widths = [40, 0.2, 0.2, 0.2, 65];
const ends = [0, 40, 40.2, 40.4, 40.6, 105.6];
const gauge = {
  shaftwright: 1,
  title: 'gauge',
  unit: 'mm',
  faces: ends.map((sketched, i) => ({ id: `F${i}`, sketched })),
  segments: widths.map((_, i) => ({ id: `s${i}`, form: 'cylinder', diameter: String(20 - 2 * (i % 2)) })),
  points: [],
  lengths: widths.map((w, i) => ({ id: `L${i}`, from: `F${i}`, to: `F${i + 1}`, size: String(w) })),
};

test('leaders of lands too narrow for them stand apart, and each still ends on its own land', () => {
  const { leaders } = scene(gauge, 3);
  expect(leaders).toHaveLength(5);
  leaders.forEach(({ choice, tipX }) => {
    const k = Number(choice.id.slice(1));
    expect(tipX).toBeGreaterThan((ends[k] ?? NaN) * 3);
    expect(tipX).toBeLessThan((ends[k + 1] ?? NaN) * 3);
  });
  const xs = leaders.map(({ x }) => x).sort((a, b) => a - b);
  xs.slice(1).forEach((x, i) => expect(x - (xs[i] ?? NaN)).toBeGreaterThanOrEqual(7 - 1e-9));
});

test('the leader of a flat ends on the flat, not where the round was', () => {
  const flat = { id: 'f', at: 'p', to: 'q', form: 'flat', across: '13' };
  const part = {
    shaftwright: 1,
    title: 'tail',
    unit: 'mm',
    faces: [
      { id: 'A', sketched: 0 },
      { id: 'B', sketched: 40 },
    ],
    segments: [{ id: 's', form: 'cylinder', diameter: '16' }],
    points: [
      { id: 'p', sketched: 10 },
      { id: 'q', sketched: 30 },
    ],
    lengths: [{ id: 'L1', from: 'A', to: 'B', size: '40' }],
    crossings: [flat],
  };
  const up = (crossing: object) =>
    -(
      scene({ ...part, crossings: [crossing] }, 2).leaders.find(({ choice }) => choice.id === 'f')?.anchorY ??
      NaN
    ) / 2;
  // 13 mm from the flat to the other side of Ø16: 13 − 8 = 5 above the axis. By hand.
  expect(up(flat)).toBeCloseTo(5, 9);
  // 2.5 deep on Ø16: 8 − 2.5 = 5.5.
  expect(up({ id: 'f', at: 'p', to: 'q', form: 'flat', depth: '2.5' })).toBeCloseTo(5.5, 9);
});

test('rows that would be outside the window come down into it, as far apart as they were', () => {
  const high = scene(gauge, 3).leaders;
  // Ø20 at 3 px to the mm: 30 px above the axis is the outline. The window ends 40 px above the axis.
  const low = scene(gauge, 3, { left: -500, right: 500, top: -40 }).leaders;
  const top = Math.min(...low.map(({ y }) => y));
  // A note is some 14 px high and has a frame round it where it is chosen.
  expect(top - 18).toBeGreaterThanOrEqual(-40);
  const downs = new Set(low.map(({ y }, i) => y - (high[i]?.y ?? NaN)));
  expect(downs.size).toBe(1);
  const free = scene(gauge, 3, { left: -500, right: 500, top: -400 }).leaders;
  expect(free).toEqual(high);
});
