import { type Length, nearest, pm } from '../lengths/length.ts';

/** A taper as it is to be: diameters at its ends and the axial length between them, in pm. */
export type TaperAim = { readonly small: Length; readonly large: Length; readonly length: Length };

/** Two diameters measured on a taper, in pm; `smallAt` is how far the smaller was measured from the small end. */
export type TaperMeasured = {
  readonly small: Length;
  readonly large: Length;
  readonly apart: Length;
  readonly smallAt: Length;
};

export type TaperCheck = {
  /** Half angles in degrees: as it is to be, and as it is cut. */
  readonly aimDeg: number;
  readonly cutDeg: number;
  /** To swing the compound by: positive steeper, negative shallower. */
  readonly correctionDeg: number;
  /** Where a dial gauge on the compound's side can tell finer: how far the end of `over` travels for the correction. */
  readonly swing: (over: Length) => Length;
  /**
   * Diameter over the aim where each was measured; below zero is cut too deep already. After the compound is corrected
   * this much still comes off at each, and nothing more where the lesser of the two is nought.
   */
  readonly leftAtSmall: Length;
  readonly leftAtLarge: Length;
  /** Diameter to come off all along once the angle is right: the larger of the two, where neither is below zero. */
  readonly left: Length;
  /** Deepest place cut below the aim at the angle as it is cut; 0 where none. */
  readonly spoiltBy: Length;
};

const degrees = (radians: number): number => (radians * 180) / Math.PI;

/**
 * What two diameters a known axial distance apart tell of a taper that is being cut.
 *
 * The half angle cut is `atan((D − d) / (2 · apart))`. Null where the two are no two: a distance of nothing, sizes of
 * nothing, or an aim that is no taper. Diameters that come out the wrong way round give a negative angle.
 * Source: D − d = 2 L tan α, the relation of a taper's diameters, length and half angle.
 */
export function taperCheck(aim: TaperAim, measured: TaperMeasured): TaperCheck | null {
  const { small, large, apart, smallAt } = measured;
  if (!(apart > 0) || !(small > 0) || !(large > 0) || !(aim.length > 0) || !(aim.large > aim.small))
    return null;
  const slope = (aim.large - aim.small) / aim.length;
  const aimDeg = degrees(Math.atan(slope / 2));
  const cutDeg = degrees(Math.atan((large - small) / 2 / apart));
  const wantedSmall = aim.small + slope * smallAt;
  const leftAtSmall = nearest(small - wantedSmall);
  const leftAtLarge = nearest(large - (wantedSmall + slope * apart));
  const turn = ((aimDeg - cutDeg) * Math.PI) / 180;
  return {
    aimDeg,
    cutDeg,
    correctionDeg: aimDeg - cutDeg,
    swing: (over) => nearest(over * Math.sin(turn)),
    leftAtSmall,
    leftAtLarge,
    left: pm(Math.max(0, leftAtSmall, leftAtLarge)),
    spoiltBy: pm(Math.max(0, -leftAtSmall, -leftAtLarge)),
  };
}

export type BandCheck = Pick<TaperCheck, 'aimDeg' | 'cutDeg' | 'correctionDeg'> & {
  readonly finding: 'right' | 'too steep' | 'too shallow';
};

/**
 * What layout fluid on the blank tells, when a taper is cut until its small end is at size: a band of width `band` left
 * at the large end means that the cone met the blank too early, so that it was cut at `atan((D − d) / (2 (L − b)))`,
 * too steep. With no band, `smallOver` is how much the small end is still too large when the cut has reached the
 * large end: cut at `atan((D − d − smallOver) / (2 L))`, too shallow.
 *
 * @returns Null where the band covers the whole taper, or what is given is below zero or no taper.
 * Source: D − d = 2 L tan α over the length that was cut.
 */
export function bandCheck(aim: TaperAim, band: Length, smallOver: Length): BandCheck | null {
  const { small, large, length } = aim;
  const rise = large - small - smallOver;
  if (band < 0 || smallOver < 0 || band >= length || !(large > small) || rise < 0) return null;
  const aimDeg = degrees(Math.atan((large - small) / 2 / length));
  const cutDeg = degrees(Math.atan(rise / 2 / (length - band)));
  const correctionDeg = aimDeg - cutDeg;
  const finding = correctionDeg < 0 ? 'too steep' : correctionDeg > 0 ? 'too shallow' : 'right';
  return { aimDeg, cutDeg, correctionDeg, finding };
}
