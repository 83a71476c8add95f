import { nearest } from '../../lengths/length.ts';
import type { Length } from '../../lengths/length.ts';
import { diameterOn } from '../profile.ts';
import type { Piece, Profile } from '../profile.ts';

/** Two profiles over a stretch in which neither has a step. */
export type Stretch = { readonly z0: Length; readonly z1: Length; readonly a: Piece; readonly b: Piece };

/** Rounding that two profiles may differ by, in pm: none on cylinders, the last picometre on cones, 1 µm on arcs. */
export function rounding(a: Piece, b: Piece): number {
  if (a.shape === 'arc' || b.shape === 'arc') return 1_000_000;
  return a.d0 === a.d1 && b.d0 === b.d1 ? 0 : 2;
}

/** Both profiles cut at the steps of either, where they overlap. */
export function sideBySide(first: Profile, second: Profile): readonly Stretch[] {
  const out: Stretch[] = [];
  let i = 0;
  let j = 0;
  for (;;) {
    const a = first[i];
    const b = second[j];
    if (!a || !b) return out;
    const z0 = a.z0 > b.z0 ? a.z0 : b.z0;
    const z1 = a.z1 < b.z1 ? a.z1 : b.z1;
    if (z0 < z1) out.push({ z0, z1, a, b });
    if (a.z1 <= b.z1) i += 1;
    if (b.z1 <= a.z1) j += 1;
  }
}

/** The most by which a stands over b (sign 1), or b over a (sign -1), on the diameter of a stretch, in pm; below 0 where it nowhere does. */
export function most(sign: 1 | -1, { z0, z1, a, b }: Stretch): number {
  const p = a.whole;
  const q = b.whole;
  if (p.d0 === p.d1 && q.d0 === q.d1) return sign * (p.d0 - q.d0);
  const over = (z: Length): number => sign * (diameterOn(p, z) - diameterOn(q, z));
  return Math.max(over(z0), over(nearest((z0 + z1) / 2)), over(z1));
}

/** a minus b on the diameter at the ends and the middle of a stretch, in pm. */
export function differences({ z0, z1, a, b }: Stretch): readonly number[] {
  return [z0, nearest((z0 + z1) / 2), z1].map((z) => diameterOn(a.whole, z) - diameterOn(b.whole, z));
}
