import { beamOf, shearShare, withSteady, yieldAt } from './beam.ts';
import type { BeamPiece, BeamSupport } from './beam.ts';

/** A finishing pass over a segment: the bar as it stands, how it is held, and how hard the tool pushes. */
export type Pass = {
  /** Side by side from the grip's edge (z 0) to the free end, mm. */
  readonly pieces: readonly BeamPiece[];
  readonly support: BeamSupport;
  /** The segment along which the tool runs, mm, counted as the pieces are. */
  readonly from_mm: number;
  readonly to_mm: number;
  readonly radialForce_N: number;
  readonly youngs_MPa: number;
};

/** What could be done about a pass that springs too far, each tried: the error that would be left. */
export type Mend =
  | { readonly how: 'centre'; readonly error_mm: number }
  | { readonly how: 'steady'; readonly at_mm: number; readonly error_mm: number }
  | { readonly how: 'lighter-cut'; readonly force_N: number; readonly error_mm: number };

export type Verdict = {
  readonly error_mm: number;
  readonly ok: boolean;
  /** Longest stick-out with grip alone that would hold the limit, mm; null where even a grip at the segment would not. */
  readonly longestFree_mm: number | null;
  /** Empty where the pass holds its limit, and where nothing here would help. */
  readonly mends: readonly Mend[];
  /** Share by which bending alone under-reads so short a stub. */
  readonly shearShare: number;
};

/** Free length in diameters beyond which nobody turns with the grip alone (from 12 on a shaft counts as flexible). */
export const MOST_FREE_DIAMETERS = 12;

const SAMPLES = 24;
const REFINEMENTS = 12;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Error in mm that springing leaves along a segment: the range of twice the deflection under the tool from one end of
 * the pass to the other. What is the same all along is measured out, so only the range counts. Infinite where no
 * metal carries the load. Only the radial force counts: the main force moves the work along its own surface.
 *
 * Good to about 1 part in 10⁴ of the largest deflection (the extremes are sought between samples).
 */
export function segmentError(pass: Pass): number {
  const push = 2 * pass.radialForce_N;
  const yields = underTool(pass);
  const spring = (z: number): number => push * yields(z);
  const [from, to] = [Math.min(pass.from_mm, pass.to_mm), Math.max(pass.from_mm, pass.to_mm)];
  const { centre, steadyAt_mm, travellingBehind_mm, start } = pass.support;
  // Held by the grip alone the bar gives more the farther out it is pushed: the ends of the pass are the extremes.
  if (!centre && steadyAt_mm === null && (travellingBehind_mm ?? null) === null && start !== 'centre')
    return spring(to) - spring(from);
  const samples: number[] = [];
  for (let i = 0; i <= SAMPLES; i++) samples.push(spring(from + (i * (to - from)) / SAMPLES));
  return extreme(spring, from, to, samples, 1) - extreme(spring, from, to, samples, -1);
}

/**
 * What the work gives under the tool at each place, mm/N. A travelling steady goes along with the tool and bears on
 * what was just turned, so that the beam is another one at every place.
 */
function underTool({ pieces, support, youngs_MPa }: Pass): (z: number) => number {
  const behind = support.travellingBehind_mm ?? null;
  const beam = beamOf(pieces, support, youngs_MPa);
  if (behind === null || support.steadyAt_mm !== null) return (z) => yieldAt(beam, z);
  const end = pieces.at(-1)?.z1_mm ?? 0;
  // Behind the tool is toward the free end, where it came from; over the end there is nothing to bear on.
  return (z) =>
    z + behind >= end ? yieldAt(beam, z) : yieldAt(withSteady(beam, support.centre, z + behind), z);
}

/** Largest (sign 1) or smallest value between two places: samples, then the neighbourhood of the best by golden section. */
function extreme(
  of: (z: number) => number,
  from: number,
  to: number,
  samples: readonly number[],
  sign: 1 | -1,
): number {
  let at = 0;
  for (let i = 1; i < samples.length; i++) if (sign * (samples[i] ?? 0) > sign * (samples[at] ?? 0)) at = i;
  const best = samples[at] ?? 0;
  const step = (to - from) / SAMPLES;
  let a = from + Math.max(0, at - 1) * step;
  let b = from + Math.min(SAMPLES, at + 1) * step;
  let l = b - GOLDEN * (b - a);
  let r = a + GOLDEN * (b - a);
  let atL = of(l);
  let atR = of(r);
  for (let i = 0; i < REFINEMENTS; i++) {
    // No swapping by lists in here: it is asked some thousand times before the browser has compiled it.
    if (sign * atL < sign * atR) {
      a = l;
      l = r;
      atL = atR;
      r = a + GOLDEN * (b - a);
      atR = of(r);
    } else {
      b = r;
      r = l;
      atR = atL;
      l = b - GOLDEN * (b - a);
      atL = of(l);
    }
  }
  return sign * Math.max(sign * best, sign * atL, sign * atR);
}

/**
 * Longest stick-out, grip to free end in mm, at which this pass would hold a limit with nothing but the grip: the same
 * bar held farther out or farther in (its stretch at the grip going on inward). Null where it would not hold even
 * gripped at the segment itself. Never over `MOST_FREE_DIAMETERS` of the stretch at the grip: a light cut would hold far
 * beyond, but such work whips and sings before it bends.
 */
export function longestFreeStickOut(pass: Pass, limit_mm: number): number | null {
  const alone = { ...pass, support: { centre: false, steadyAt_mm: null } };
  const length = pass.pieces.at(-1)?.z1_mm ?? 0;
  const near = Math.min(pass.from_mm, pass.to_mm);
  const holds = (shift: number): boolean => segmentError(drawnOut(alone, shift)) <= limit_mm;
  if (!holds(-near)) return null;
  // Work that stands out farther as it is, and holds, is told as it is.
  let [short, long] = [-near, Math.max(0, MOST_FREE_DIAMETERS * (pass.pieces[0]?.d_mm ?? 0) - length)];
  if (holds(long)) return length + long;
  for (let i = 0; i < 40; i++) {
    const middle = (short + long) / 2;
    if (holds(middle)) short = middle;
    else long = middle;
  }
  return length + short;
}

/** The same bar drawn out of its grip by so much more (or pushed in, where negative). */
function drawnOut(pass: Pass, shift: number): Pass {
  const moved = pass.pieces
    .map((p) => ({ ...p, z0_mm: p.z0_mm + shift, z1_mm: p.z1_mm + shift }))
    .filter((p) => p.z1_mm > 0)
    .map((p, i) => (i === 0 || p.z0_mm < 0 ? { ...p, z0_mm: 0 } : p));
  return { ...pass, pieces: moved, from_mm: pass.from_mm + shift, to_mm: pass.to_mm + shift };
}

/**
 * Judges a finishing pass against its limit and tries what could mend it: a centre, a steady beside the middle of the
 * free length, a cut so light that it holds (not below half the force, where the tool would rub).
 *
 * @param limit_mm - Width of the error that may be left on the diameter.
 */
export function verdictOn(pass: Pass, limit_mm: number): Verdict {
  const error_mm = segmentError(pass);
  const ok = error_mm <= limit_mm;
  const length = pass.pieces.at(-1)?.z1_mm ?? 0;
  return {
    error_mm,
    ok,
    longestFree_mm: longestFreeStickOut(pass, limit_mm),
    mends: ok ? [] : mendsFor(pass, limit_mm, error_mm, length),
    shearShare: shearShare(length, pass.pieces[0]?.d_mm ?? 0),
  };
}

function mendsFor(pass: Pass, limit: number, error: number, length: number): readonly Mend[] {
  const tried: Mend[] = [];
  const withCentre = { ...pass, support: { ...pass.support, centre: true } };
  if (!pass.support.centre) tried.push({ how: 'centre', error_mm: segmentError(withCentre) });
  if (pass.support.steadyAt_mm === null) {
    const [near, far] = [Math.min(pass.from_mm, pass.to_mm), Math.max(pass.from_mm, pass.to_mm)];
    // The steady must not stand in the tool's way: at the edge of the segment that is nearer to the middle.
    const at_mm = Math.abs(near - length / 2) <= Math.abs(far - length / 2) ? near : far;
    const held = { ...pass, support: { ...pass.support, steadyAt_mm: at_mm } };
    if (at_mm > 0) tried.push({ how: 'steady', at_mm, error_mm: segmentError(held) });
  }
  const force_N = (pass.radialForce_N * limit) / error;
  if (force_N >= pass.radialForce_N / 2) tried.push({ how: 'lighter-cut', force_N, error_mm: limit });
  return tried.filter((mend) => mend.error_mm <= limit);
}
