// How often the right length comes first: 1 000 random sound drawings, each with one misread of a stated kind planted.
import { describe, expect, test } from 'vitest';
import { measure, share } from './suspect-scores.ts';
import type { Drawings } from './suspect-scores.ts';

const drawings: [name: string, drawings: Drawings][] = [
  [
    'two to four lengths too many, faces traced to 2 % of the length',
    { seed: 1, scale: 0.02, extra: [2, 4] },
  ],
  ['two to four lengths too many, faces sketched without scale', { seed: 2, scale: null, extra: [2, 4] }],
  ['one length too many, faces traced to 2 % of the length', { seed: 3, scale: 0.02, extra: [1, 1] }],
  ['one length too many, faces sketched without scale', { seed: 4, scale: null, extra: [1, 1] }],
];

describe('1 000 sound drawings, nothing suspected; one misread in each, and the right length comes first in 80 %', () => {
  test.each(drawings)('%s', { timeout: 60_000 }, (_name, given) => {
    const { scores, suspectedSound } = measure(1000, given);
    expect(suspectedSound).toBe(0);
    expect(share(scores)).toBeGreaterThanOrEqual(0.8);
  });
});
