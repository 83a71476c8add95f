import type { Known, Pixel, Scan } from './scan.ts';

/** A place on the drawing: millimetres from the first face on the axis, y up. */
export type Place = { readonly x: number; readonly y: number };
type Lie = Pick<Scan, 'scale' | 'angle' | 'origin'>;

const RADIANS = Math.PI / 180;
/** The angle within half a turn either way. */
const turned = (degrees: number): number => degrees - 360 * Math.round(degrees / 360);
/** Places in a picture are kept to the hundredth of a pixel, angles and scales to what that can tell. */
const round = (value: number, digits: number): number => Number(value.toFixed(digits)) || 0;
const pixel = (x: number, y: number): Pixel => [round(x, 2), round(y, 2)];

/** Where a place of the picture lies on the drawing. */
export function onDrawing({ scale, angle, origin }: Lie, [px, py]: Pixel): Place {
  const [cos, sin] = [Math.cos(angle * RADIANS), Math.sin(angle * RADIANS)];
  const [dx, dy] = [px - origin[0], origin[1] - py];
  return { x: (cos * dx - sin * dy) / scale, y: (sin * dx + cos * dy) / scale };
}

/** What of the picture lies at a place of the drawing, rounded to the hundredth of a pixel. */
export function inPicture({ scale, angle, origin }: Lie, { x, y }: Place): Pixel {
  const [cos, sin] = [Math.cos(angle * RADIANS), Math.sin(angle * RADIANS)];
  return pixel(origin[0] + scale * (cos * x + sin * y), origin[1] - scale * (cos * y - sin * x));
}

/** The four corners of the picture, as they lie on the drawing. */
export const cornersOf = (scan: Scan): readonly Place[] =>
  [0, scan.width].flatMap((x) => [0, scan.height].map((y) => onDrawing(scan, [x, y])));

/** A picture that nobody has placed yet: as wide as `across` mm, its left tenth before the first face, the axis through its middle. */
export const roughly = (width: number, height: number, across: number): Lie => ({
  scale: round(width / across, 6),
  angle: 0,
  origin: pixel(width / 10, height / 2),
});

/** Direction of b as seen from a, degrees counter-clockwise from the drawn right. */
const direction = (a: Place, b: Place): number => Math.atan2(b.y - a.y, b.x - a.x) / RADIANS;

/**
 * Brings the picture to scale by two places in it and the size between them.
 *
 * Where the two lie rather beside than above one another, they are taken for two faces on the centre line: the line
 * through them becomes level, and the left one comes to lie on the axis at the first face. Else they are taken for a
 * diameter: the line becomes upright, its middle comes to lie on the axis and stays where it was along it.
 *
 * @param mm - The size, millimetres.
 * @returns The picture as it lies then; null where the places are one and the same or the size is nothing.
 */
export function placed(scan: Scan, { from, to, size, within }: Known, mm: number): Scan | null {
  const far = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (far < 1 || !(mm > 0)) return null;
  const ends = [from, to].map((at) => ({ at, lies: onDrawing(scan, at) }));
  const [first, second] = ends as [(typeof ends)[0], (typeof ends)[0]];
  const [left, right] = first.lies.x <= second.lies.x ? [first, second] : [second, first];
  const slope = direction(left.lies, right.lies);
  const lie = { ...scan, scale: round(far / mm, 6), known: { from, to, size, within } };
  if (Math.abs(slope) <= 45) {
    return { ...lie, angle: round(turned(scan.angle - slope), 4), origin: pixel(...left.at) };
  }
  const upright = { ...lie, angle: round(turned(scan.angle + Math.sign(slope) * 90 - slope), 4) };
  const middle = pixel((from[0] + to[0]) / 2, (from[1] + to[1]) / 2);
  const along = (left.lies.x + right.lies.x) / 2;
  return { ...upright, origin: inPicture({ ...upright, origin: middle }, { x: -along, y: 0 }) };
}

/**
 * Turns the picture so that the line through two of its places lies level, and lays that line on the axis; a line that
 * is rather upright becomes upright, and the picture turns about its origin. Scale, and the place along the axis, stay.
 * Null where the places are one and the same.
 */
export function straightened(scan: Scan, from: Pixel, to: Pixel): Scan | null {
  if (Math.hypot(to[0] - from[0], to[1] - from[1]) < 1) return null;
  const slope = direction(onDrawing(scan, from), onDrawing(scan, to));
  const quarters = Math.round(slope / 90);
  const turnedScan = { ...scan, angle: round(turned(scan.angle - slope + 90 * quarters), 4) };
  if (quarters % 2 !== 0) return turnedScan;
  return { ...turnedScan, origin: inPicture(turnedScan, { x: 0, y: onDrawing(turnedScan, from).y }) };
}

/** Shifts the picture so that one of its places lies on the axis at the first face. */
export const begunAt = (scan: Scan, at: Pixel): Scan => ({ ...scan, origin: pixel(...at) });

/** Shifts the picture over the drawing, in millimetres to the right and up. */
export const shifted = (scan: Scan, x: number, y: number): Scan => ({
  ...scan,
  origin: inPicture(scan, { x: -x, y: -y }),
});

/** Turns the picture by a quarter, counter-clockwise, about its middle: for a sheet that lies on its side. */
export function quarterTurned(scan: Scan): Scan {
  const middle: Pixel = [scan.width / 2, scan.height / 2];
  const { x, y } = onDrawing(scan, middle);
  const lie = { ...scan, angle: turned(scan.angle + 90), origin: middle };
  return { ...lie, origin: inPicture(lie, { x: -x, y: -y }) };
}
