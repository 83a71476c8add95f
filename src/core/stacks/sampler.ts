import { distributions } from './distribution.ts';
import type { DistributionKind } from './distribution.ts';

const CELLS = 4096;
/** Of 32 random bits the upper 12 choose the cell, the lower 20 the place in it. */
const LOWER = 20;
const IN_CELL = 2 ** LOWER;
const PER_CELL = 1 / IN_CELL;

/** A table of a distribution's quantiles, and what stands in its two outermost cells, where a tail bends away. */
export type Sampler = {
  readonly table: Float64Array;
  readonly quantile: (p: number) => number;
};

/** What is needed to draw sizes of a distribution with limits at -1 and 1. */
export function samplerTable(kind: DistributionKind): Sampler {
  const { quantile, reach } = distributions[kind];
  const table = Float64Array.from({ length: CELLS + 1 }, (_, k) =>
    k > 0 && k < CELLS ? quantile(k / CELLS) : (k === 0 ? -1 : 1) * reach,
  );
  return { table, quantile };
}

/**
 * Turns 32 random bits into a size, by straight lines in the table. Within a hundred-thousandth of the limits for the cut
 * distributions; the two outermost cells are worked out.
 */
export const drawFrom = ({ table, quantile }: Sampler, bits: number): number => {
  const cell = bits >>> LOWER;
  if (cell === 0 || cell === CELLS - 1) return quantile((bits + 0.5) / 2 ** 32);
  const low = table[cell] as number;
  return low + ((table[cell + 1] as number) - low) * ((bits & (IN_CELL - 1)) * PER_CELL);
};

/** Adds `factor` times a size to each value, one for each number of random bits. */
export function addDrawn(from: Sampler, factor: number, bits: Uint32Array, values: Float64Array): void {
  const { table } = from;
  for (let k = 0; k < values.length; k++) {
    const drawn = bits[k] as number;
    const cell = drawn >>> LOWER;
    const low = table[cell] as number;
    const straight = low + ((table[cell + 1] as number) - low) * ((drawn & (IN_CELL - 1)) * PER_CELL);
    const size = cell === 0 || cell === CELLS - 1 ? drawFrom(from, drawn) : straight;
    values[k] = (values[k] as number) + factor * size;
  }
}

/** Draws sizes of a distribution, one for each number of random bits. */
export function sampler(kind: DistributionKind): (bits: number) => number {
  const from = samplerTable(kind);
  return (bits) => drawFrom(from, bits);
}
