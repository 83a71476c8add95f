import type { Part } from './convolution.ts';
import { randomFill } from './random.ts';
import { addDrawn, samplerTable } from './sampler.ts';

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
/** Samples made at once. */
const BLOCK = 1000;

/**
 * Tries pieces at random, in batches: each step of the iterator is a report of all that is done so far, the last one complete. Stop stepping
 * to cancel. The same seed gives the same pieces. For what is not a plain sum; for sums `distributionOfSum` is exact to its grid.
 * Moments are taken about the first piece, which keeps them free of cancellation; the interval is Wilson's score interval.
 * Source: Wilson, J. Am. Stat. Assoc. 22 (1927) 209.
 */
export function* monteCarlo(experiment: Experiment): Generator<Trial> {
  const { min, max, samples } = experiment;
  const make = makerOf(experiment);
  const block = new Float64Array(BLOCK);
  let about = NaN;
  let [done, sum, squares, good, least, greatest] = [0, 0, 0, 0, Infinity, -Infinity];
  while (done < samples) {
    const end = Math.min(samples, done + BATCH);
    while (done < end) {
      const values = block.subarray(0, Math.min(BLOCK, end - done));
      make(values);
      if (done === 0) about = values[0] as number;
      for (const value of values) {
        const off = value - about;
        sum += off;
        squares += off * off;
        if (value >= min && value <= max) good++;
        if (value < least) least = value;
        if (value > greatest) greatest = value;
      }
      done += values.length;
    }
    const deviation = done > 1 ? Math.sqrt(Math.max(0, squares - (sum * sum) / done) / (done - 1)) : 0;
    yield {
      done,
      mean: about + sum / done,
      deviation,
      share: good / done,
      interval: wilson(good, done),
      least,
      greatest,
    };
  }
}

/** All samples at once. */
export function runMonteCarlo(experiment: Experiment): Trial {
  let last: Trial | null = null;
  for (const trial of monteCarlo(experiment)) last = trial;
  if (!last) throw new RangeError(`runMonteCarlo: expected at least one sample, got ${experiment.samples}`);
  return last;
}

/** Fills a list with the values of so many random pieces. Worked part by part, which is much faster than piece by piece. */
type Maker = (values: Float64Array) => void;

function makerOf({ parts, value, seed }: Experiment): Maker {
  const fill = randomFill(seed);
  const bits = new Uint32Array(BLOCK);
  const samplers = new Map(parts.map(({ kind }) => [kind, samplerTable(kind)]));
  const add = ({ kind }: Part, factor: number, values: Float64Array): void => {
    const from = samplers.get(kind);
    const wanted = bits.subarray(0, values.length);
    fill(wanted);
    if (from) addDrawn(from, factor, wanted, values);
  };
  if (!value) {
    const middle = parts.reduce((sum, part) => sum + part.sign * part.middle, 0);
    return (values) => {
      values.fill(middle);
      for (const part of parts) add(part, part.sign * part.half, values);
    };
  }
  const sizes = new Float64Array(parts.length);
  return (values) => {
    const lists = parts.map((part) => {
      const list = new Float64Array(values.length).fill(part.middle);
      add(part, part.half, list);
      return list;
    });
    for (let k = 0; k < values.length; k++) {
      lists.forEach((list, i) => (sizes[i] = list[k] as number));
      values[k] = value(sizes);
    }
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
