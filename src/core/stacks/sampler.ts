import { distributions } from './distribution.ts';
import type { DistributionKind } from './distribution.ts';

const CELLS = 4096;

/**
 * Turns random figures from 0 to 1 into sizes of a distribution with limits at -1 and 1, by a table of its quantiles with straight
 * lines between. Within a hundred-thousandth of the limits for the cut distributions; the two outermost cells,
 * where an uncut tail bends away, are worked out.
 */
export function sampler(kind: DistributionKind): (uniform: number) => number {
  const { quantile } = distributions[kind];
  const table = Float64Array.from({ length: CELLS + 1 }, (_, k) => {
    if (k > 0 && k < CELLS) return quantile(k / CELLS);
    return (k === 0 ? -1 : 1) * distributions[kind].reach;
  });
  return (uniform) => {
    const place = uniform * CELLS;
    const cell = Math.floor(place);
    if (cell === 0 || cell === CELLS - 1) return quantile(Math.max(uniform, 1e-10));
    const low = table[cell] as number;
    return low + ((table[cell + 1] as number) - low) * (place - cell);
  };
}
