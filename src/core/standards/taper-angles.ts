const radians = (degrees: number): number => (degrees * Math.PI) / 180;
const degrees = (angle: number): number => (angle * 180) / Math.PI;

/** Change of diameter for each unit of length, from an included angle in degrees: 2 tan of its half. */
export const ratioOfAngle = (includedDeg: number): number => 2 * Math.tan(radians(includedDeg / 2));

/** Inches of diameter per foot of length, from an included angle in degrees. */
export const perFootOfAngle = (includedDeg: number): number => 12 * ratioOfAngle(includedDeg);

/** Included angle in degrees, from the change of diameter for each unit of length. */
export const angleOfRatio = (ratio: number): number => 2 * degrees(Math.atan(ratio / 2));

/**
 * Where a compound slide is set, in degrees, for an included angle: the half, counted from the lathe's axis; and what
 * a scale shows that reads zero with the slide square across the bed.
 */
export function compoundSetting(includedDeg: number): {
  readonly fromAxis: number;
  readonly fromAcross: number;
} {
  return { fromAxis: includedDeg / 2, fromAcross: 90 - includedDeg / 2 };
}
