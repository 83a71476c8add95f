// Monte Carlo beside a statistics library, simple-statistics, on the very same pieces, and beside closed forms.
import {
  mean,
  max,
  min,
  quantile,
  sampleKurtosis,
  sampleSkewness,
  sampleStandardDeviation,
} from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { distributionOfSum, quantileOf } from '../../src/core/stacks/convolution.ts';
import type { Part } from '../../src/core/stacks/convolution.ts';
import { runMonteCarlo } from '../../src/core/stacks/monte-carlo.ts';

const SAMPLES = 100_000;

/** The account of a stack of lengths, and every piece that went into it. */
function trial(parts: readonly Part[], seed: number) {
  const pieces: number[] = [];
  const value = (sizes: Float64Array): number => {
    const sum = parts.reduce((so, { sign }, i) => so + sign * (sizes[i] ?? NaN), 0);
    pieces.push(sum);
    return sum;
  };
  return { pieces, found: runMonteCarlo({ parts, value, min: -1, max: 1, samples: SAMPLES, seed }) };
}

const part = (kind: Part['kind'], half = 1, middle = 0, sign: 1 | -1 = 1): Part => ({
  kind,
  half,
  middle,
  sign,
});
const stacks: [name: string, parts: Part[]][] = [
  ['one normal length', [part('normal', 0.02, 12)]],
  ['a uniform length less another', [part('uniform', 0.5, 40), part('uniform', 0.25, 39.5, -1)]],
  [
    'ten lengths of all kinds',
    Array.from({ length: 10 }, (_, i) =>
      part(
        (['normal', 'uniform', 'metal-safe', 'uncut'] as const)[i % 4] ?? 'normal',
        0.01 * (i + 1),
        i,
        i % 3 === 0 ? -1 : 1,
      ),
    ),
  ],
];

describe('the account of pieces is that of the library', () => {
  test.each(stacks)('%s', (_name, parts) => {
    const { pieces, found } = trial(parts, 5);
    expect(pieces).toHaveLength(SAMPLES);
    expect(found.mean).toBeCloseTo(mean(pieces), 9);
    expect(found.deviation / sampleStandardDeviation(pieces)).toBeCloseTo(1, 9);
    expect([found.least, found.greatest]).toEqual([min(pieces), max(pieces)]);
    expect(found.share).toBe(pieces.filter((piece) => piece >= -1 && piece <= 1).length / SAMPLES);
    // The plain sum is worked in another way, from the same figures in another order: alike within the chance of both.
    const plain = runMonteCarlo({ parts, min: -1, max: 1, samples: SAMPLES, seed: 6 });
    const error = found.deviation / Math.sqrt(SAMPLES);
    expect(Math.abs(plain.mean - mean(pieces)) / error).toBeLessThan(6);
  });

  test.each(stacks)('quantiles of %s lie where the convolution has them', (_name, parts) => {
    const { pieces, found } = trial(parts, 7);
    const sum = distributionOfSum(parts);
    for (const p of [0.01, 0.1, 0.5, 0.9, 0.99]) {
      // Four standard errors of a quantile at the thinnest of these densities are under a twentieth of the deviation.
      expect(Math.abs(quantile(pieces, p) - quantileOf(sum, p)) / found.deviation).toBeLessThan(0.05);
    }
  });
});

// Closed forms. Skewness and excess kurtosis: uniform 0 and -6/5; a right-angled triangle with its peak at the upper limit -2√2/5 and
// -3/5; normal 0 and 0; a sum of n alike has them divided by √n and by n. Deviations: half/√3, half √2/3, half/3.
describe('moments beside closed forms', () => {
  const forms: [kind: Part['kind'], mean: number, deviation: number, skewness: number, kurtosis: number][] = [
    ['uniform', 0, 1 / Math.sqrt(3), 0, -6 / 5],
    ['metal-safe', 1 / 3, Math.SQRT2 / 3, (-2 * Math.SQRT2) / 5, -3 / 5],
    ['uncut', 0, 1 / 3, 0, 0],
  ];
  for (const count of [1, 4]) {
    test.each(forms)(`${count} of %s`, (kind, middle, deviation, skewness, kurtosis) => {
      const { pieces } = trial(
        Array.from({ length: count }, () => part(kind)),
        11,
      );
      const sigma = deviation * Math.sqrt(count);
      // Four standard errors: σ/√n, σ/√(2n), √(6/n), √(24/n) for normal pieces, less for the others.
      expect(Math.abs(mean(pieces) - count * middle)).toBeLessThan((4 * sigma) / Math.sqrt(SAMPLES));
      expect(Math.abs(sampleStandardDeviation(pieces) / sigma - 1)).toBeLessThan(4 / Math.sqrt(2 * SAMPLES));
      expect(Math.abs(sampleSkewness(pieces) - skewness / Math.sqrt(count))).toBeLessThan(
        4 * Math.sqrt(6 / SAMPLES),
      );
      expect(Math.abs(sampleKurtosis(pieces) - kurtosis / count)).toBeLessThan(4 * Math.sqrt(24 / SAMPLES));
    });
  }
});
