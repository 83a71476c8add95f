import type { Part } from './convolution.ts';
import { seededRandom } from './random.ts';
import { sampler } from './sampler.ts';

/** What is to be tried out. */
export type Experiment = {
  /** What varies; `sign` is left to `value`. */
  readonly parts: readonly Part[];
  /** The result of one piece, from its sizes in the order of `parts`; the signed sum where left out. */
  readonly value?: (sizes: Float64Array) => number;
  /** What counts as good, limits included. */
  readonly min: number;
  readonly max: number;
  readonly samples: number;
  readonly seed: number;
};

/** What came of it so far. */
export type Trial = {
  readonly done: number;
  readonly mean: number;
  readonly deviation: number;
  /** Share of good pieces, and the interval that holds the true share with 95 % confidence. */
  readonly share: number;
  readonly interval: readonly [low: number, high: number];
  readonly least: number;
  readonly greatest: number;
};

/** Samples between two reports of progress. */
const BATCH = 50_000;

/**
 * Tries pieces at random, in batches: each step of the iterator is a report of all that is done so far, the last one complete. Stop stepping
 * to cancel. The same seed gives the same pieces. For what is not a plain sum; for sums `distributionOfSum` is exact to its grid.
 * Mean and deviation by Welford's method; the interval is Wilson's score interval.
 * Sources: Welford, Technometrics 4 (1962) 419; Wilson, J. Am. Stat. Assoc. 22 (1927) 209.
 */
export function* monteCarlo(experiment: Experiment): Generator<Trial> {
  const { min, max, samples } = experiment;
  const draw = drawing(experiment);
  let [done, mean, squares, good, least, greatest] = [0, 0, 0, 0, Infinity, -Infinity];
  while (done < samples) {
    for (const end = Math.min(samples, done + BATCH); done < end;) {
      const value = draw();
      const off = value - mean;
      mean += off / ++done;
      squares += off * (value - mean);
      if (value >= min && value <= max) good++;
      if (value < least) least = value;
      if (value > greatest) greatest = value;
    }
    const deviation = done > 1 ? Math.sqrt(squares / (done - 1)) : 0;
    yield { done, mean, deviation, share: good / done, interval: wilson(good, done), least, greatest };
  }
}

/** All samples at once. */
export function runMonteCarlo(experiment: Experiment): Trial {
  let last: Trial | null = null;
  for (const trial of monteCarlo(experiment)) last = trial;
  if (!last) throw new RangeError(`runMonteCarlo: expected at least one sample, got ${experiment.samples}`);
  return last;
}

/** A function that makes one random piece and gives its value. */
function drawing({ parts, value, seed }: Experiment): () => number {
  const random = seededRandom(seed);
  const kinds = new Map(parts.map(({ kind }) => [kind, sampler(kind)]));
  const draws = parts.map(({ kind }) => kinds.get(kind) as (uniform: number) => number);
  const sizes = new Float64Array(parts.length);
  const factors = Float64Array.from(parts, ({ sign, half }) => sign * half);
  const middle = parts.reduce((sum, part) => sum + part.sign * part.middle, 0);
  if (!value) {
    return () => {
      let sum = middle;
      for (let i = 0; i < factors.length; i++) {
        sum += (factors[i] as number) * (draws[i] as (uniform: number) => number)(random());
      }
      return sum;
    };
  }
  return () => {
    parts.forEach((part, i) => {
      sizes[i] = part.middle + part.half * (draws[i] as (uniform: number) => number)(random());
    });
    return value(sizes);
  };
}

/** Interval for a share found as `good` of `count`, at 95 %. */
export function wilson(good: number, count: number): readonly [low: number, high: number] {
  const z = 1.959963984540054;
  const share = good / count;
  const middle = share + (z * z) / (2 * count);
  const half = z * Math.sqrt((share * (1 - share)) / count + (z * z) / (4 * count * count));
  const whole = 1 + (z * z) / count;
  return [Math.max(0, (middle - half) / whole), Math.min(1, (middle + half) / whole)];
}
