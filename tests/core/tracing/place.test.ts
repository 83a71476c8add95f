import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  begunAt,
  inPicture,
  onDrawing,
  placed,
  quarterTurned,
  roughly,
  shifted,
  straightened,
  type Place,
} from '../../../src/core/tracing/place.ts';
import type { Known, Pixel, Scan } from '../../../src/core/tracing/scan.ts';

const flat: Scan = { image: 'kept:0', width: 1000, height: 800, scale: 1, angle: 0, origin: [0, 0] };
const known = (from: Pixel, to: Pixel): Known => ({ from, to, size: '5', within: 2 });
const at = ({ x, y }: Place) => [x, y].map((mm) => Number(mm.toFixed(3)) + 0);

function sure(scan: Scan | null): Scan {
  if (scan === null) throw new Error('the picture was not placed');
  return scan;
}

// Worked by hand. The sloping cases use the triangle of sides 3, 4 and 5, whose angle is 36.8699°.
describe('two picks and a known size', () => {
  test('a level size of 100 mm over 400 px: 4 px to the mm, the left pick on the axis', () => {
    const scan = sure(placed(flat, known([100, 200], [500, 200]), 100));
    expect(scan).toMatchObject({ scale: 4, angle: 0, origin: [100, 200] });
    expect(at(onDrawing(scan, [500, 200]))).toEqual([100, 0]);
    expect(at(onDrawing(scan, [300, 100]))).toEqual([50, 25]);
  });

  test('picked from right to left it is the same', () => {
    const scan = sure(placed(flat, known([500, 200], [100, 200]), 100));
    expect(scan).toMatchObject({ scale: 4, angle: 0, origin: [100, 200] });
  });

  test('400 px across and 300 px up are 500 px; 125 mm make 4 px to the mm, turned back by 36.8699°', () => {
    const scan = sure(placed(flat, known([100, 400], [500, 100]), 125));
    expect(scan).toMatchObject({ scale: 4, angle: -36.8699, origin: [100, 400] });
    expect(at(onDrawing(scan, [500, 100]))).toEqual([125, 0]);
    // 100 px square to the line, along (-3/5, 4/5), are 25 mm straight up.
    expect(at(onDrawing(scan, [40, 320]))).toEqual([0, 25]);
  });

  test('falling to the right it is turned the other way', () => {
    const scan = sure(placed(flat, known([100, 100], [500, 400]), 125));
    expect(scan.angle).toBe(36.8699);
    expect(at(onDrawing(scan, [500, 400]))).toEqual([125, 0]);
  });

  test('an upright size is a diameter: its middle on the axis, as far along as it was', () => {
    const before: Scan = { ...flat, scale: 2, origin: [100, 100] };
    // x of the picks is (300 - 100) / 2 = 100 mm; 200 px for 20 mm are 10 px to the mm.
    const scan = sure(placed(before, known([300, 500], [300, 300]), 20));
    expect(scan).toMatchObject({ scale: 10, angle: 0 });
    expect(at(onDrawing(scan, [300, 300]))).toEqual([100, 10]);
    expect(at(onDrawing(scan, [300, 500]))).toEqual([100, -10]);
  });

  test('nothing comes of one place picked twice, or of no size', () => {
    expect(placed(flat, known([100, 100], [100, 100]), 10)).toBeNull();
    expect(placed(flat, known([100, 100], [200, 100]), 0)).toBeNull();
  });
});

describe('straightened', () => {
  const scale4: Scan = { ...flat, scale: 4, origin: [100, 200] };

  test('a centre line that rises by 3 in 4 lies level on the axis; the scale stays', () => {
    const scan = sure(straightened(scale4, [100, 400], [500, 100]));
    expect(scan).toMatchObject({ scale: 4, angle: -36.8699 });
    expect(onDrawing(scan, [100, 400]).y).toBeCloseTo(0, 2);
    expect(onDrawing(scan, [500, 100]).y).toBeCloseTo(0, 2);
  });

  test('an upright edge becomes upright; the origin stays', () => {
    // 4 px to the right over 400 px up: atan(1/100) = 0.5729°, turned counter-clockwise.
    const scan = sure(straightened(scale4, [300, 400], [304, 0]));
    expect(scan).toMatchObject({ angle: 0.5729, origin: [100, 200] });
    expect(onDrawing(scan, [300, 400]).x).toBeCloseTo(onDrawing(scan, [304, 0]).x, 2);
  });

  test('one place picked twice gives no line', () => {
    expect(straightened(scale4, [1, 1], [1, 1])).toBeNull();
  });
});

describe('shifts and turns', () => {
  test('a place of the picture is laid at the first face', () => {
    expect(at(onDrawing(begunAt({ ...flat, angle: 30 }, [321, 123]), [321, 123]))).toEqual([0, 0]);
  });

  test('a shift moves what is seen by so many millimetres', () => {
    const scan = shifted({ ...flat, scale: 4, angle: 90 }, 3, -2);
    expect(at(onDrawing(scan, [0, 0]))).toEqual([3, -2]);
  });

  test('a quarter turn goes about the middle: what was at its right stands above it', () => {
    const scan = quarterTurned({ ...flat, scale: 2, origin: [0, 400] });
    expect(scan.angle).toBe(90);
    expect(at(onDrawing(scan, [500, 400]))).toEqual([250, 0]);
    expect(at(onDrawing(scan, [1000, 400]))).toEqual([250, 250]);
  });

  test('before it is placed the picture is as wide as it was told', () => {
    const scan: Scan = { ...flat, ...roughly(1000, 800, 200) };
    expect(at(onDrawing(scan, [0, 400]))).toEqual([-20, 0]);
    expect(at(onDrawing(scan, [1000, 0]))).toEqual([180, 80]);
  });
});

test('on any picture, what lies at a place lies at that place', () => {
  const lie = fc.record({
    scale: fc.double({ min: 0.5, max: 50, noNaN: true }),
    angle: fc.double({ min: -180, max: 180, noNaN: true }),
    x: fc.integer({ min: 0, max: 2000 }),
    y: fc.integer({ min: 0, max: 2000 }),
  });
  fc.assert(
    fc.property(lie, lie, ({ scale, angle, x, y }, other) => {
      const scan: Scan = { ...flat, scale, angle, origin: [other.x, other.y] };
      const [px, py] = inPicture(scan, onDrawing(scan, [x, y]));
      expect(px).toBeCloseTo(x, 1);
      expect(py).toBeCloseTo(y, 1);
    }),
  );
});
