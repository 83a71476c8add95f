import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { hatchLines } from '../../../src/core/outline/hatching.ts';
import type { LineRole, Picture } from '../../../src/core/outline/picture.ts';
import { profilePicture, type View } from '../../../src/core/outline/profile-picture.ts';
import { readPart } from '../../../src/core/part/read-part.ts';
import type { Part } from '../../../src/core/part/types.ts';
import { chainsOf, partOf, stepped } from './drawing-parts.ts';

/** Area of a flat list of corners: the shoelace formula. */
function areaOf(points: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < points.length; i += 2) {
    const [ax = 0, ay = 0] = points.slice(i, i + 2);
    const j = (i + 2) % points.length;
    const [bx = 0, by = 0] = points.slice(j, j + 2);
    sum += ax * by - bx * ay;
  }
  return Math.abs(sum) / 2;
}
const total = (picture: Picture, role: 'steel' | 'section', id?: string): number =>
  picture.items.reduce(
    (sum, i) => (i.kind === 'area' && i.role === role && (!id || i.id === id) ? sum + areaOf(i.points) : sum),
    0,
  );
const lines = (picture: Picture, role: LineRole, id?: string): (readonly number[])[] =>
  picture.items.flatMap((i) =>
    i.kind === 'line' && i.role === role && (!id || i.id === id) ? [i.points] : [],
  );
const ys = (points: readonly number[]) => points.filter((_, i) => i % 2 === 1);
const xs = (points: readonly number[]) => points.filter((_, i) => i % 2 === 0);

/** Draws a stepped part with more fields, in a view. */
function draw(base: ReturnType<typeof stepped>, more: Partial<Part>, view: View): Picture {
  return profilePicture({ ...base.part, ...more }, base.solved, { view });
}
const plain = stepped(['10', 20], ['20', 30]);

test('seen from outside, each segment has the area of its rectangle on both sides of the axis', () => {
  const picture = draw(plain, {}, 'outside');
  expect(total(picture, 'steel', 's1')).toBeCloseTo(20 * 10, 9);
  expect(total(picture, 'steel', 's2')).toBeCloseTo(30 * 20, 9);
  expect(total(picture, 'section')).toBe(0);
  expect(lines(picture, 'hatch')).toEqual([]);
});

test('cut below the axis, the lower half is hatched and nothing above it', () => {
  const picture = draw(plain, {}, 'half');
  expect(total(picture, 'steel')).toBeCloseTo(20 * 5 + 30 * 10, 9);
  expect(total(picture, 'section')).toBeCloseTo(20 * 5 + 30 * 10, 9);
  const hatch = lines(picture, 'hatch');
  expect(hatch.length).toBeGreaterThan(20);
  expect(Math.max(...hatch.flatMap(ys))).toBeLessThanOrEqual(1e-9);
});

test('a solid part is shown from outside, a bored one half in section, unless told otherwise', () => {
  const bored = {
    ...plain.part,
    holes: [{ id: 'h', from: 'A', form: 'drill' as const, diameter: '4', through: true }],
  };
  expect(total(profilePicture(plain.part, plain.solved), 'section')).toBe(0);
  const picture = profilePicture(bored, plain.solved);
  expect(total(picture, 'section')).toBeCloseTo(20 * 3 + 30 * 8, 9);
  // Hidden above the axis, seen below it.
  expect(
    lines(picture, 'hidden', 'h')
      .flatMap(ys)
      .every((y) => y >= 0),
  ).toBe(true);
  expect(
    lines(picture, 'outline', 'h')
      .flatMap(ys)
      .every((y) => y <= 0),
  ).toBe(true);
});

test('a blind drill ends in a 118° point', () => {
  const picture = draw(
    plain,
    { holes: [{ id: 'h', from: 'A', form: 'drill', diameter: '4', depth: '12' }] },
    'section',
  );
  const right = draw(
    plain,
    { holes: [{ id: 'h', from: 'C', form: 'drill', diameter: '4', depth: '12' }] },
    'section',
  );
  // 118° is the usual point of a twist drill for steel (common practice): its length is r / tan 59°.
  const tip = 2 / Math.tan((59 * Math.PI) / 180);
  const cut = 2 * (12 * 2 + (tip * 2) / 2);
  expect(total(picture, 'section')).toBeCloseTo(2 * (20 * 5 + 30 * 10) - cut, 6);
  expect(Math.min(...lines(right, 'outline', 'h').flatMap(xs))).toBeCloseTo(50 - 12 - tip, 6);
});

test('a chamfer takes its triangle from the corner, an undercut its rectangle', () => {
  const picture = draw(
    plain,
    {
      edges: [
        { face: 'A', side: 'right', form: 'chamfer', size: '2', angle: '45°' },
        { face: 'B', side: 'left', form: 'undercut', width: '3', depth: '1' },
      ],
    },
    'outside',
  );
  expect(total(picture, 'steel', 's1')).toBeCloseTo(200 - 2 * (2 + 3), 9);
});

test('a 30° chamfer falls by size times tan 30°', () => {
  const picture = draw(
    plain,
    { edges: [{ face: 'A', side: 'right', form: 'chamfer', size: '3', angle: '30°' }] },
    'outside',
  );
  const drop = 3 * Math.tan(Math.PI / 6);
  expect(total(picture, 'steel', 's1')).toBeCloseTo(200 - 3 * drop, 9);
});

test('a fillet fills the inner corner: r²(1 − π/4) on either side', () => {
  const picture = draw(
    plain,
    { edges: [{ face: 'B', side: 'left', form: 'fillet', radius: '3' }] },
    'outside',
  );
  const filled = total(picture, 'steel', 's1') - 200;
  // Drawn by chords, which lie on the metal side of a hollow corner's arc: up to 2 % more at six chords.
  expect(filled / 2).toBeGreaterThanOrEqual(9 * (1 - Math.PI / 4));
  expect(filled / 2).toBeLessThan(9 * (1 - Math.PI / 4) * 1.05);
});

test('a taper is a trapezium between its two diameters', () => {
  const part = partOf({
    faces: plain.part.faces.slice(0, 2),
    segments: [{ id: 's1', form: 'taper', start: '10', end: '6', ratio: '1:5' }],
  });
  const picture = profilePicture(part, { chains: chainsOf({ A: 0, B: 20 }), diameters: [] });
  expect(total(picture, 'steel')).toBeCloseTo(((10 + 6) / 2) * 20, 9);
});

test('a thread carries a thin line at its root on both sides', () => {
  const part = {
    ...plain.part,
    segments: [{ id: 's1', form: 'thread' as const, thread: 'M8' }, ...plain.part.segments.slice(1)],
  };
  const picture = profilePicture(part, plain.solved);
  const roots = lines(picture, 'thin', 's1').map((p) => p[1] ?? 0);
  // M8x1.25: root of the external profile d3 = d − 1.22687 P (ISO 68-1 profile, root rounded; DIN 13-1 table 6.466).
  expect(roots.map((y) => Math.round(Math.abs(2 * y) * 1000) / 1000)).toEqual([6.466, 6.466]);
  expect(roots.reduce((a, b) => a + b)).toBeCloseTo(0, 9);
});

const point = (id: string, sketched: number) => ({ id, sketched });
const withPoints = {
  ...plain,
  solved: { chains: chainsOf({ A: 0, B: 20, C: 50, P: 30, Q: 40 }), diameters: [] as [] },
};
const points = [point('P', 30), point('Q', 40)];

test('a keyseat toward the viewer is a slot with round ends; at the top it is hidden lines; cut open, a notch', () => {
  const key = (angle: string) => [
    { id: 'k', at: 'P', to: 'Q', form: 'keyseat' as const, width: '4', depth: '2.5', angle },
  ];
  const front = lines(draw(withPoints, { points, crossings: key('90°') }, 'outside'), 'outline', 'k');
  expect(front).toHaveLength(1);
  expect([Math.min(...xs(front[0] ?? [])), Math.max(...xs(front[0] ?? []))]).toEqual([30, 40]);
  expect(areaOf(front[0] ?? [])).toBeCloseTo(6 * 4 + Math.PI * 4, 0);
  const top = draw(withPoints, { points, crossings: key('0°') }, 'outside');
  expect(Math.min(...lines(top, 'hidden', 'k').flatMap(ys))).toBeCloseTo(10 - 2.5, 9);
  const open = draw(withPoints, { points, crossings: key('180°') }, 'half');
  expect(total(open, 'section')).toBeCloseTo(20 * 5 + 30 * 10 - 10 * 2.5, 9);
});

test('a cross hole to the axis parts the metal of the cut half', () => {
  const crossings = [
    { id: 'x', at: 'P', form: 'hole' as const, diameter: '3', angle: '180°', reaches: 'axis' },
  ];
  const picture = draw(withPoints, { points, crossings }, 'half');
  expect(total(picture, 'section', 's2')).toBeCloseTo(30 * 10 - 3 * 10, 9);
});

test('a flat seen edge-on takes from the outline; seen face-on it is marked by diagonals', () => {
  const flat = (angle: string) => [{ id: 'f', at: 'P', to: 'Q', form: 'flat' as const, depth: '2', angle }];
  const edgeOn = draw(withPoints, { points, crossings: flat('0°') }, 'outside');
  expect(total(edgeOn, 'steel', 's2')).toBeCloseTo(30 * 20 - 10 * 2, 9);
  const faceOn = draw(withPoints, { points, crossings: flat('90°') }, 'outside');
  expect(lines(faceOn, 'thin', 'f')).toHaveLength(2);
  // Half the chord at 2 below a radius of 10: √(10² − 8²) = 6.
  expect(Math.max(...lines(faceOn, 'outline', 'f').flatMap(ys))).toBeCloseTo(6, 9);
});

test('every face and segment can be found by its id', () => {
  const picture = draw(plain, {}, 'half');
  const ids = new Set(picture.items.flatMap((i) => (i.kind !== 'text' && i.id ? [i.id] : [])));
  for (const id of ['A', 'B', 'C', 's1', 's2']) expect(ids).toContain(id);
});

test('hatch lines lie inside, run at 45° and keep their distance', () => {
  const square = [0, 0, 10, 0, 10, 10, 0, 10];
  const found = hatchLines(square, 1);
  const offsets = found.map(([x = 0, y = 0]) => y - x).sort((a, b) => a - b);
  expect(found.every(([ax = 0, ay = 0, bx = 0, by = 0]) => Math.abs(by - ay - (bx - ax)) < 1e-9)).toBe(true);
  expect(found.flat().every((v) => v >= -1e-9 && v <= 10 + 1e-9)).toBe(true);
  offsets.slice(1).forEach((c, i) => expect(c - (offsets[i] ?? 0)).toBeCloseTo(Math.SQRT2, 9));
  expect(found).toHaveLength(15);
});

test.each(['blower-shaft', 'idler-axle-open', 'winch-spindle-clash'])(
  '%s is drawn before anything is solved',
  (name) => {
    const read = readPart(readFileSync(`static/examples/${name}.json`, 'utf8'), name);
    if (!read.ok) throw new Error(read.problem.say);
    const picture = profilePicture(read.value, { chains: chainsOf({}), diameters: [] });
    const ids = new Set(picture.items.flatMap((i) => (i.kind !== 'text' && i.id ? [i.id] : [])));
    for (const { id } of [
      ...read.value.segments,
      ...read.value.faces,
      ...read.value.holes,
      ...read.value.crossings,
    ])
      expect(ids).toContain(id);
  },
);

const anyText = fc.constantFrom(
  '',
  '10',
  '5/0',
  'Ø12 k5',
  '1..5',
  '.2500/.2495',
  'M8',
  '-3',
  '1 1/2 in',
  'x',
);
const anySegment = fc.oneof(
  fc.record({ form: fc.constant('cylinder' as const), diameter: anyText }),
  fc.record({ form: fc.constant('taper' as const), start: anyText, end: anyText }),
  fc.record({ form: fc.constant('thread' as const), thread: anyText }),
);
const anyEdge = fc.record({
  face: fc.constantFrom('F0', 'F1', 'F2', 'nowhere'),
  side: fc.constantFrom('left' as const, 'right' as const),
  form: fc.constant('chamfer' as const),
  size: anyText,
});

test('whatever is written, a picture comes of it, and all of it is somewhere', () => {
  fc.assert(
    fc.property(
      fc.array(anySegment, { minLength: 1, maxLength: 6 }),
      fc.array(anyEdge, { maxLength: 4 }),
      anyText,
      fc.constantFrom<View>('outside', 'half', 'section'),
      (segments, edges, size, view) => {
        const part = partOf({
          faces: [0, ...segments].map((_, i) => ({ id: `F${i}`, sketched: 10 * i })),
          segments: segments.map((s, i) => ({ id: `s${i}`, ...s })),
          points: [point('P', 5), point('Q', 8)],
          edges,
          holes: [
            { id: 'h1', from: 'F0', form: 'drill', diameter: size, depth: '7' },
            { id: 'h2', from: `F${segments.length}`, form: 'tap', thread: size, depth: '5' },
            { id: 'h3', from: 'F0', form: 'centre', size },
          ],
          crossings: [
            { id: 'c1', at: 'P', form: 'hole', diameter: size, reaches: 'through', angle: '30°' },
            { id: 'c2', at: 'P', to: 'Q', form: 'flat', across: size, angle: size },
            { id: 'c3', at: 'gone', form: 'hole', diameter: '2', reaches: 'axis' },
          ],
        });
        const { items } = profilePicture(part, { chains: chainsOf({}), diameters: [] }, { view });
        const numbers = items.flatMap((i) => (i.kind === 'text' ? [i.x, i.y] : i.points));
        expect(numbers.every(Number.isFinite)).toBe(true);
        // A hole wider than the land leaves no metal where it is cut open.
        if (view === 'outside') expect(items.some((i) => i.kind === 'area')).toBe(true);
      },
    ),
  );
});
