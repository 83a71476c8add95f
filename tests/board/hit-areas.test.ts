import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { areaAt, areaNear, type HitArea } from '../../src/board/hit-areas.ts';

const pen = document.createElement('canvas').getContext('2d');
if (!pen) throw new Error('no 2D context');
pen.lineCap = pen.lineJoin = 'round';

/** What the browser's own canvas says of a place. Source: HTML canvas, isPointInPath and isPointInStroke. */
function onCanvas({ points, closed, reach }: HitArea, x: number, y: number): boolean {
  if (!pen) return false;
  pen.lineWidth = reach;
  pen.beginPath();
  for (let i = 0; i + 1 < points.length; i += 2) pen.lineTo(points[i] ?? 0, points[i + 1] ?? 0);
  if (closed) pen.closePath();
  return (closed && pen.isPointInPath(x, y, 'evenodd')) || pen.isPointInStroke(x, y);
}

const px = fc.integer({ min: 0, max: 60 });
const area = fc.record({
  choice: fc.string({ minLength: 1 }).map((id) => ({ kind: 'length', id }) as const),
  points: fc
    .array(fc.tuple(px, px), { minLength: 2, maxLength: 5 })
    .map((spots) => spots.flatMap(([x, y]) => [x, y])),
  closed: fc.boolean(),
  reach: fc.constantFrom(1, 7, 10),
});
/** Between the whole pixels, so that no place lies on a rim where rounding decides. */
const between = px.map((n) => n + 0.37);

test('what lies under a place is the uppermost area that the canvas itself finds there', () => {
  fc.assert(
    fc.property(fc.array(area, { minLength: 1, maxLength: 4 }), between, between, (areas, x, y) => {
      const expected = areas.findLast((one) => onCanvas(one, x, y)) ?? null;
      // The canvas draws round ends as curves of its own, a hundredth of a pixel off a circle.
      const near = [-0.02, 0.02].flatMap((grown) =>
        areas.map((one) => onCanvas({ ...one, reach: one.reach + grown }, x, y)),
      );
      const sure = areas.every((_, i) => near[i] === near[i + areas.length]);
      fc.pre(sure);
      expect(areaAt(areas, { x, y })).toBe(expected);
    }),
    { numRuns: 2000 },
  );
});

// A segment of 60 × 20 px with a face at its right end, a label above it, and a segment of 20 px beside that.
describe('what a finger means, by hand', () => {
  const box = (
    kind: 'segment' | 'length',
    id: string,
    x0: number,
    x1: number,
    y0: number,
    y1: number,
  ): HitArea => ({
    choice: { kind, id },
    points: [x0, y0, x1, y0, x1, y1, x0, y1],
    closed: true,
    reach: 1,
  });
  const face: HitArea = {
    choice: { kind: 'station', id: 'B' },
    points: [60, -20, 60, 20],
    closed: false,
    reach: 10,
  };
  const areas = [
    box('segment', 's1', 0, 60, -20, 20),
    box('segment', 's2', 60, 80, -20, 20),
    face,
    box('length', 'L1', 20, 40, 40, 50),
  ];
  test.each([
    ['the face itself', 61, 0, 'B'],
    ['beside the face, on a segment with room', 50, 0, 'B'],
    ['farther from it', 46, 0, 's1'],
    ['as near to it, on a narrow segment, which would have no room of its own', 70, 0, 's2'],
    ['a little below a label, with nothing under it', 30, 58, 'L1'],
    ['far from all', 30, 63, null],
  ])('%s', (_name, x, y, id) => {
    expect(areaNear(areas, { x, y })?.choice.id ?? null).toBe(id);
  });
});
