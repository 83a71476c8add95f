/** A term of a plain sum: `sign` times a size about `middle`, with limits `half` to either side; any one unit. */
export type SumTerm = { readonly sign: 1 | -1; readonly middle: number; readonly half: number };

const middleOf = (terms: readonly SumTerm[]): number =>
  terms.reduce((sum, { sign, middle }) => sum + sign * middle, 0);

/** Least and greatest sum, with every term at the worse of its limits. */
export function worstOf(terms: readonly SumTerm[]): { min: number; max: number } {
  const middle = middleOf(terms);
  const half = terms.reduce((sum, term) => sum + term.half, 0);
  return { min: middle - half, max: middle + half };
}

/**
 * Root-sum-square about the middle of the limits (never about the nominal): where each half-width is three standard deviations, so
 * is the half-width of the sum.
 */
export function rssOf(terms: readonly SumTerm[]): { middle: number; half: number } {
  return { middle: middleOf(terms), half: Math.sqrt(terms.reduce((sum, { half }) => sum + half ** 2, 0)) };
}
