import { nearest, pm } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';

/**
 * A stretch of profile: the diameter runs from d0 at z0 to d1 at z1 (z0 < z1), in pm, straight, or as the quarter
 * round of a fillet: tangent to the axis at its smaller end, square to it at its larger one.
 */
export type Curve = {
  readonly shape: 'line' | 'arc';
  readonly z0: Length;
  readonly z1: Length;
  readonly d0: Length;
  readonly d1: Length;
};

/** What still stands of a curve. `whole` is the curve it was clipped from, so that clipping again loses nothing. */
export type Piece = Curve & { readonly whole: Curve };

/** Pieces side by side in order of z, without holes or overlaps; where two ends differ there is a step. */
export type Profile = readonly Piece[];

/** A straight stretch, its ends put in order. */
export function line(z0: Length, z1: Length, d0: Length, d1: Length): Curve {
  return z0 <= z1 ? { shape: 'line', z0, z1, d0, d1 } : { shape: 'line', z0: z1, z1: z0, d0: d1, d1: d0 };
}

/** The quarter round of a fillet between its two ends, put in order. */
export function arc(z0: Length, z1: Length, d0: Length, d1: Length): Curve {
  return { ...line(z0, z1, d0, d1), shape: 'arc' };
}

/** A curve as a profile of one piece. */
export const whole = (curve: Curve): Piece => {
  const { shape, z0, z1, d0, d1 } = curve;
  return { shape, z0, z1, d0, d1, whole: curve };
};

/**
 * Diameter of a curve at z (anywhere from its z0 to its z1), rounded once to the picometre where it is no whole
 * number. Straight stretches are exact rational arithmetic; an arc is a square root in floating point.
 */
export function diameterOn(curve: Curve, z: Length): Length {
  if (curve.d0 === curve.d1 || z <= curve.z0) return curve.d0;
  if (z >= curve.z1) return curve.d1;
  return curve.shape === 'line' ? onLine(curve, z) : onArc(curve, z);
}

function onLine({ z0, z1, d0, d1 }: Curve, z: Length): Length {
  // Floating point is right to a hundredth of a picometre here; only near a half must the rounding be decided exactly.
  const rise = (d1 - d0) * ((z - z0) / (z1 - z0));
  if (Math.abs(d1 - d0) < 1e13 && Math.abs(rise - Math.floor(rise) - 0.5) > 0.02)
    return pm(d0 + Math.round(rise));
  const run = BigInt(z1 - z0);
  const twice = 2n * BigInt(d1 - d0) * BigInt(z - z0) + run;
  const down = twice / (2n * run) - (twice < 0n && twice % (2n * run) !== 0n ? 1n : 0n);
  return pm(d0 + Number(down));
}

function onArc({ z0, z1, d0, d1 }: Curve, z: Length): Length {
  const fromSmall = (d0 < d1 ? z - z0 : z1 - z) / (z1 - z0);
  return nearest(Math.min(d0, d1) + Math.abs(d1 - d0) * (1 - Math.sqrt(1 - fromSmall * fromSmall)));
}

/** The part of a piece between two places inside it. */
export function clip(piece: Piece, z0: Length, z1: Length): Piece {
  if (piece.z0 === z0 && piece.z1 === z1) return piece;
  const { whole: all } = piece;
  if (all.d0 === all.d1) return { shape: piece.shape, z0, z1, d0: all.d0, d1: all.d0, whole: all };
  return { shape: piece.shape, z0, z1, d0: diameterOn(all, z0), d1: diameterOn(all, z1), whole: all };
}

/** A profile with nothing above the curve left, between the curve's ends. */
export const lower = (profile: Profile, curve: Curve): Profile => rework(profile, curve, 1);

/** A profile with nothing below the curve left, between the curve's ends: a bore opened out. */
export const raise = (profile: Profile, curve: Curve): Profile => rework(profile, curve, -1);

/** A profile that follows the curve between the curve's ends, whatever stood there. */
export const replace = (profile: Profile, curve: Curve): Profile => rework(profile, curve, 0);

/** The pieces between two places. */
export function between(profile: Profile, z0: Length, z1: Length): Profile {
  const out: Piece[] = [];
  for (const p of profile) {
    if (p.z0 >= z1) break;
    if (p.z1 > z0) out.push(clip(p, later(p.z0, z0), earlier(p.z1, z1)));
  }
  return out;
}

/** Diameter on either side of a place: [left of it, right of it]; null beyond an end. */
export function diametersAt(profile: Profile, z: Length): readonly [Length | null, Length | null] {
  let [left, right]: [Length | null, Length | null] = [null, null];
  for (const p of profile) {
    if (p.z0 < z && z <= p.z1) left ??= diameterOn(p.whole, z);
    if (p.z0 <= z && z < p.z1) right ??= diameterOn(p.whole, z);
    if (p.z0 > z) break;
  }
  return [left, right];
}

const earlier = (a: Length, b: Length): Length => (a < b ? a : b);
const later = (a: Length, b: Length): Length => (a > b ? a : b);

/** Between the curve's ends the smaller of the two (sign 1), the larger (-1) or the curve whatever stood there (0). */
function rework(profile: Profile, curve: Curve, sign: 1 | -1 | 0): Profile {
  let first = 0;
  while (first < profile.length && (profile[first]?.z1 ?? 0) <= curve.z0) first++;
  let end = first;
  while (end < profile.length && (profile[end]?.z0 ?? 0) < curve.z1) end++;
  if (first === end || curve.z0 >= curve.z1) return profile;
  const fresh = whole(curve);
  const out = profile.slice(0, first);
  for (const old of profile.slice(first, end)) reworkPiece(out, old, fresh, sign);
  if (end < profile.length) append(out, profile[end]);
  return end + 1 < profile.length ? out.concat(profile.slice(end + 1)) : out;
}

function reworkPiece(out: Piece[], old: Piece, fresh: Piece, sign: 1 | -1 | 0): void {
  const z0 = later(old.z0, fresh.z0);
  const z1 = earlier(old.z1, fresh.z1);
  if (old.z0 < z0) append(out, clip(old, old.z0, z0));
  const [was, is] = [clip(old, z0, z1), clip(fresh, z0, z1)];
  // Two level pieces cross nowhere; only what slopes is looked at closely.
  if (sign === 0) append(out, is);
  else if (was.d0 === was.d1 && is.d0 === is.d1) append(out, sign * (is.d0 - was.d0) >= 0 ? was : is);
  else for (const piece of lesser(was, is, sign)) append(out, piece);
  if (old.z1 > z1) append(out, clip(old, z1, old.z1));
}

/** The smaller (sign 1) or the larger (sign -1) of two pieces over one stretch, split where they cross. */
function lesser(old: Piece, fresh: Piece, sign: 1 | -1): readonly Piece[] {
  const over = (z: Length): number => sign * (diameterOn(fresh.whole, z) - diameterOn(old.whole, z));
  const stops = new Set<Length>([old.z0, old.z1]);
  let last = old.z0;
  for (const z of probes(old, fresh)) {
    if (Math.sign(over(last)) * Math.sign(over(z)) < 0)
      stops.add(crossingOfLines(old.whole, fresh.whole) ?? crossing(over, last, z));
    last = z;
  }
  const places = [...stops].filter((z) => z >= old.z0 && z <= old.z1).sort((a, b) => a - b);
  return places.slice(1).map((z1, i) => {
    const z0 = places[i] ?? old.z0;
    const middle = nearest((z0 + z1) / 2);
    const keepsOld = over(z0) + over(middle) + over(z1) >= 0;
    return clip(keepsOld ? old : fresh, z0, z1);
  });
}

/** Where to look for a crossing: two straight pieces cross once at most, a round one may dip in between. */
function probes(a: Piece, b: Piece): readonly Length[] {
  if (a.shape === 'line' && b.shape === 'line') return [a.z1];
  const steps = Array.from({ length: 16 }, (_, i) => nearest(a.z0 + ((a.z1 - a.z0) * (i + 1)) / 16));
  return [...steps.slice(0, -1), a.z1];
}

/** Where two straight stretches cross, rounded once to the picometre; null where one is round or they are parallel. */
function crossingOfLines(a: Curve, b: Curve): Length | null {
  if (a.shape !== 'line' || b.shape !== 'line') return null;
  const [runA, runB] = [BigInt(a.z1 - a.z0), BigInt(b.z1 - b.z0)];
  const [riseA, riseB] = [BigInt(a.d1 - a.d0), BigInt(b.d1 - b.d0)];
  const under = riseB * runA - riseA * runB;
  if (under === 0n) return null;
  const over = BigInt(a.d0 - b.d0) * runA * runB - riseA * BigInt(a.z0) * runB + riseB * BigInt(b.z0) * runA;
  const thousandths = (over * 1000n) / under;
  return pm(Math.round(Number(thousandths) / 1000));
}

/** Place between two others where a difference changes sign, by halving, to the picometre. */
function crossing(over: (z: Length) => number, from: Length, to: Length): Length {
  let [a, b] = [from, to];
  const start = Math.sign(over(a));
  while (b - a > 1) {
    const middle = nearest((a + b) / 2);
    if (Math.sign(over(middle)) === start) a = middle;
    else b = middle;
  }
  return b;
}

/** Puts a piece beside the last, as one with it where the two are one stretch. */
function append(out: Piece[], piece: Piece | undefined): void {
  if (!piece) return;
  const last = out.at(-1);
  const one = last ? asOne(last, piece) : null;
  if (one) out[out.length - 1] = one;
  else out.push(piece);
}

function asOne(a: Piece, b: Piece): Piece | null {
  if (sameCurve(a.whole, b.whole)) return clip(a, a.z0, b.z1);
  if (a.d0 === a.d1 && b.d0 === b.d1 && a.d0 === b.d0) return whole(line(a.z0, b.z1, a.d0, a.d0));
  return null;
}

const sameCurve = (a: Curve, b: Curve): boolean =>
  a === b || (a.shape === b.shape && a.z0 === b.z0 && a.z1 === b.z1 && a.d0 === b.d0 && a.d1 === b.d1);
