import { describe, expect, test } from 'vitest';
import {
  distributionOfSum,
  quantileOf,
  shareBelow,
  shareWithin,
} from '../../../src/core/stacks/convolution.ts';
import type { Part } from '../../../src/core/stacks/convolution.ts';
import { distributions, normalAt, normalBelow } from '../../../src/core/stacks/distribution.ts';
import { runMonteCarlo, monteCarlo, wilson } from '../../../src/core/stacks/monte-carlo.ts';

const part = (kind: Part['kind'], half = 1, middle = 0, sign: 1 | -1 = 1): Part => ({
  sign,
  middle,
  half,
  kind,
});
const many = (count: number, kind: Part['kind']) => Array.from({ length: count }, () => part(kind));

/** Distribution of a sum of n figures from 0 to 1: Irwin (1927) and Hall (1927). */
function irwinHall(n: number, x: number): number {
  let sum = 0;
  let choose = 1;
  let factorial = 1;
  for (let k = 1; k <= n; k++) factorial *= k;
  for (let k = 0; k <= Math.floor(x); k++) {
    sum += (k % 2 === 0 ? 1 : -1) * choose * (x - k) ** n;
    choose = (choose * (n - k)) / (k + 1);
  }
  return sum / factorial;
}

describe('the normal distribution', () => {
  // Abramowitz and Stegun, Handbook of Mathematical Functions, table 26.1.
  const table: [z: number, below: number][] = [
    [0, 0.5],
    [0.5, 0.69146_24612_74013],
    [1, 0.84134_47460_68543],
    [2, 0.97724_98680_51821],
    [3, 0.99865_01019_68370],
    [4, 0.99996_83287_58167],
  ];
  test.each(table)('below %d lies the share %d', (z, below) => {
    expect(normalBelow(z)).toBeCloseTo(below, 14);
    expect(normalBelow(-z)).toBeCloseTo(1 - below, 14);
  });

  test.each([1e-9, 1e-4, 0.00135, 0.2, 0.5, 0.9, 0.9999])('its inverse at %d', (p) => {
    expect(normalBelow(normalAt(p)) / p).toBeCloseTo(1, 9);
  });
});

describe('convolution against closed forms', () => {
  test.each([1, 2, 3, 5, 10])('a sum of %d uniform parts: quantiles within 1e-4 of the spread', (n) => {
    const sum = distributionOfSum(many(n, 'uniform'));
    for (const p of [0.001, 0.01, 0.1, 0.25, 0.5, 0.9, 0.99, 0.999]) {
      const x = quantileOf(sum, p);
      const [low, high] = [x - 2e-4 * n, x + 2e-4 * n].map((edge) =>
        irwinHall(n, Math.min(n, Math.max(0, (edge + n) / 2))),
      );
      expect(p).toBeGreaterThanOrEqual(low ?? NaN);
      expect(p).toBeLessThanOrEqual(high ?? NaN);
    }
  });

  test.each([1, 2, 4, 10])(
    'a sum of %d uncut normal parts is normal: quantiles within 1e-4 of six sigma',
    (n) => {
      const sum = distributionOfSum(many(n, 'uncut'));
      const sigma = Math.sqrt(n) / 3;
      for (const p of [0.00135, 0.02, 0.5, 0.8, 0.99865]) {
        expect(Math.abs(quantileOf(sum, p) - sigma * normalAt(p))).toBeLessThan(1e-4 * 6 * sigma);
      }
    },
  );

  // One normal part cut at three sigma: (Φ(z) - Φ(-3)) / (1 - 2Φ(-3)).
  test('a cut normal part has no tails, and its share is that of the normal between them', () => {
    const sum = distributionOfSum([part('normal', 3)]);
    const below = (z: number) => (normalBelow(z) - normalBelow(-3)) / (1 - 2 * normalBelow(-3));
    for (const z of [-2.5, -1, 0, 0.7, 2]) expect(shareBelow(sum, z)).toBeCloseTo(below(z), 5);
    expect(shareWithin(sum, -3, 3)).toBe(1);
  });

  test('means and variances are those of the parts, also of lopsided ones and with signs', () => {
    const sum = distributionOfSum([
      part('metal-safe', 3, 10),
      part('metal-safe', 6, 4, -1),
      part('uniform', 2, 1),
    ]);
    expect(sum.mean).toBeCloseTo(10 + 1 - (4 + 2) + 1, 12);
    expect(sum.variance).toBeCloseTo((9 * 2) / 9 + (36 * 2) / 9 + 4 / 3, 12);
    let [mass, moment] = [0, 0];
    sum.masses.forEach((m, k) => {
      mass += m;
      moment += m * (sum.start + k * sum.step);
    });
    expect(mass).toBeCloseTo(1, 12);
    expect(moment).toBeCloseTo(sum.mean, 9);
  });

  test('a sum of parts that do not vary is one value', () => {
    const sum = distributionOfSum([part('normal', 0, 5), part('uniform', 0, 2, -1)]);
    expect(quantileOf(sum, 0.5)).toBe(3);
    expect([shareWithin(sum, 3, 4), shareWithin(sum, 2, 3), shareWithin(sum, 3.1, 4)]).toEqual([1, 1, 0]);
  });
});

describe('Monte Carlo', () => {
  const kinds = Object.keys(distributions) as Part['kind'][];

  test.each(kinds)('moments of %s are the closed ones within four standard errors', (kind) => {
    const samples = 200_000;
    const trial = runMonteCarlo({ parts: [part(kind, 2, 7)], min: -9, max: 99, samples, seed: 3 });
    const { mean, variance } = distributions[kind];
    const sigma = 2 * Math.sqrt(variance);
    expect(Math.abs(trial.mean - 7 - 2 * mean)).toBeLessThan((4 * sigma) / Math.sqrt(samples));
    expect(Math.abs(trial.deviation / sigma - 1)).toBeLessThan(4 / Math.sqrt(samples));
  });

  test('it agrees with the convolution, and its interval holds the share in about 95 of 100 runs', () => {
    const parts = [part('normal', 2), part('uniform', 1, 3, -1), part('metal-safe', 1.5)];
    const share = shareWithin(distributionOfSum(parts), -4, -1.5);
    let held = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const { interval } = runMonteCarlo({ parts, min: -4, max: -1.5, samples: 4000, seed });
      if (interval[0] <= share && share <= interval[1]) held++;
    }
    expect(held).toBeGreaterThanOrEqual(180);
    expect(held).toBeLessThanOrEqual(199);
  });

  test('the same seed gives the same pieces, another seed others; progress is told in between', () => {
    const run = (seed: number) => [
      ...monteCarlo({ parts: [part('uniform')], min: 0, max: 1, samples: 120_000, seed }),
    ];
    expect(run(1)).toEqual(run(1));
    expect(run(1).at(-1)?.mean).not.toBe(run(2).at(-1)?.mean);
    expect(run(1).map(({ done }) => done)).toEqual([50_000, 100_000, 120_000]);
  });

  // A product of two uniform figures from 0 to 1 has the mean 1/4 and the variance 7/144.
  test('what is no plain sum is tried out by its own rule', () => {
    const parts = [part('uniform', 0.5, 0.5), part('uniform', 0.5, 0.5)];
    const value = (sizes: Float64Array) => (sizes[0] ?? 0) * (sizes[1] ?? 0);
    const trial = runMonteCarlo({ parts, value, min: 0, max: 0.25, samples: 400_000, seed: 9 });
    expect(trial.mean).toBeCloseTo(0.25, 2);
    expect(trial.deviation ** 2).toBeCloseTo(7 / 144, 3);
    // P(XY <= a) = a (1 - ln a).
    expect(trial.share).toBeCloseTo(0.25 * (1 + Math.log(4)), 2);
  });

  // Wilson's interval for 8 of 10 at 95 %: 0.4902 to 0.9433 (Newcombe, Statistics in Medicine 17 (1998) 857, method 3; from memory).
  test('the interval of a share', () => {
    expect(wilson(8, 10)[0]).toBeCloseTo(0.4902, 4);
    expect(wilson(8, 10)[1]).toBeCloseTo(0.9433, 4);
    expect(wilson(0, 10)[0]).toBe(0);
  });
});
