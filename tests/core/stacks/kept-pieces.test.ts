import { describe, expect, test } from 'vitest';
import { resolvePart } from '../../../src/core/part/resolve.ts';
import type { Part, PartLength } from '../../../src/core/part/types.ts';
import { keptExperiment, keptMaker, measuredMaker } from '../../../src/core/stacks/kept-pieces.ts';
import { makePieces, type PieceMaker, type PieceTrial } from '../../../src/core/stacks/pieces.ts';

const MM = 1e9;
const face = (id: string, sketched: number) => ({ id, sketched });
const part = (lengths: PartLength[]): Part => ({
  shaftwright: 1,
  title: '',
  unit: 'mm',
  faces: [face('A', 0), face('B', 10), face('C', 30)],
  segments: [
    { id: 's1', form: 'cylinder', diameter: '10' },
    { id: 's2', form: 'cylinder', diameter: '12' },
  ],
  points: [],
  lengths,
  edges: [],
  holes: [],
  crossings: [],
  requirements: [],
  matched: [],
});
const length = (id: string, from: string, to: string, size: string, tol: string) => ({
  ...{ id, from, to, size, tol },
  falls: 'uniform' as const,
});
/** The last report of pieces counted between two limits in mm. */
function lastOf(make: PieceMaker, [low, high]: readonly [number, number], samples = 200_000): PieceTrial {
  const [min, max] = [low * MM, high * MM];
  const order = { min, max, range: [min, max] as const, bins: 10, samples, seed: 7 };
  return [...makePieces(make, order)].at(-1) as PieceTrial;
}
/** Two lengths of ±1 and the sum of both again, ±1; each falls anywhere alike. */
const doubled = resolvePart(
  part([
    length('L1', 'A', 'B', '10', '±1'),
    length('L2', 'B', 'C', '20', '±1'),
    length('L3', 'A', 'C', '30', '±1'),
  ]),
);

function tried(
  from: string,
  to: string,
  gate: [number, number],
  more: { seed?: number; samples?: number } = {},
) {
  const experiment = keptExperiment(doubled, from, to);
  if (!experiment) throw new Error('nothing ties them');
  const [min, max] = [gate[0] * MM, gate[1] * MM];
  const order = { min, max, range: [min, max] as const, bins: 10, samples: 200_000, seed: 7, ...more };
  const trials = [...makePieces(keptMaker(doubled, experiment), order)];
  return { experiment, trials, last: trials.at(-1) as PieceTrial };
}

describe('pieces with a doubled length', () => {
  test('are worked to the lengths on the way, the others sort out', () => {
    expect(keptExperiment(doubled, 'A', 'C')?.worked).toEqual(['L3', 'L1']);
    expect(keptExperiment(doubled, 'A', 'C')?.sorting).toEqual(['L2']);
    expect(keptExperiment(doubled, 'B', 'C')?.worked).toEqual(['L2', 'L1']);
    expect(keptExperiment(doubled, 'A', 'nowhere')).toBeNull();
  });

  // With x and y even over ±1 and |y - x| <= 1 kept: the square less two triangles of half each is 3 of 4. The density of y
  // kept is (2 - |y|) / 3, its variance 2 ∫ y² (2 - y) / 3 dy from 0 to 1 = 5/18, and P(|y| <= 1/2) = 2 ∫ (2 - y) / 3 dy from 0 to
  // 1/2 = 7/12. By hand.
  test('agree with the closed form for even distributions', () => {
    const { last } = tried('A', 'C', [29.5, 30.5]);
    expect(last.kept / last.made).toBeCloseTo(3 / 4, 2);
    expect(last.mean / MM).toBeCloseTo(30, 2);
    expect((last.deviation / MM) ** 2).toBeCloseTo(5 / 18, 2);
    expect(last.interval[0]).toBeLessThan(7 / 12);
    expect(last.interval[1]).toBeGreaterThan(7 / 12);
    expect(last.interval[1] - last.interval[0]).toBeLessThan(0.005);
  });

  test('the interval holds the true share about 95 times in 100', () => {
    const runs = Array.from(
      { length: 200 },
      (_, seed) => tried('A', 'C', [29.5, 30.5], { seed, samples: 2000 }).last,
    );
    const held = runs.filter(({ interval: [low, high] }) => low <= 7 / 12 && 7 / 12 <= high).length;
    expect(held).toBeGreaterThanOrEqual(180);
    expect(held).toBeLessThanOrEqual(199);
  });

  test('are the same for the same seed, reported as they come, each in one bin', () => {
    const { trials, last } = tried('A', 'C', [29, 31]);
    expect(trials.length).toBeGreaterThan(5);
    expect(trials.filter(({ finished }) => finished)).toEqual([last]);
    expect(tried('A', 'C', [29, 31]).last).toEqual(last);
    expect(tried('A', 'C', [29, 31], { seed: 8 }).last.mean).not.toBe(last.mean);
    expect(last.counts.reduce((sum, count) => sum + count, 0)).toBe(last.kept);
  });

  test('come to an end where hardly any can be kept', () => {
    const clashing = resolvePart(
      part([
        length('L1', 'A', 'B', '10', '±0.1'),
        length('L2', 'B', 'C', '20', '±0.1'),
        length('L3', 'A', 'C', '31', '±0.1'),
      ]),
    );
    const experiment = keptExperiment(clashing, 'A', 'C');
    if (!experiment) throw new Error('nothing ties them');
    const last = lastOf(keptMaker(clashing, experiment), [0, 1], 1000);
    expect(last).toMatchObject({ kept: 0, interval: [0, 1], finished: true });
  });
});

describe('pieces measured on the way', () => {
  const plain = resolvePart(part([length('L1', 'A', 'B', '10', '±1'), length('L2', 'B', 'C', '20', '±1')]));
  const measured = (goal: number, hold: number): PieceMaker => {
    const experiment = keptExperiment(plain, 'A', 'C');
    if (!experiment) throw new Error('nothing ties them');
    return measuredMaker(plain, experiment, { goal: goal * MM, hold: hold * MM });
  };

  // The second length makes the first good, so that only its own error is left: a normal one cut at three of its deviations, whose
  // deviation is 0.98658 of the uncut one's (variance 1 - 6 φ(3) / (2 Φ(3) - 1) = 0.97334, tables of the normal distribution).
  test('come out as near to the goal as the last length is held', () => {
    const last = lastOf(measured(30, 0.3), [29.7, 30.3]);
    expect(last.share).toBe(1);
    expect(last.mean / MM).toBeCloseTo(30, 3);
    expect(last.deviation / MM).toBeCloseTo(0.1 * Math.sqrt(0.97334), 3);
  });

  // Each may be aimed 0.7 off its middle at most, 1.4 together: a goal 2 off is missed by 0.6, and both errors are left.
  test('are aimed no further off than the limits of each length allow', () => {
    const last = lastOf(measured(32, 0.3), [31, 32]);
    expect(last.mean / MM).toBeCloseTo(31.4, 3);
    expect(last.deviation / MM).toBeCloseTo(0.1 * Math.sqrt(2 * 0.97334), 3);
  });
});
