import fc from 'fast-check';
import { expect, test } from 'vitest';
import { drawingPlaces } from '../../../src/core/outline/drawing-places.ts';
import { chainsOf, partOf } from './drawing-parts.ts';

const face = (id: string, sketched: number) => ({ id, sketched });

test('placed stations stand where they are, whatever was sketched', () => {
  const part = partOf({ faces: [face('A', 0), face('B', 50), face('C', 10)] });
  const { at, loose, extent } = drawingPlaces(part, chainsOf({ A: 0, B: 12, C: 20 }));
  expect([...at.values()]).toEqual([0, 12, 20]);
  expect(loose.size).toBe(0);
  expect(extent).toBe(20);
});

test('a loose face between placed ones stands in proportion to the sketch', () => {
  const part = partOf({ faces: [face('A', 0), face('B', 25), face('C', 100)] });
  const { at, loose } = drawingPlaces(part, chainsOf({ A: 0, B: null, C: 40 }, [['A', 'C'], ['B']]));
  expect(at.get('B')).toBeCloseTo(10, 9);
  expect([...loose]).toEqual(['B']);
});

test('past the last placed face the sketch goes on at its own scale, inches too', () => {
  const part = partOf({ unit: 'in', faces: [face('A', 0), face('B', 1), face('C', 3)] });
  const { at } = drawingPlaces(part, chainsOf({ A: 0, B: 30, C: null }, [['A', 'B'], ['C']]));
  expect(at.get('C')).toBeCloseTo(30 + 2 * 25.4, 9);
});

test('what sizes tie together keeps its distance where none of it is placed', () => {
  const part = partOf({
    faces: [face('A', 0), face('B', 40), face('C', 90)],
    lengths: [{ id: 'L1', from: 'B', to: 'C', size: '18' }],
  });
  const places = drawingPlaces(part, chainsOf({ A: 0, B: null, C: null }, [['A'], ['B', 'C']]));
  expect(places.at.get('B')).toBeCloseTo(40, 9);
  expect(places.at.get('C')).toBeCloseTo(58, 9);
  expect(places.tied('C')).toEqual(['B', 'C']);
});

test('a clashing loop is drawn by its sizes, first size said first', () => {
  const part = partOf({
    faces: [face('A', 0), face('B', 1), face('C', 2)],
    lengths: [
      { id: 'L1', from: 'A', to: 'B', size: '10' },
      { id: 'L2', from: 'B', to: 'C', size: '5' },
      { id: 'L3', from: 'A', to: 'C', size: '16' },
    ],
  });
  const { at, loose } = drawingPlaces(part, chainsOf({ A: 0, B: null, C: null }, [['A', 'B', 'C']]));
  expect(at.get('B')).toBeCloseTo(10, 9);
  expect(at.get('C')).toBeCloseTo(16, 9);
  expect(loose.size).toBe(0);
});

test('the sketch is found again from the drawing', () => {
  const part = partOf({ faces: [face('A', 0), face('B', 25), face('C', 100)] });
  const { at, toSketched } = drawingPlaces(part, chainsOf({ A: 0, B: null, C: 40 }, [['A', 'C'], ['B']]));
  expect(toSketched(at.get('B') ?? NaN)).toBeCloseTo(25, 9);
  expect(toSketched(47)).toBeCloseTo(107, 9);
});

const anyPlace = fc.option(fc.integer({ min: -50, max: 200 }), { nil: null });
const anyStations = fc.array(
  fc.record({
    sketched: fc.double({ min: -100, max: 300, noNaN: true }),
    place: anyPlace,
    loose: fc.boolean(),
  }),
  { minLength: 1, maxLength: 12 },
);

test('faces are always drawn apart and in order, however wrong the sizes and the sketch are', () => {
  fc.assert(
    fc.property(anyStations, (stations) => {
      const named = stations.map((s, i) => ({ ...s, id: `F${i}` }));
      const part = partOf({ faces: named.map(({ id, sketched }) => ({ id, sketched })) });
      const home = named.filter((s) => !s.loose).map((s) => s.id);
      const groups = [home, ...named.filter((s) => s.loose).map((s) => [s.id])].filter((g) => g.length > 0);
      const chains = chainsOf(Object.fromEntries(named.map((s) => [s.id, s.place])), groups);
      const xs = named.map(({ id }) => drawingPlaces(part, chains).at.get(id) ?? NaN);
      xs.forEach((x, i) => {
        expect(Number.isFinite(x)).toBe(true);
        if (i > 0) expect(x).toBeGreaterThan(xs[i - 1] ?? NaN);
      });
    }),
  );
});
