import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { distributionOfSum, quantileOf, shareWithin } from '../../src/core/stacks/convolution.ts';
import type { Part } from '../../src/core/stacks/convolution.ts';
import type { DistributionKind } from '../../src/core/stacks/distribution.ts';
import { rssOf, worstOf } from '../../src/core/stacks/sums.ts';

type Case = {
  id: string;
  title: string;
  source: string;
  terms: { name: string; sign: 1 | -1; nominal: number; upper: number; lower: number; times: number }[];
  requirement: { min?: number; max?: number } | null;
};

const file = new URL('./data/stack-cases.json', import.meta.url);
const cases: Case[] = JSON.parse(readFileSync(file, 'utf8'));

/** The parts of a case; a link that counts twice on one piece is one part twice as wide. */
function partsOf(id: string, kind: DistributionKind = 'normal'): Part[] {
  const found = cases.find((one) => one.id === id);
  if (!found) throw new Error(`no case ${id}`);
  return found.terms.map(({ sign, nominal, upper, lower, times }) => ({
    sign,
    middle: times * (nominal + (upper + lower) / 2),
    half: (times * (upper - lower)) / 2,
    kind,
  }));
}

// What the source prints (as listed in data/stack-cases.json, source to each case): which figure, and to how many decimals.
const printed: [
  id: string,
  figure: 'middle' | 'half' | 'min' | 'max' | 'rss',
  value: number,
  decimals: number,
][] = [
  ['S01', 'middle', 0.02, 9],
  ['S01', 'half', 0.018, 9],
  ['S02', 'middle', 2, 9],
  ['S02', 'rss', 0.012, 3],
  ['S02', 'half', 0.02, 9],
  ['S03', 'min', 0.125, 9],
  ['S04', 'rss', 3 * 5, 9],
  ['S05a', 'middle', 3.5, 9],
  ['S05a', 'half', 0.015, 9],
  ['S05a', 'max', 3.515, 9],
  ['S05b', 'half', 0.01, 9],
  ['S06', 'half', 1, 9],
  ['S06', 'rss', 0.316, 3],
  ['S07', 'min', -0.02, 9],
  ['S08', 'max', 0.1, 9],
  ['S09', 'min', 0.015, 9],
  ['S10', 'max', 29.03, 9],
  ['S12', 'max', 3.3, 9],
  ['S14', 'half', 0.0245, 9],
  ['S15', 'half', 0.0035, 9],
  ['S15', 'rss', 0.0023, 4],
  ['S17', 'min', -0.005, 9],
  ['S17', 'max', 0.015, 9],
];

describe('worked stacks', () => {
  test.each(printed)('%s: %s is %d', (id, figure, value, decimals) => {
    const parts = partsOf(id);
    const { min, max } = worstOf(parts);
    const rss = rssOf(parts);
    const figures = { min, max, middle: (min + max) / 2, half: (max - min) / 2, rss: rss.half };
    expect(figures[figure]).toBeCloseTo(value, decimals);
  });

  test.each(cases)(
    '$id: the distribution lies within the worst case, and its middle is the middle of the limits',
    ({ id }) => {
      const parts = partsOf(id, 'uniform');
      const sum = distributionOfSum(parts);
      const { min, max } = worstOf(parts);
      expect(shareWithin(sum, min, max)).toBeCloseTo(1, 9);
      expect(quantileOf(sum, 0.5)).toBeCloseTo((min + max) / 2, 6);
    },
  );

  // S11, lecture note: two cubes of 1.000 ±.005 do not give 2.000 ±.005 by either method.
  test('S11: the wanted limits are missed by worst case and by root-sum-square', () => {
    const parts = partsOf('S11');
    expect(worstOf(parts).max).toBeGreaterThan(2.005);
    expect(rssOf(parts).middle + rssOf(parts).half).toBeGreaterThan(2.005);
  });

  // S16, Montgomery, from memory: 0.98172 inside (z rounded to 2.36); exactly 2Φ(2.357023) - 1 = 0.981578.
  test('S16: the share inside 12.00 ±0.10 by plain normal parts', () => {
    const share = shareWithin(distributionOfSum(partsOf('S16', 'uncut')), 11.9, 12.1);
    expect(share).toBeCloseTo(0.98172, 3);
    expect(share).toBeCloseTo(0.981578, 5);
  });
});
