import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fitPoints, panBy, toDrawing, toScreen, zoomAt } from '../../src/board/viewport.ts';

const px = fc.double({ min: -2000, max: 2000, noNaN: true });
const spot = fc.record({ x: px, y: px });
const view = fc.record({ scale: fc.double({ min: 0.05, max: 500, noNaN: true }), x: px, y: px });

test('drawing and screen are each other’s inverse', () => {
  fc.assert(
    fc.property(view, spot, (v, at) => {
      const back = toScreen(v, toDrawing(v, at));
      expect(back.x).toBeCloseTo(at.x, 6);
      expect(back.y).toBeCloseTo(at.y, 6);
    }),
  );
});

test('a zoom keeps what lies under the pointer there, within its limits', () => {
  fc.assert(
    fc.property(view, spot, fc.double({ min: 0.01, max: 100, noNaN: true }), (v, at, factor) => {
      const now = zoomAt(v, at, factor);
      const [before, after] = [toDrawing(v, at), toDrawing(now, at)];
      expect(after.x * now.scale).toBeCloseTo(before.x * now.scale, 3);
      expect(after.y * now.scale).toBeCloseTo(before.y * now.scale, 3);
      expect(now.scale).toBeGreaterThanOrEqual(0.01);
      expect(now.scale).toBeLessThanOrEqual(5000);
    }),
  );
});

test('a pan moves everything by as much', () => {
  const moved = toScreen(panBy({ scale: 3, x: 10, y: 20 }, 5, -7), { x: 4, y: 2 });
  expect(moved).toEqual({ x: 10 + 12 + 5, y: 20 - 6 - 7 });
});

test('a picture is fitted into its window, upright and in the middle', () => {
  const points = [
    { x: -10, y: -5 },
    { x: 90, y: 15 },
  ];
  const v = fitPoints(points, { width: 400, height: 300 });
  const [a, b] = points.map((p) => toScreen(v, p));
  expect((a?.x ?? 0) + (b?.x ?? 0)).toBeCloseTo(400, 6);
  expect((a?.y ?? 0) + (b?.y ?? 0)).toBeCloseTo(300, 6);
  for (const p of [a, b]) {
    expect(p?.x).toBeGreaterThan(0);
    expect(p?.x).toBeLessThan(400);
  }
  expect(a?.y).toBeGreaterThan(b?.y ?? 0);
});
