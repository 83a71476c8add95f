import { solveChains } from '../../../src/core/chains/solve.ts';
import { misreadPart, slips, soundPart } from './planted-misreads.ts';
import type { Slip } from './planted-misreads.ts';
import { seeded } from './random.ts';

export type Score = { planted: number; first: number };

export type Scores = ReadonlyMap<Slip, Score>;

/** `scale`: how far sketched places lie off, as a share of the length; null where sketched without scale. `extra`: lengths too many. */
export type Drawings = {
  readonly seed: number;
  readonly scale: number | null;
  readonly extra: readonly [number, number];
};

/** Of so many spoilt drawings: how many of each slip, and how often the misread length came first; and sound ones suspected. */
export function measure(
  count: number,
  { seed, scale, extra }: Drawings,
): { scores: Scores; suspectedSound: number } {
  const random = seeded(seed);
  const scores = new Map(slips.map((slip): [Slip, Score] => [slip, { planted: 0, first: 0 }]));
  let suspectedSound = 0;
  for (let n = 0; n < count;) {
    const slip = slips[n % slips.length] ?? 'swapped';
    const part = soundPart(random, scale, extra);
    const sound = solveChains(part).report;
    if (sound.suspects.length > 0 || sound.clashes.length > 0) suspectedSound++;
    const spoilt = misreadPart(random, part, slip, new Set(sound.doubled.flatMap(({ lengths }) => lengths)));
    const report = spoilt && solveChains(spoilt.part).report;
    const score = scores.get(slip);
    if (!spoilt || !score || !report || report.clashes.length === 0) continue;
    n++;
    score.planted++;
    if (report.suspects[0]?.length === spoilt.length) score.first++;
  }
  return { scores, suspectedSound };
}

/** Share of all spoilt drawings in which the misread length came first. */
export const share = (scores: Scores): number => {
  const all = [...scores.values()];
  return all.reduce((sum, { first }) => sum + first, 0) / all.reduce((sum, { planted }) => sum + planted, 0);
};
