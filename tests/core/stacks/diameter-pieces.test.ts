import { describe, expect, test } from 'vitest';
import { solveChains } from '../../../src/core/chains/solve.ts';
import { resolvePart } from '../../../src/core/part/resolve.ts';
import type { Part, Segment } from '../../../src/core/part/types.ts';
import {
  followingMaker,
  followingOf,
  followingRss,
  matchedMaker,
} from '../../../src/core/stacks/diameter-pieces.ts';
import { taperDiameters } from '../../../src/core/stacks/diameters.ts';
import { makePieces, type PieceMaker, type PieceTrial } from '../../../src/core/stacks/pieces.ts';

const MM = 1e9;
const part = (segments: Segment[], lengths: Part['lengths'], matched: string[][] = []): Part => ({
  ...{ shaftwright: 1, title: '', unit: 'mm', points: [], edges: [], holes: [], crossings: [] },
  faces: Array.from({ length: segments.length + 1 }, (_, i) => ({ id: `F${i}`, sketched: 10 * i })),
  ...{ segments, lengths, requirements: [], matched },
});
function lastOf(make: PieceMaker | null): PieceTrial {
  if (!make) throw new Error('nothing to make');
  const order = { min: 0, max: MM, range: [0, MM] as const, bins: 10, samples: 100_000, seed: 3 };
  return [...makePieces(make, order)].at(-1) as PieceTrial;
}
const uniform = (half: number) => half / Math.sqrt(3);

describe('the other end of a taper', () => {
  // 1:5 over 50 ±1 takes 10 ±0.2 off 30 ±0.1: 20 ±0.3 at worst, root-sum-square 0.2236, both by hand from D - d = L / 5.
  const taper: Segment = {
    ...{ id: 's1', form: 'taper', ratio: '1:5', falls: 'uniform' },
    start: { size: '30', tol: '±.1' },
  };
  const length = { id: 'L1', from: 'F0', to: 'F1', size: '50', tol: '±1', falls: 'uniform' as const };
  const resolved = resolvePart(part([taper], [length]));
  const [segment] = resolved.segments;
  if (segment?.form !== 'taper') throw new Error('no taper');

  test('follows by corners, by derivatives, and by trial', () => {
    const { end } = taperDiameters(segment, solveChains(resolved));
    expect([end?.min, end?.max]).toEqual([19.7 * MM, 20.3 * MM]);
    const rss = followingRss(resolved, segment);
    expect(Number(rss?.middle) / MM).toBeCloseTo(20, 9);
    expect(Number(rss?.half) / MM).toBeCloseTo(Math.hypot(0.1, 0.2), 9);
    const { mean, deviation } = lastOf(followingMaker(resolved, segment));
    expect(mean / MM).toBeCloseTo(20, 2);
    expect(deviation / MM).toBeCloseTo(Math.hypot(uniform(0.1), uniform(0.2)), 3);
  });

  test('grows with the length where the given one is the small one', () => {
    expect(followingOf({ ...segment, large: 'end' })?.slope).toBeCloseTo(0.2, 12);
    expect(lastOf(followingMaker(resolved, { ...segment, large: 'end' })).mean / MM).toBeCloseTo(40, 2);
  });

  // A second length of the same two faces, ±0.25: pieces beyond it are thrown away, and a quarter of the even ones stay.
  test('is tried with the lengths that sort out where several ways lead along it', () => {
    const tight = { ...length, id: 'L2', tol: '±.25' };
    const doubled = resolvePart(part([taper], [length, tight]));
    expect(followingRss(doubled, segment)).toBeNull();
    const { kept, made, deviation } = lastOf(followingMaker(doubled, segment));
    expect(kept / made).toBeCloseTo(0.25, 2);
    expect(deviation / MM).toBeCloseTo(Math.hypot(uniform(0.1), uniform(0.05)), 3);
  });

  test('does not follow where both ends are given, or no angle', () => {
    const size = segment.start;
    expect(followingOf({ ...segment, end: size })).toBeNull();
    expect(followingOf({ ...segment, angle: null })).toBeNull();
  });
});

describe('matched diameters', () => {
  const land = (id: string, tol: string): Segment => ({
    ...{ id, form: 'cylinder', falls: 'uniform' },
    diameter: { size: '20', tol },
  });
  const made = (tol: string, hold: number) =>
    lastOf(
      matchedMaker(resolvePart(part([land('s1', '±.1'), land('s2', tol)], [])), ['s1', 's2'], hold * MM),
    );

  // The difference of two is the error of the second alone: the mean of |x| for a normal x is √(2/π) σ, 0.98794 of that where it is cut
  // at 3 σ ((1 - e^-4.5) / (2 Φ(3) - 1) of it).
  test('differ by what the second is held to, not by their limits', () => {
    const { kept, mean } = made('±1', 0.03);
    expect(kept).toBe(100_000);
    const cut = (1 - Math.exp(-4.5)) / 0.9973002;
    expect(mean / MM).toBeCloseTo(0.01 * Math.sqrt(2 / Math.PI) * cut, 4);
  });

  test('are thrown away where the second comes out of its own limits', () => {
    const { kept, made: all } = made('±.05', 0.000001);
    expect(kept / all).toBeCloseTo(0.5, 2);
  });

  test('are tried for two cylinders at least', () => {
    expect(matchedMaker(resolvePart(part([land('s1', '±.1')], [])), ['s1'], MM)).toBeNull();
  });
});
