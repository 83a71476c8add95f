import type { ResolvedSegment, TaperAngle } from '../part/resolved.ts';
import type { Distance } from './graph.ts';

type Taper = Extract<ResolvedSegment, { form: 'taper' }>;

/**
 * The axial length that follows for a taper with both diameters and an angle, in pm: `L = (D - d) / (2 tan α)`, limits
 * by the corner values of the diameters, the half-width that each of them brings by the derivatives ∂L/∂D = -∂L/∂d = 1/(2 tan α).
 * Exact where the tangent is rational; else rounded once to the picometre, and it gives by its corner limits.
 * Null where one of the three is missing, is a reference, or the angle is none.
 */
export function taperTie(taper: Taper): Distance | null {
  const { start, end, angle } = taper;
  if (!start || !end || !angle || start.reference || end.reference || !(angle.tan > 0)) return null;
  const [large, small] = end.nominal > start.nominal ? [end, start] : [start, end];
  const nominal = lengthOf(large.nominal - small.nominal, angle);
  const min = lengthOf(large.min - small.max, angle);
  const max = lengthOf(large.max - small.min, angle);
  const halves = [large, small].map((size) => (size.max - size.min) / (4 * angle.tan));
  return { nominal, min, max, halves, give: angle.ratio ? [0, 0] : [min - nominal, max - nominal] };
}

/** `difference / (2 tan α)`; by whole numbers where the tangent is rational, as the product passes a safe integer. */
function lengthOf(difference: number, angle: TaperAngle): number {
  if (!angle.ratio) return Math.round(difference / (2 * angle.tan));
  const { num, den } = angle.ratio;
  if (!Number.isSafeInteger(num) || !Number.isSafeInteger(den)) return Math.round((difference * den) / num);
  return divideRounded(BigInt(difference) * BigInt(den), BigInt(num));
}

function divideRounded(a: bigint, b: bigint): number {
  const half = a < 0n ? -(b / 2n) : b / 2n;
  return Number((a + half) / b);
}
