import { middle, nearest } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import type { Limits } from './resolved.ts';

/**
 * The size to work to: the middle of the limits, or toward the metal side, a quarter of them below the upper one, as another cut can
 * always be taken and none be put back. The quarter is common practice, no source.
 */
export const aimAt = ({ min, max }: Limits, metalSide = false): Length =>
  metalSide ? nearest(max - Math.floor((max - min) / 4)) : middle(min, max);
