import { afterEach, expect, test } from 'vitest';
import { lensFor, lensRadius } from '../../src/board/lens.ts';
import type { Part, Segment } from '../../src/core/part/types.ts';
import { BoardBench } from './bench.svelte.ts';

/** A shaft of 200 mm with a groove of .2 mm in its middle. */
const cylinder = (id: string, diameter: string): Segment => ({ id, form: 'cylinder', diameter });
const shaft: Part = {
  shaftwright: 1,
  title: 'shaft with a narrow groove',
  unit: 'mm',
  faces: Object.entries({ A: 0, B: 60, C: 60.2, D: 200 }).map(([id, sketched]) => ({ id, sketched })),
  segments: [cylinder('s1', '20'), cylinder('s2', '18'), cylinder('s3', '20')],
  lengths: (
    [
      ['A', 'B', '60'],
      ['B', 'C', '.2'],
      ['A', 'D', '200'],
    ] as const
  ).map(([from, to, size], i) => ({ id: `L${i + 1}`, from, to, size })),
  ...{ points: [], edges: [], holes: [], crossings: [], requirements: [], matched: [] },
};

let bench: BoardBench;
afterEach(() => bench.close());

test('what is too small to be seen is enlarged to be about 60 px, at most 40 times; what is large is not', async () => {
  bench = await BoardBench.of(shaft);
  const { scene, view } = bench.fitted();
  const across = 0.2 * view.scale;
  expect(across).toBeLessThan(2);
  const lens = lensFor(scene, { kind: 'segment', id: 's2' });
  expect(lens?.mm).toBeCloseTo(60.1, 6);
  expect(lens?.up).toBeCloseTo(9, 6);
  expect(lens?.times).toBe(Math.min(40, Math.round(60 / across)));
  expect(lensFor(scene, { kind: 'segment', id: 's1' })).toBeNull();
  expect(lensFor(scene, { kind: 'station', id: 'B' })).toBeNull();
});

test('it is drawn in the corner away from its place while the thing is chosen, with a ring around the place', async () => {
  bench = await BoardBench.of(shaft);
  const { width, height } = bench.surface.getBoundingClientRect();
  /** The lowest place of the round window's rim; the groove lies in the left half, so the window is at the right. */
  const rim = { x: width - lensRadius({ height }) - 14, y: height - 14 };
  const inked = () =>
    [-1, 0, 1].some((dy) => {
      const [r = 255, , , a = 0] = bench.pixel({ x: rim.x, y: rim.y + dy });
      return a > 100 && r < 140;
    });
  expect(inked()).toBe(false);
  bench.surface.focus();
  // A, s1, B, s2.
  await bench.keys('{ArrowRight}{ArrowRight}{ArrowRight}{ArrowRight}');
  expect(bench.chosen).toEqual({ kind: 'segment', id: 's2' });
  await bench.settled();
  expect(inked()).toBe(true);
  await bench.keys('{ArrowLeft}{ArrowLeft}');
  expect(bench.chosen).toEqual({ kind: 'segment', id: 's1' });
  await bench.settled();
  expect(inked()).toBe(false);
});

test('on a low board the round window is smaller: most of the drawing stays in sight', () => {
  expect(lensRadius({ height: 600 })).toBe(78);
  expect(lensRadius({ height: 300 })).toBe(60);
  expect(lensRadius({ height: 120 })).toBe(44);
});
