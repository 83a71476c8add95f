import type { Origin } from './origin.ts';

export const deviationsOrigin: Origin = {
  source: 'ISO 286-1, fundamental deviations of shafts, as printed in published extracts',
  provenance: 'published',
};

/** Upper ends of the size steps in mm; a step runs over the end before it, up to and including its own. */
const MAIN = [3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500];
const FINE = [3, 6, 10, 18, 30, 50, 65, 80, 100, 120, 140, 160, 180];

/** Fundamental deviations of a shaft letter in micrometres. A size beyond its last value is not in the table. */
export type ShaftLetter = {
  /** Which side of the zone the value bounds: `es` from above, `ei` from below. */
  readonly bound: 'es' | 'ei';
  /** Grades for which the values hold; null: all. */
  readonly grades: readonly [number, number] | null;
  readonly upTo: readonly number[];
  readonly values: readonly number[];
};

const above = (values: readonly number[]): ShaftLetter => ({ bound: 'es', grades: null, upTo: MAIN, values });
const below = (
  values: readonly number[],
  grades: readonly [number, number] | null = null,
  upTo: readonly number[] = MAIN,
): ShaftLetter => ({ bound: 'ei', grades, upTo, values });

export const shaftLetters: ReadonlyMap<string, ShaftLetter> = new Map([
  ['d', above([-20, -30, -40, -50, -65, -80, -100, -120, -145, -170, -190, -210, -230])],
  ['e', above([-14, -20, -25, -32, -40, -50, -60, -72, -85, -100, -110, -125, -135])],
  ['f', above([-6, -10, -13, -16, -20, -25, -30, -36, -43, -50, -56, -62, -68])],
  ['g', above([-2, -4, -5, -6, -7, -9, -10, -12, -14, -15, -17, -18, -20])],
  ['h', above([0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0])],
  ['j', below([-2, -2, -2, -3, -4, -5, -7, -9], [5, 6])],
  ['k', below([0, 1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 5], [4, 7])],
  ['m', below([2, 4, 6, 7, 8, 9, 11, 13, 15])],
  ['n', below([4, 8, 10, 12, 15, 17, 20, 23, 27])],
  ['p', below([6, 12, 15, 18, 22, 26, 32, 37, 43])],
  ['r', below([10, 15, 19, 23, 28, 34, 41, 43, 51, 54, 63, 65, 68], null, FINE)],
  ['s', below([14, 19, 23, 28, 35, 43, 53, 59, 71, 79, 92, 100, 108], null, FINE)],
]);
