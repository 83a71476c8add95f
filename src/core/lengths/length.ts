declare const unit: unique symbol;

/** A signed distance in whole picometres: 1 in is 25 400 000 000, so .000001 in, 1/512 in and .0001 mm are exact. */
export type Length = number & { readonly [unit]: 'pm' };

/** The unit a text is written in, or a person reads in. */
export type Unit = 'in' | 'mm';

/** Picometres in one of each unit. */
export const PM_PER: Readonly<Record<Unit, number>> = { in: 25_400_000_000, mm: 1_000_000_000 };

/** A length. Throws RangeError unless `count` is a safe integer: the caller's bug, as typed text goes to `readSize`. */
export function pm(count: number): Length {
  if (!Number.isSafeInteger(count)) throw new RangeError(`pm: expected a safe integer, got ${count}`);
  return (count === 0 ? 0 : count) as Length;
}

export const ZERO: Length = pm(0);
export const plus = (a: Length, b: Length): Length => pm(a + b);
export const minus = (a: Length, b: Length): Length => pm(a - b);
export const negate = (a: Length): Length => pm(-a);

/** The middle of two lengths, rounded to the picometre toward the smaller. */
export const middle = (a: Length, b: Length): Length => pm(Math.floor((a + b) / 2));

/** The nearest length to a figure in picometres that was worked out in floating point (a sine, a root). */
export const nearest = (count: number): Length => pm(Math.round(count));

/** Millimetres, as the report carries them; `fromMm(toMm(x)) === x` for every length under 9 km. */
export const toMm = (length: Length): number => length / PM_PER.mm;
export const fromMm = (mm: number): Length => nearest(mm * PM_PER.mm);
export const fromInches = (inches: number): Length => nearest(inches * PM_PER.in);
