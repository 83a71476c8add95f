import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { resolveFaces } from '../../../src/core/actuals/resolve-faces.ts';
import { fromMm, pm, toMm } from '../../../src/core/lengths/length.ts';
import { flawsOf, leastByTrying } from './check-resolved.ts';
import { aimsOf, at, drawn } from './drawings.ts';

const solved = (lines: readonly string[], standing: Record<string, number>) => {
  const part = drawn(lines);
  return resolveFaces(part, aimsOf(part), at(standing));
};
const mm = (places: ReadonlyMap<string, number>) =>
  Object.fromEntries([...places].map(([id, place]) => [id, Math.round(place / 100) / 1e7]));
const beyond = (list: readonly { length: string; by: number }[]) =>
  Object.fromEntries(list.map(({ length, by }) => [length, Math.round(by / 100) / 1e7]));

// Worked by hand; the arithmetic stands in the name. Source of all rows: arithmetic.
const kept: [
  why: string,
  lines: string[],
  standing: Record<string, number>,
  places: Record<string, number>,
][] = [
  [
    'what hangs from the face goes with it: 12.62 + 10',
    ['A-B 12.7 ±.1', 'B-C 10 ±.1'],
    { A: 0, B: 12.62 },
    { A: 0, B: 12.62, C: 22.62 },
  ],
  [
    'what hangs from the datum stays: 22.7',
    ['A-B 12.7 ±.1', 'A-C 22.7 ±.1'],
    { A: 0, B: 12.62 },
    { A: 0, B: 12.62, C: 22.7 },
  ],
  [
    'two lengths to C share alike: .06 too far is .03 each',
    ['A-B 10 ±.1', 'B-C 10 ±.1', 'A-C 20 ±.1'],
    { A: 0, B: 10.06 },
    { A: 0, B: 10.06, C: 20.03 },
  ],
  [
    'in proportion to their room: x / .2 = (.06 − x) / .1 gives x = .04',
    ['A-B 10 ±.1', 'B-C 10 ±.1', 'A-C 20 ±.2'],
    { A: 0, B: 10.06 },
    { A: 0, B: 10.06, C: 20.04 },
  ],
  [
    'a face between two that stand: 20.15 − 20 = .15, half each, the middle of 10.05 to 10.10',
    ['A-B 10 ±.1', 'B-C 10 ±.1', 'A-C 20 ±.2'],
    { A: 0, C: 20.15 },
    { A: 0, B: 10.075, C: 20.15 },
  ],
  [
    'one-sided limits: the aim of 10 +.2/−0 is 10.1; C at 20.25 is .05 past 10.1 + 10.1, of which each takes .025',
    ['A-B 10 +.2/-0', 'B-C 10 +.2/-0', 'A-C 20 +.4/-0'],
    { A: 0, C: 20.25 },
    { A: 0, B: 10.125, C: 20.25 },
  ],
  [
    'what is not strained keeps its aim: D stays 5 from C, while B takes half of .1',
    ['A-B 10 ±.1', 'B-C 10 ±.1', 'A-C 20 ±.2', 'C-D 5 ±.3'],
    { A: 0, C: 20.1 },
    { A: 0, B: 10.05, C: 20.1, D: 25.1 },
  ],
  [
    'measured to its very limit is within it',
    ['A-B 10 ±.1', 'B-C 10 ±.1', 'A-C 20 ±.2'],
    { A: 0, C: 20.2 },
    { A: 0, B: 10.1, C: 20.2 },
  ],
];

const lostOrGiven: [
  why: string,
  lines: string[],
  standing: Record<string, number>,
  lost: Record<string, number>,
  given: Record<string, number>,
][] = [
  ['10.25 is .15 over 10.1', ['A-B 10 ±.1', 'B-C 10 ±.1'], { A: 0, B: 10.25 }, { 'A-B': 0.15 }, {}],
  ['9.82 is .08 under 9.9', ['A-B 10 ±.1', 'B-C 10 ±.1'], { A: 0, B: 9.82 }, { 'A-B': -0.08 }, {}],
  [
    'room .1 + .2 for .4: the wider of the two gives .1',
    ['A-B 10 ±.1', 'B-C 10 ±.2', 'A-C 20 ±.5'],
    { A: 0, C: 20.4 },
    {},
    { 'B-C': 0.1 },
  ],
  [
    'the same drawn the other way round',
    ['A-B 10 ±.2', 'B-C 10 ±.1', 'A-C 20 ±.5'],
    { A: 0, C: 20.4 },
    {},
    { 'A-B': 0.1 },
  ],
  [
    'B is to be at most 10.1 from A, at least 10.2 for C and for D: one gives .1 rather than two',
    ['A-B 10 ±.1', 'B-C 10 ±.1', 'B-D 20 ±.1', 'A-C 20 ±.5', 'A-D 30 ±.5'],
    { A: 0, C: 20.3, D: 30.3 },
    {},
    { 'A-B': 0.1 },
  ],
];

describe('faces that came out elsewhere', () => {
  test.each(kept)('%s', (_, lines, standing, places) => {
    const answer = solved(lines, standing);
    expect(answer).toMatchObject({ lost: [], given: [], contradiction: false });
    expect(mm(answer.places)).toEqual(places);
    expect(flawsOf(drawn(lines), at(standing), answer)).toEqual([]);
  });

  test.each(lostOrGiven)('lost or given up: %s', (_, lines, standing, lost, given) => {
    const answer = solved(lines, standing);
    expect(beyond(answer.lost)).toEqual(lost);
    expect(beyond(answer.given)).toEqual(given);
    expect(flawsOf(drawn(lines), at(standing), answer)).toEqual([]);
  });

  test('of two alike that cannot both be kept, one gives way and not by more than must be: .3 − .2 = .1', () => {
    const { given } = solved(['A-B 10 ±.1', 'B-C 10 ±.1', 'A-C 20 ±.5'], { A: 0, C: 20.3 });
    expect(given.reduce((sum, { by }) => sum + by, 0)).toBe(fromMm(0.1));
  });

  test('a length without limits is exact: what stands off it is lost, and what is left follows', () => {
    const answer = solved(['A-B 10', 'B-C 5'], { A: 0, B: 10.01 });
    expect(beyond(answer.lost)).toEqual({ 'A-B': 0.01 });
    expect(mm(answer.places)).toEqual({ A: 0, B: 10.01, C: 15.01 });
  });

  test('faces that stand in another order than drawn contradict', () => {
    expect(solved(['A-B 10 ±.1', 'B-C 10 ±.1'], { A: 0, B: 12, C: 11 }).contradiction).toBe(true);
  });
});

describe('the checker of answers sees what is spoilt', () => {
  const lines = ['A-B 10 ±.1', 'B-C 10 ±.1', 'A-C 20 ±.2'];
  const standing = at({ A: 0, C: 20.15 });
  const part = drawn(lines);
  const right = resolveFaces(part, aimsOf(part), standing);
  const spoilt = (id: string, place: number) => ({
    ...right,
    places: new Map([...right.places, [id, fromMm(place)] as const]),
  });
  test.each([
    ['a face that stands is moved', spoilt('C', 20.14), 'moved C'],
    ['an open face out of its limits', spoilt('B', 10.11), 'unsaid A-B'],
    ['faces out of order', spoilt('B', 21), 'order B C'],
    ['a loss that is none', { ...right, lost: [{ length: 'A-C', by: 1 }] }, 'not so A-C'],
    ['given up without need', { ...right, given: [{ length: 'A-B', by: 1 }] }, 'gave up what can be kept'],
  ])('%s', (_, answer, flaw) => {
    expect(flawsOf(part, standing, right)).toEqual([]);
    expect(flawsOf(part, standing, answer)).toContain(flaw);
  });
});

/** A drawing of up to six faces with its places planted first, dimensioned by a random tree and some lengths more. */
const anyDrawing = fc
  .record({
    gaps: fc.array(fc.integer({ min: 20, max: 60 }), { minLength: 2, maxLength: 5 }),
    parents: fc.array(fc.nat(), { minLength: 5, maxLength: 5 }),
    more: fc.array(fc.tuple(fc.nat(), fc.nat()), { maxLength: 3 }),
    tolerances: fc.array(fc.integer({ min: 1, max: 5 }), { minLength: 8, maxLength: 8 }),
    stands: fc.array(fc.boolean(), { minLength: 6, maxLength: 6 }),
    off: fc.array(fc.integer({ min: -6, max: 6 }), { minLength: 6, maxLength: 6 }),
  })
  .map(({ gaps, parents, more, tolerances, stands, off }) => {
    const places = [0];
    for (const gap of gaps) places.push((places.at(-1) ?? 0) + gap);
    const pairs = new Map<string, readonly [number, number]>();
    const tie = (a: number, b: number) => {
      const [from, to] = a < b ? [a, b] : [b, a];
      if (from !== to) pairs.set(`${from} ${to}`, [from, to]);
    };
    places.forEach((_, i) => i > 0 && tie(i, (parents[i - 1] ?? 0) % i));
    for (const [a, b] of more) tie(a % places.length, b % places.length);
    const letter = (i: number) => 'ABCDEF'[i] ?? '';
    const tenths = (count: number) => (count / 10).toFixed(1);
    const lines = [...pairs.values()].map(
      ([a, b], k) =>
        `${letter(a)}-${letter(b)} ${tenths((places[b] ?? 0) - (places[a] ?? 0))} ±${tenths(tolerances[k] ?? 1)}`,
    );
    const standing = Object.fromEntries(
      places.flatMap((place, i) => (stands[i] ? [[letter(i), (place + (off[i] ?? 0)) / 10]] : [])),
    ) as Record<string, number>;
    return { lines, standing };
  });

describe('laws on random drawings', () => {
  test('faces that stand at their aims change nothing', () => {
    fc.assert(
      fc.property(anyDrawing, ({ lines, standing }) => {
        const part = drawn(lines);
        const aims = aimsOf(part);
        const stood = new Map([...aims].filter(([id]) => id in standing));
        const answer = resolveFaces(part, aims, stood);
        expect(answer).toEqual({ places: aims, lost: [], given: [], contradiction: false });
      }),
    );
  });

  test('no face that stands is moved, and the rest is as good as solved from scratch', () => {
    fc.assert(
      fc.property(anyDrawing, ({ lines, standing }) => {
        const part = drawn(lines);
        expect(flawsOf(part, at(standing), resolveFaces(part, aimsOf(part), at(standing)))).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  test('what was placed anew and is then cut there changes nothing more, to a picometre', () => {
    fc.assert(
      fc.property(anyDrawing, fc.nat(), ({ lines, standing }, pick) => {
        const part = drawn(lines);
        const once = resolveFaces(part, aimsOf(part), at(standing));
        const open = part.faces.filter((id) => !(id in standing));
        const next = open[pick % Math.max(1, open.length)];
        if (next === undefined || Object.keys(standing).length === 0 || once.given.length > 0) return;
        const place = once.places.get(next) ?? pm(0);
        const twice = resolveFaces(part, aimsOf(part), new Map([...at(standing), [next, place]]));
        for (const [id, was] of once.places)
          expect(Math.abs((twice.places.get(id) ?? 0) - was)).toBeLessThan(100);
      }),
      { numRuns: 200 },
    );
  });

  test('the least is given up, as trying every place on a grid finds', () => {
    fc.assert(
      fc.property(
        anyDrawing.filter(({ lines, standing }) => lines.length <= 6 && Object.keys(standing).length >= 2),
        ({ lines, standing }) => {
          const part = drawn(lines);
          if (part.faces.filter((id) => !(id in standing)).length > 2) return;
          const { given, contradiction } = resolveFaces(part, aimsOf(part), at(standing));
          if (contradiction) return;
          const sum = toMm(pm(given.reduce((all, { by }) => all + Math.abs(by), 0)));
          expect(sum).toBeCloseTo(leastByTrying(part, aimsOf(part), at(standing)), 6);
        },
      ),
      { numRuns: 60 },
    );
  }, 60_000);
});
