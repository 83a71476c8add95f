/** A metal's resistance to cutting: main value in N/mm² for a chip 1 mm by 1 mm, and its exponent. */
export type CuttingResistance = { readonly kc11: number; readonly mc: number };

/** Depth on the radius and feed per turn in mm; the entering angle in degrees, 90 where none is given. */
export type Chip = { readonly depth_mm: number; readonly feed_mm: number; readonly entering_deg?: number };

/**
 * Main cutting force in N: Fc = kc1.1 · b · h^(1 − mc), with b = ap / sin κ and h = f · sin κ. A chip without
 * thickness or width takes no force. Published constants for one metal differ by 40 % between tool makers, and rake
 * and wear are left out: the figure is good to about that.
 *
 * Source: Kienzle's formula, as printed with the constants of VDI 3323.
 */
export function mainForce(
  { kc11, mc }: CuttingResistance,
  { depth_mm, feed_mm, entering_deg = 90 }: Chip,
): number {
  const sine = Math.sin((entering_deg * Math.PI) / 180);
  if (!(depth_mm > 0 && feed_mm > 0 && sine > 0)) return 0;
  return kc11 * (depth_mm / sine) * (feed_mm * sine) ** (1 - mc);
}

/**
 * The part of the main force that pushes the work away from the tool. Published: 0.25 as the usual rule, 0.166 in a
 * deep roughing cut; common practice, no source: 0.3 to 0.5 in light finishing, up to 0.6 with a dull tool or a cut
 * as shallow as the nose radius.
 */
export const RADIAL_SHARE = { low: 0.15, usual: 0.3, high: 0.6 } as const;

/** Radial force in N: a share of the main force, `RADIAL_SHARE.usual` where none is given. */
export function radialForce(main_N: number, share: number = RADIAL_SHARE.usual): number {
  return main_N * share;
}
