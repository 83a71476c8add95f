import fc from 'fast-check';
import { expect, test } from 'vitest';
import { packLanes, packLeaders, type Lane, type LaneWish } from '../../../src/core/outline/lanes.ts';

const GAP = 8;
const anyWishes: fc.Arbitrary<LaneWish[]> = fc
  .array(
    fc.record({
      x0: fc.integer({ min: 0, max: 900 }),
      long: fc.integer({ min: 1, max: 400 }),
      width: fc.integer({ min: 5, max: 150 }),
      outside: fc.constantFrom(0, 16),
      lane: fc.option(fc.integer({ min: 0, max: 5 }), { nil: null, freq: 6 }),
    }),
    { maxLength: 30 },
  )
  .map((list) =>
    list.map(({ x0, long, width, outside, lane }, i) => ({
      id: `L${i}`,
      x0,
      x1: x0 + long,
      width,
      outside,
      lane,
    })),
  );

/** Everything a packed dimension covers in its lane, worked out here from where its text was put. */
function covers(lane: Lane, wish: LaneWish): [number, number] {
  const out = wish.outside ?? 0;
  return [Math.min(lane.x0 - out, lane.textX), Math.max(lane.x1 + out, lane.textX + wish.width)];
}

const pairs = <T>(list: readonly T[]): [T, T][] =>
  list.flatMap((a, i) => list.slice(i + 1).map((b): [T, T] => [a, b]));

/** Runs a law over packed dimensions side by side with what was wished. */
const everyPacking = (law: (packed: { lane: Lane; wish: LaneWish }[]) => void) =>
  fc.assert(
    fc.property(anyWishes, (wishes) => {
      const lanes = packLanes(wishes, GAP);
      expect(lanes.map((l) => l.id)).toEqual(wishes.map((w) => w.id));
      law(lanes.flatMap((lane, i) => (wishes[i] ? [{ lane, wish: wishes[i] }] : [])));
    }),
  );

test('no two dimensions of a lane overlap, texts and arrows included', () => {
  everyPacking((packed) => {
    for (const [a, b] of pairs(packed)) {
      if (a.lane.lane !== b.lane.lane) continue;
      const [[a0, a1], [b0, b1]] = [covers(a.lane, a.wish), covers(b.lane, b.wish)];
      expect(Math.min(a1, b1) - Math.max(a0, b0)).toBeLessThanOrEqual(1e-6);
    }
  });
});

test('a dimension that lies inside a longer one stands nearer to the part, unless a person put one of them elsewhere', () => {
  everyPacking((packed) => {
    for (const [a, b] of pairs(packed)) {
      if (a.wish.lane !== null || b.wish.lane !== null) continue;
      const [short, long] = a.lane.x1 - a.lane.x0 < b.lane.x1 - b.lane.x0 ? [a, b] : [b, a];
      if (short.lane.x0 < long.lane.x0 || short.lane.x1 > long.lane.x1) continue;
      if (short.lane.x1 - short.lane.x0 === long.lane.x1 - long.lane.x0) continue;
      expect(short.lane.lane).toBeLessThan(long.lane.lane);
    }
  });
});

test('what a person put in a lane stands there, or beyond only where another was put before it', () => {
  everyPacking((packed) => {
    const byHand = packed.filter(({ wish }) => typeof wish.lane === 'number');
    for (const { lane, wish } of byHand) {
      const wished = wish.lane ?? 0;
      expect(lane.lane).toBeGreaterThanOrEqual(wished);
      for (let between = wished; between < lane.lane; between += 1)
        expect(byHand.some((other) => other.lane.lane === between)).toBe(true);
    }
  });
  const alone = packLanes([{ id: 'a', x0: 0, x1: 90, width: 20, lane: 3 }], GAP);
  expect(alone[0]?.lane).toBe(3);
});

test('a text stands between its ends where it fits, beside them where it does not', () => {
  everyPacking((packed) => {
    for (const { lane, wish } of packed) {
      const fits = wish.width <= wish.x1 - wish.x0;
      expect(lane.beside === null).toBe(fits);
      if (fits) {
        expect(lane.textX).toBeGreaterThanOrEqual(wish.x0 - 1e-9);
        expect(lane.textX + wish.width).toBeLessThanOrEqual(wish.x1 + 1e-9);
      } else if (lane.beside === 'right') expect(lane.textX).toBe(wish.x1 + GAP);
      else expect(lane.textX + wish.width).toBe(wish.x0 - GAP);
    }
  });
});

test('a chain end to end takes one lane, steps from one face a lane each', () => {
  const wish = (id: string, x0: number, x1: number): LaneWish => ({ id, x0, x1, width: 20 });
  const chain = packLanes([wish('a', 0, 50), wish('b', 50, 150), wish('c', 150, 190)], GAP);
  expect(chain.map((l) => l.lane)).toEqual([0, 0, 0]);
  const steps = packLanes([wish('a', 0, 150), wish('b', 0, 50), wish('c', 0, 90)], GAP);
  expect(steps.map((l) => l.lane)).toEqual([2, 0, 1]);
});

test('a text moves aside where an extension line would run through it', () => {
  const lanes = packLanes(
    [
      { id: 'near', x0: 0, x1: 100, width: 20 },
      { id: 'far', x0: 50, x1: 300, width: 20 },
    ],
    GAP,
  );
  const near = lanes.find((l) => l.id === 'near');
  expect(near?.lane).toBe(0);
  expect(near && (near.textX + 20 <= 50 || near.textX >= 50)).toBe(true);
});

const anyNotes = fc
  .array(fc.record({ x: fc.integer({ min: 0, max: 800 }), width: fc.integer({ min: 5, max: 160 }) }), {
    maxLength: 30,
  })
  .map((list) => list.map((note, i) => ({ id: `n${i}`, ...note })));

test('notes of a row do not overlap, and no leader runs through a note', () => {
  fc.assert(
    fc.property(anyNotes, (notes) => {
      const packed = packLeaders(notes, GAP);
      expect(packed.map(({ id, x, width }) => ({ id, x, width }))).toEqual(notes);
      for (const [a, b] of pairs(packed)) {
        const apart = a.x + a.width + GAP <= b.x || b.x + b.width + GAP <= a.x;
        if (a.row === b.row) expect(apart).toBe(true);
        for (const [text, leader] of [
          [a, b],
          [b, a],
        ] as const)
          if (leader.x > text.x && leader.x < text.x + text.width) expect(leader.row).toBeLessThan(text.row);
      }
    }),
  );
});
