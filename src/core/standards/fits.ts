import { minus } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import type { Outcome } from '../problem.ts';
import { classDeviations, readFitClass } from './iso286.ts';
import type { Deviations, FitClass } from './iso286.ts';
import { refuse } from './refuse.ts';

/** A hole and a shaft of one nominal size, and how they go together. Clearance is negative where they interfere. */
export type FitPair = {
  readonly designation: string;
  readonly hole: Deviations;
  readonly shaft: Deviations;
  readonly clearance: { readonly min: Length; readonly max: Length };
  readonly kind: 'clearance' | 'transition' | 'interference';
  /** How it goes together by hand: common practice, no source; null for pairs without a usual word. */
  readonly feel: string | null;
};

/** Usual words for a shaft in an H hole of its own grade or one coarser. */
const FEEL: ReadonlyMap<string, string> = new Map([
  ['d', 'loose running'],
  ['e', 'easy running'],
  ['f', 'running'],
  ['g', 'slides without shake'],
  ['h', 'slides when oiled'],
  ['j', 'push by hand'],
  ['js', 'push by hand'],
  ['k', 'light tap'],
  ['m', 'tap with a mallet'],
  ['n', 'drive'],
  ['p', 'light press'],
  ['r', 'press'],
  ['s', 'hard press or shrink'],
]);

/** Reads a pair such as `H7/g6`, `g6/H7` or `H7-g6`. Reports `fit-unreadable` unless it is one hole and one shaft. */
export function readFitPair(text: string): Outcome<{ readonly hole: FitClass; readonly shaft: FitClass }> {
  const parts = text.split(/[/-]/);
  const [first, second] = parts.map(readFitClass);
  if (first && !first.ok) return first;
  if (second && !second.ok) return second;
  if (parts.length !== 2 || !first?.ok || !second?.ok || first.value.hole === second.value.hole) {
    return refuse('fit-unreadable', `“${text.trim()}” is not a hole and a shaft, such as H7/g6.`, { text });
  }
  const [hole, shaft] = first.value.hole ? [first.value, second.value] : [second.value, first.value];
  return { ok: true, value: { hole, shaft } };
}

/**
 * A hole and a shaft of one nominal size by their classes (`H7/g6`), with the range of clearance.
 * Reports what `readFitPair` and `fitDeviations` report.
 */
export function fitPair(nominal: Length, text: string): Outcome<FitPair> {
  const pair = readFitPair(text);
  if (!pair.ok) return pair;
  const hole = classDeviations(nominal, pair.value.hole);
  if (!hole.ok) return hole;
  const shaft = classDeviations(nominal, pair.value.shaft);
  if (!shaft.ok) return shaft;
  const min = minus(hole.value.lower, shaft.value.upper);
  const max = minus(hole.value.upper, shaft.value.lower);
  const name = ({ letter, grade }: FitClass): string => `${letter}${grade}`;
  return {
    ok: true,
    value: {
      designation: `${name(pair.value.hole)}/${name(pair.value.shaft)}`,
      hole: hole.value,
      shaft: shaft.value,
      clearance: { min, max },
      kind: min >= 0 ? 'clearance' : max <= 0 ? 'interference' : 'transition',
      feel: feelOf(pair.value.hole, pair.value.shaft),
    },
  };
}

/** The words hold for H holes up to IT9; a coarser pair is too wide to have one feel. */
function feelOf(hole: FitClass, shaft: FitClass): string | null {
  return hole.letter === 'H' && hole.grade <= 9 && shaft.grade <= 9 ? (FEEL.get(shaft.letter) ?? null) : null;
}
