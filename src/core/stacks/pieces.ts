import { wilson } from './monte-carlo.ts';
import { randomBits } from './random.ts';

/** Makes one piece from random whole numbers of 32 bits: what is looked at on it, in pm, or null where it is thrown away. */
export type PieceMaker = (bits: () => number) => number | null;

export type PieceOrder = {
  /** What counts as good, limits included, and between which values pieces are counted in bins; in pm. */
  readonly min: number;
  readonly max: number;
  readonly range: readonly [low: number, high: number];
  readonly bins: number;
  /** Pieces kept at the end. Fifty times as many are made at most. */
  readonly samples: number;
  readonly seed: number;
};

/** What came of it so far. Everything but `made` counts kept pieces only. */
export type PieceTrial = {
  readonly made: number;
  readonly kept: number;
  readonly mean: number;
  readonly deviation: number;
  readonly share: number;
  readonly interval: readonly [low: number, high: number];
  readonly counts: readonly number[];
  readonly finished: boolean;
};

const BATCH = 20_000;
const MOST_MADE = 50;

/**
 * Makes pieces at random, in batches: each step is a report of all that is done so far. Stop stepping to cancel. The same seed gives
 * the same pieces. Mean, deviation, share and its 95 % interval (Wilson's) are those of the pieces kept.
 * Sources: Welford, Technometrics 4 (1962) 419; Wilson, J. Am. Stat. Assoc. 22 (1927) 209.
 */
export function* makePieces(make: PieceMaker, order: PieceOrder): Generator<PieceTrial> {
  const { min, max, range, bins, samples, seed } = order;
  const bits = randomBits(seed);
  const counts = new Array<number>(bins).fill(0);
  const [low, high] = range;
  let [made, kept, mean, squares, good] = [0, 0, 0, 0, 0];
  while (kept < samples && made < samples * MOST_MADE) {
    for (let n = 0; n < BATCH && kept < samples; n++) {
      made++;
      const value = make(bits);
      if (value === null) continue;
      const off = value - mean;
      mean += off / ++kept;
      squares += off * (value - mean);
      if (value >= min && value <= max) good++;
      const bin = Math.min(bins - 1, Math.max(0, Math.floor(((value - low) / (high - low)) * bins)));
      counts[bin] = (counts[bin] ?? 0) + 1;
    }
    yield {
      ...{ made, kept, mean, counts: [...counts] },
      deviation: kept > 1 ? Math.sqrt(squares / (kept - 1)) : 0,
      share: kept > 0 ? good / kept : 0,
      interval: kept > 0 ? wilson(good, kept) : [0, 1],
      finished: kept >= samples || made >= samples * MOST_MADE,
    };
  }
}
