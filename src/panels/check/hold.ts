import { pm, type Length } from '../../core/lengths/length.ts';
import type { Lathe } from '../../core/part/lathe.ts';
import { resolveLathe } from '../../core/part/resolve-lathe.ts';

/** Both faces of a length are placed, each within the repeat of the readout, never finer than it counts. */
export function holdOf(lathe: Lathe): Length {
  const { readout } = resolveLathe(lathe);
  return pm(2 * Math.max(readout.repeat, readout.resolution));
}

/** A diameter is placed once. */
export function holdOnDiameter(lathe: Lathe): Length {
  const { readout } = resolveLathe(lathe);
  return pm(Math.max(readout.repeat, readout.resolution));
}
