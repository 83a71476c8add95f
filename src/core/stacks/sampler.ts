import { distributions } from './distribution.ts';
import type { DistributionKind } from './distribution.ts';

const CELLS = 4096;
/** Of 32 random bits the upper 12 choose the cell, the lower 20 the place in it. */
const LOWER = 20;
const IN_CELL = 2 ** LOWER;

/**
 * Turns 32 random bits into a size of a distribution with limits at -1 and 1, by a table of its quantiles with straight lines
 * between. Within a hundred-thousandth of the limits for the cut distributions; the two outermost cells, where a tail bends
 * away, are worked out.
 */
export function sampler(kind: DistributionKind): (bits: number) => number {
  const { quantile, reach } = distributions[kind];
  const table = Float64Array.from({ length: CELLS + 1 }, (_, k) =>
    k > 0 && k < CELLS ? quantile(k / CELLS) : (k === 0 ? -1 : 1) * reach,
  );
  return (bits) => {
    const cell = bits >>> LOWER;
    if (cell === 0 || cell === CELLS - 1) return quantile((bits + 0.5) / 2 ** 32);
    const low = table[cell] as number;
    return low + ((table[cell + 1] as number) - low) * ((bits & (IN_CELL - 1)) / IN_CELL);
  };
}
