import type { Length, Unit } from './length.ts';

/** How a size stands on the plan, and what it means. */
export type WrittenSize = {
  /** Middle of the two limits where two are written, else the size itself. */
  readonly nominal: Length;
  /** Limits written with the size (two limits, or an inline tolerance in figures); null where it carries none. */
  readonly limits: { readonly min: Length; readonly max: Length } | null;
  /** A class written with the size, such as `k5` in `Ø12 k5`; null where none. */
  readonly fit: string | null;
  /** The unit it was written in (its own, or the given default). */
  readonly unit: Unit;
  /** Decimals written; null for a fraction or a whole number of inches. A whole number has 0. */
  readonly decimals: number | null;
  /** Written with a fraction (`5/8`, `1 5/8`, `1⅝`): fractional general limits apply. */
  readonly fraction: boolean;
};

/** A written tolerance: signed deviations from the nominal, or a class to be looked up. */
export type WrittenTolerance =
  | { readonly kind: 'deviations'; readonly lower: Length; readonly upper: Length }
  | { readonly kind: 'fit'; readonly fit: string };
