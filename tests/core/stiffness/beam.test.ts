import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { beamOf, deflection, yieldAt } from '../../../src/core/stiffness/beam.ts';
import type { BeamPiece, BeamSupport } from '../../../src/core/stiffness/beam.ts';

const FREE: BeamSupport = { centre: false, steadyAt_mm: null };
const CENTRE: BeamSupport = { centre: true, steadyAt_mm: null };

const bar = (...sizes: [length: number, d: number, bore?: number][]): BeamPiece[] => {
  let z = 0;
  return sizes.map(([length, d_mm, bore_mm = 0]) => ({ z0_mm: z, z1_mm: (z += length), d_mm, bore_mm }));
};
const end = (pieces: readonly BeamPiece[]): number => pieces.at(-1)?.z1_mm ?? 0;

const anyBar = fc
  .array(
    fc.tuple(
      fc.double({ min: 1, max: 60, noNaN: true }),
      fc.double({ min: 4, max: 40, noNaN: true }),
      fc.double({ min: 0, max: 3, noNaN: true }),
    ),
    { minLength: 1, maxLength: 20 },
  )
  .map((sizes) => bar(...sizes));
const fraction = fc.integer({ min: 0, max: 100 }).map((n) => n / 100);
const anySupport = fc.tuple(
  fc.boolean(),
  fc.option(fraction),
  fc.constantFrom<('grip' | 'centre')[]>('grip', 'centre'),
);
const supportOn = (
  pieces: readonly BeamPiece[],
  [centre, steady, start]: [boolean, number | null, 'grip' | 'centre'],
) => ({
  centre,
  steadyAt_mm: steady === null ? null : steady * end(pieces),
  start,
});

/** Near enough beside the largest deflection of this bar. */
const near = (a: number, b: number, scale: number) =>
  expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-6 * scale);

describe('laws of an elastic bar', () => {
  test('reciprocity: at p for a load at q as at q for a load at p (Maxwell)', () => {
    fc.assert(
      fc.property(anyBar, anySupport, fraction, fraction, (pieces, held, p, q) => {
        const beam = beamOf(pieces, supportOn(pieces, held), 205_000);
        const free = beamOf(pieces, FREE, 205_000);
        const [a, b] = [p * end(pieces), q * end(pieces)];
        near(deflection(beam, a, b), deflection(beam, b, a), deflection(free, end(pieces), end(pieces)));
      }),
    );
  });

  test('what gives under the tool is the deflection there under a load there, to the last bit', () => {
    fc.assert(
      fc.property(anyBar, anySupport, fraction, (pieces, held, at) => {
        const beam = beamOf(pieces, supportOn(pieces, held), 205_000);
        expect(yieldAt(beam, at * end(pieces))).toBe(deflection(beam, at * end(pieces), at * end(pieces)));
      }),
    );
  });

  test('a stretch split into equal ones is the same bar', () => {
    fc.assert(
      fc.property(anyBar, anySupport, fraction, fraction, (pieces, held, at, where) => {
        const split = pieces.flatMap((p) => {
          const m = p.z0_mm + where * (p.z1_mm - p.z0_mm);
          return [
            { ...p, z1_mm: m },
            { ...p, z0_mm: m },
          ];
        });
        const support = supportOn(pieces, held);
        const [one, two] = [beamOf(pieces, support, 205_000), beamOf(split, support, 205_000)];
        const scale = deflection(beamOf(pieces, FREE, 205_000), end(pieces), end(pieces));
        near(
          deflection(one, at * end(pieces), at * end(pieces)),
          deflection(two, at * end(pieces), at * end(pieces)),
          scale,
        );
      }),
    );
  });

  test('a centre or a steady never makes the place under the tool give more', () => {
    fc.assert(
      fc.property(anyBar, fraction, fraction, (pieces, at, steady) => {
        const z = at * end(pieces);
        const alone = deflection(beamOf(pieces, FREE, 205_000), z, z);
        const scale = deflection(beamOf(pieces, FREE, 205_000), end(pieces), end(pieces));
        const steadyAt_mm = steady * end(pieces);
        for (const support of [CENTRE, { centre: false, steadyAt_mm }, { centre: true, steadyAt_mm }])
          expect(deflection(beamOf(pieces, support, 205_000), z, z)).toBeLessThanOrEqual(
            alone + 1e-9 * scale,
          );
      }),
    );
  });

  test('nothing gives at the grip, at the centre, or at the steady', () => {
    fc.assert(
      fc.property(anyBar, fraction, fraction, (pieces, load, steady) => {
        const steadyAt_mm = steady * end(pieces);
        const beam = beamOf(pieces, { centre: true, steadyAt_mm }, 205_000);
        const scale = deflection(beamOf(pieces, FREE, 205_000), end(pieces), end(pieces));
        for (const z of [0, end(pieces), steadyAt_mm])
          near(deflection(beam, load * end(pieces), z), 0, scale);
      }),
    );
  });

  test('with the grip alone, metal beyond the cut does not matter; with a centre it does', () => {
    const [one, two] = [bar([40, 20], [30, 10]), bar([40, 20], [30, 6])];
    const at = (pieces: BeamPiece[], support: BeamSupport) => deflection(beamOf(pieces, support, 1), 40, 40);
    expect(at(two, FREE)).toBe(at(one, FREE));
    expect(at(two, CENTRE)).toBeGreaterThan(at(one, CENTRE));
  });

  test.each<[string, BeamPiece[], number, number]>([
    ['twice as long: eight times', bar([100, 10]), 205_000, 8],
    ['twice as thick: a sixteenth', bar([50, 20]), 205_000, 1 / 16],
    ['half the modulus: twice', bar([50, 10]), 102_500, 2],
  ])('%s', (_name, pieces, youngs, times) => {
    const plain = deflection(beamOf(bar([50, 10]), FREE, 205_000), 50, 50);
    expect(deflection(beamOf(pieces, FREE, youngs), end(pieces), end(pieces)) / plain).toBeCloseTo(times, 12);
  });
});

describe('bars at the edge of sense', () => {
  test('no metal carries nothing', () => {
    expect(deflection(beamOf(bar([10, 5], [10, 4, 4]), FREE, 205_000), 20, 20)).toBe(Infinity);
  });
  test('an empty bar does not give', () => {
    expect(deflection(beamOf([], FREE, 205_000), 5, 5)).toBe(0);
  });
  test('a steady at the very end beside a centre is one support', () => {
    const pieces = bar([50, 10]);
    const both = beamOf(pieces, { centre: true, steadyAt_mm: 50 }, 205_000);
    expect(deflection(both, 25, 25)).toBe(deflection(beamOf(pieces, CENTRE, 205_000), 25, 25));
  });
});
