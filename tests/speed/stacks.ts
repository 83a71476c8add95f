// Run by: node src/tools/run-ts.mjs tests/speed/stacks.ts
// A stack of ten lengths by convolution, with its quantiles beside closed forms; a million pieces beside d3-random and a plain
// Box-Muller, from the same random figures and from Math.random. Least processor time. Ends with code 1 where a goal is missed.
import { randomNormal } from 'd3-random';
import { distributionOfSum, quantileOf } from '../../src/core/stacks/convolution.ts';
import type { Part } from '../../src/core/stacks/convolution.ts';
import { runMonteCarlo } from '../../src/core/stacks/monte-carlo.ts';
import { seededRandom } from '../../src/core/stacks/random.ts';
import { Goals, least, table } from './tools/least.ts';

const goals = new Goals();
const stack = (kind: Part['kind'], halfOf: (i: number) => number, count = 10): Part[] =>
  Array.from({ length: count }, (_, i) => ({ sign: 1, middle: 10, half: halfOf(i), kind }));

/** Share of a sum of n figures from 0 to 1 that is at most x: Irwin (1927) and Hall (1927). */
function irwinHall(n: number, x: number): number {
  let [sum, choose, factorial] = [0, 1, 1];
  for (let k = 1; k <= n; k++) factorial *= k;
  for (let k = 0; k <= Math.floor(x); k++) {
    sum += (k % 2 === 0 ? 1 : -1) * choose * (x - k) ** n;
    choose = (choose * (n - k)) / (k + 1);
  }
  return sum / factorial;
}

function irwinHallAt(n: number, p: number): number {
  let [low, high] = [0, n];
  for (let turn = 0; turn < 60; turn++) {
    const middle = (low + high) / 2;
    if (irwinHall(n, middle) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Ten uniform lengths ±1: the largest error of a quantile, as a share of the spread of 20. */
function uniformError(): number {
  const sum = distributionOfSum(stack('uniform', () => 1));
  const shares = [0.001, 0.01, 0.1, 0.25, 0.5, 0.6, 0.9];
  return Math.max(
    ...shares.map((p) => Math.abs(quantileOf(sum, p) - 100 - (2 * irwinHallAt(10, p) - 10)) / 20),
  );
}

// Quantiles of the standard normal distribution: Abramowitz and Stegun, tables 26.5 and 26.6.
const NORMAL: readonly [p: number, z: number][] = [
  [0.5, 0],
  [0.9, 1.2815515655],
  [0.975, 1.9599639845],
  [0.99, 2.326347874],
  [0.999, 3.0902323062],
];

/** Ten unlike normal lengths: the largest error, as a share of six standard deviations of the sum. */
function normalError(): number {
  const parts = stack('uncut', (i) => 0.01 * (i + 1));
  const sigma = Math.hypot(...parts.map(({ half }) => half / 3));
  const sum = distributionOfSum(parts);
  return Math.max(...NORMAL.map(([p, z]) => Math.abs(quantileOf(sum, p) - 100 - sigma * z) / (6 * sigma)));
}

const convolutions = (['normal', 'uniform', 'metal-safe', 'uncut'] as const).map((kind) => {
  const parts = stack(kind, (i) => 0.01 * (i + 1));
  const ms = least(() => quantileOf(distributionOfSum(parts), 0.00135));
  return [kind, ms.toFixed(2), goals.atMost(`ten ${kind} lengths, ms`, ms, 10)];
});
table(['ten lengths, a quantile', 'ms', 'at most 10'], convolutions);
console.log('');
const errors = [
  ['uniform, Irwin-Hall', uniformError()],
  ['normal, tables', normalError()],
] as const;
table(
  ['quantiles beside', 'largest error / spread', 'at most 1e-4'],
  errors.map(([name, error]) => [name, error.toExponential(1), goals.atMost(name, error, 1e-4)]),
);
console.log('');

const SAMPLES = 1_000_000;

/** The same account of a million pieces as ours gives, each piece made by `piece`. */
function account(
  piece: () => number,
  min: number,
  max: number,
): [mean: number, deviation: number, share: number] {
  let [mean, squares, good] = [0, 0, 0];
  for (let done = 1; done <= SAMPLES; done++) {
    const sum = piece();
    const off = sum - mean;
    mean += off / done;
    squares += off * (sum - mean);
    if (sum >= min && sum <= max) good++;
  }
  return [mean, Math.sqrt(squares / (SAMPLES - 1)), good / SAMPLES];
}

function boxMuller(parts: readonly Part[], random: () => number): () => number {
  const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  return () => {
    let sum = 0;
    for (const { middle, half } of parts) sum += middle + (half / 3) * normal();
    return sum;
  };
}

function byD3(parts: readonly Part[], random: () => number): () => number {
  const from = randomNormal.source(random);
  const draws = parts.map(({ middle, half }) => from(middle, half / 3));
  return () => {
    let sum = 0;
    for (const draw of draws) sum += draw();
    return sum;
  };
}

const rows = [1, 2, 10].flatMap((count) => {
  const parts = stack('uncut', (i) => 0.01 * (i + 1), count);
  const sigma = Math.hypot(...parts.map(({ half }) => half / 3));
  const [min, max] = [10 * count - 2 * sigma, 10 * count + 2 * sigma];
  const trial = runMonteCarlo({ parts, min, max, samples: SAMPLES, seed: 1 });
  const ours = least(() => runMonteCarlo({ parts, min, max, samples: SAMPLES, seed: 1 }), 3);
  const others = [
    ['d3-random, same figures', () => byD3(parts, seededRandom(1))],
    ['d3-random, Math.random', () => byD3(parts, Math.random)],
    ['Box-Muller, same figures', () => boxMuller(parts, seededRandom(1))],
    ['Box-Muller, Math.random', () => boxMuller(parts, Math.random)],
  ] as const;
  return others.map(([name, make]) => {
    const [mean, deviation, share] = account(make(), min, max);
    const apart = Math.abs(mean - trial.mean) / sigma + Math.abs(deviation / trial.deviation - 1);
    if (apart + Math.abs(share - trial.share) > 0.02) throw new Error(`${name}: the two do not agree`);
    const theirs = least(() => account(make(), min, max), 3);
    const ratio = theirs / ours;
    // The goal stands for ten lengths; fewer are shown as well, as what is done once for each piece weighs more there.
    const kept = count === 10 ? goals.atLeast(`ten normal lengths, ${name} / ours`, ratio, 3) : '';
    return [String(count), ours.toFixed(0), name, theirs.toFixed(0), ratio.toFixed(1), kept];
  });
});
table(['normal lengths, 10^6 pieces', 'ours ms', 'beside', 'ms', 'ratio', 'at least 3'], rows);
goals.end();
