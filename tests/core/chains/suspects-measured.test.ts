// How often the right length comes first: 1 000 random sound drawings, each with one misread of a stated kind planted.
import { describe, expect, test } from 'vitest';
import { solveChains } from '../../../src/core/chains/solve.ts';
import { misreadPart, slips, soundPart } from './planted-misreads.ts';
import type { Slip } from './planted-misreads.ts';
import { seeded } from './random.ts';

type Score = { planted: number; first: number };

type Drawings = {
  readonly seed: number;
  readonly scale: number | null;
  readonly extra: readonly [number, number];
};

/** Of so many spoilt drawings: how many of each slip, and how often the misread length came first. */
function measure(count: number, { seed, scale, extra }: Drawings): Map<Slip, Score> {
  const random = seeded(seed);
  const scores = new Map(slips.map((slip): [Slip, Score] => [slip, { planted: 0, first: 0 }]));
  for (let n = 0; n < count;) {
    const slip = slips[n % slips.length] ?? 'swapped';
    const part = soundPart(random, scale, extra);
    const sound = solveChains(part).report;
    expect(sound.suspects).toEqual([]);
    expect(sound.clashes).toEqual([]);
    const spoilt = misreadPart(random, part, slip, new Set(sound.doubled.flatMap(({ lengths }) => lengths)));
    const report = spoilt && solveChains(spoilt.part).report;
    const score = scores.get(slip);
    if (!spoilt || !score || !report || report.clashes.length === 0) continue;
    n++;
    score.planted++;
    if (report.suspects[0]?.length === spoilt.length) score.first++;
  }
  return scores;
}

const share = (scores: Map<Slip, Score>) => {
  const all = [...scores.values()];
  return all.reduce((sum, { first }) => sum + first, 0) / all.reduce((sum, { planted }) => sum + planted, 0);
};

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
    const scores = measure(1000, given);
    console.info(_name, share(scores), JSON.stringify([...scores]));
    expect(share(scores)).toBeGreaterThanOrEqual(0.8);
  });
});
