import type { Outcome } from '../problem.ts';
import type { StrayReason } from './scan.ts';

/** Why a text is no size, tolerance or angle. */
export type RefusalReason =
  | StrayReason
  | 'empty'
  | 'too-long'
  | 'expected-figure'
  | 'negative'
  | 'over-nothing'
  | 'improper'
  | 'not-whole'
  | 'too-large'
  | 'unmarked-limits'
  | 'two-units'
  | 'unit-unclear'
  | 'one-sided'
  | 'unsigned'
  | 'left-over'
  | 'not-angle'
  | 'out-of-range';

/** A reason with its place in the text: `at` counts from 0, `end` is one past the last character. */
export type Refusal = { readonly refused: RefusalReason; readonly at: number; readonly end: number };

export const isRefusal = (value: object): value is Refusal => 'refused' in value;

export const refuse = (refused: RefusalReason, { at, end }: { at: number; end: number }): Refusal => ({
  refused,
  at,
  end,
});

/** Longer texts are refused unread: nobody writes one on a drawing, and reading stays quick whatever is pasted. */
export const LONGEST_TEXT = 100;

const why: Readonly<Record<RefusalReason, string>> = {
  stray: 'this sign means nothing here',
  marks: 'a number has more than one decimal mark',
  'no-digits': 'a decimal mark stands without a digit',
  feet: 'a foot mark is not read; write the size in inches or millimetres',
  'unknown-word': 'this is neither a unit (in, thou, mm) nor a tolerance class',
  bracket: 'brackets are not read; a bracketed size has the role "reference"',
  empty: 'nothing is written',
  'too-long': `more than ${LONGEST_TEXT} characters`,
  'expected-figure': 'a figure is missing',
  negative: 'a size cannot be negative',
  'over-nothing': 'a fraction over 0 is no number',
  improper: 'the fraction beside a whole number is 1 or more',
  'not-whole': 'it is no whole number of picometres, so it cannot be held exactly',
  'too-large': 'it is over 10 m',
  'unmarked-limits':
    'two limits need a decimal mark in one of them at least; without one a solidus is a fraction',
  'two-units': 'one size is written in two units',
  'unit-unclear': 'the tolerance has a unit and the size has none; write the unit behind the size too',
  'one-sided': 'one deviation is written and two are needed, as in +0/-.002',
  unsigned: 'a deviation needs its sign: ±, + or -',
  'left-over': 'it should have ended before this',
  'not-angle': `write it as 45°, 2.5° or 1°25'50"`,
  'out-of-range': 'an angle is 0° to 360°, with minutes and seconds under 60',
};

const nouns = { size: 'a size', tolerance: 'a tolerance', angle: 'an angle' } as const;
const shortened = (text: string) => (text.length > 60 ? `${text.slice(0, 57)}…` : text);

/**
 * A refusal as a problem with an empty `where`: the caller knows the place in the file. The facts carry `text`, the
 * offending `piece`, `at` (its first character, counted from 1) and `reason`.
 */
export function unreadable(noun: keyof typeof nouns, text: string, refusal: Refusal): Outcome<never> {
  const piece = shortened(text.slice(refusal.at, refusal.end));
  const at = refusal.at + 1;
  const place = piece.trim() === '' ? `at character ${at}` : `“${piece}” at character ${at}`;
  const say = `“${shortened(text)}” is not ${nouns[noun]}: ${why[refusal.refused]} (${place}).`;
  const facts = { text: shortened(text), piece, at, reason: refusal.refused };
  if (refusal.refused === 'empty') {
    const still = `Nothing is written here yet: ${nouns[noun]} is still to be given.`;
    return { ok: false, problem: { code: `${noun}-unreadable`, where: '', say: still, facts } };
  }
  return { ok: false, problem: { code: `${noun}-unreadable`, where: '', say, facts } };
}
