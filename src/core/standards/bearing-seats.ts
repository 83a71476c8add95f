import { fromMm, minus, negate } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import type { Outcome } from '../problem.ts';
import type { Bearing } from './bearings.ts';
import { fitDeviations, readFitClass } from './iso286.ts';
import type { Origin } from './origin.ts';

export type SeatLoad = 'light' | 'normal' | 'heavy' | 'slides' | 'fixed';

/** A class that a handbook recommends for the seat of an inner ring. Two handbooks are kept apart, as they differ. */
export type SeatClass = {
  readonly classes: readonly string[];
  /** Whether the load turns relative to the inner ring, as on a shaft that turns under a steady load. */
  readonly innerRing: 'turning' | 'standing';
  readonly load: SeatLoad;
  readonly handbook: 'A' | 'B';
};

export const seatOrigin: Origin = {
  source: 'recommended seats of two bearing makers’ handbooks, A and B, as printed; they differ below 18 mm',
  provenance: 'published',
};

type Row = readonly [
  'A' | 'B',
  'turning' | 'standing',
  SeatLoad,
  over: number,
  upTo: number,
  classes: string,
];

/** Bore over, up to and including, in mm. Under a standing ring: whether it is to slide along the shaft or not. */
export const seatRows: readonly Row[] = [
  ['A', 'turning', 'light', 0, 18, 'js5'],
  ['A', 'turning', 'light', 18, 100, 'js6 j6'],
  ['A', 'turning', 'light', 100, 200, 'k6'],
  ['A', 'turning', 'normal', 0, 18, 'js5 js6 j5 j6'],
  ['A', 'turning', 'normal', 18, 100, 'k5 k6'],
  ['A', 'turning', 'normal', 100, 140, 'm5 m6'],
  ['A', 'turning', 'normal', 140, 200, 'm6'],
  ['A', 'standing', 'slides', 0, Infinity, 'g6'],
  ['A', 'standing', 'fixed', 0, Infinity, 'h6'],
  ['B', 'turning', 'light', 0, 18, 'h5'],
  ['B', 'turning', 'light', 18, Infinity, 'j6'],
  ['B', 'turning', 'normal', 0, 18, 'j5'],
  ['B', 'turning', 'normal', 18, Infinity, 'k5'],
  ['B', 'turning', 'heavy', 18, 100, 'k5'],
  ['B', 'turning', 'heavy', 100, Infinity, 'm5'],
  ['B', 'standing', 'slides', 0, Infinity, 'g6'],
  ['B', 'standing', 'fixed', 0, Infinity, 'h6'],
];

/** What the handbooks recommend for a bore; light is under 6 %, normal 6 to 13 % of the bearing's dynamic load rating. */
export function seatClasses(bore: Length): readonly SeatClass[] {
  return seatRows
    .filter(([, , , over, upTo]) => bore > fromMm(over) && (upTo === Infinity || bore <= fromMm(upTo)))
    .map(([handbook, innerRing, load, , , classes]) => ({
      handbook,
      innerRing,
      load,
      classes: classes.split(' '),
    }));
}

/** Our own words for how an inner ring goes on a seat of a class: common practice, no source. */
const SEAT_FEEL: ReadonlyMap<string, string> = new Map([
  ['f', 'slips on'],
  ['g', 'slips on by hand'],
  ['h', 'pushed on by hand'],
  ['j', 'tapped on lightly, by the inner ring'],
  ['js', 'tapped on lightly, by the inner ring'],
  ['k', 'tapped on by the inner ring, or warmed'],
  ['m', 'pressed or warmed'],
  ['n', 'pressed or warmed'],
  ['p', 'warmed, to stay'],
]);

/** How a bearing's inner ring goes on a seat of a class to grade 7; null where there is no usual word. Common practice, no source. */
export function seatFeel(shaftClass: string): string | null {
  const read = readFitClass(shaftClass);
  if (!read.ok || read.value.hole || read.value.grade > 7) return null;
  return SEAT_FEEL.get(read.value.letter) ?? null;
}

/** Clearance between a bearing's bore and a shaft of a class, at both ends; negative is interference. */
export function seatFit(
  bearing: Pick<Bearing, 'bore'>,
  shaftClass: string,
): Outcome<{ readonly min: Length; readonly max: Length }> {
  const shaft = fitDeviations(bearing.bore.max, shaftClass);
  if (!shaft.ok) return shaft;
  const { lower, upper } = shaft.value;
  const leastBore = minus(bearing.bore.min, bearing.bore.max);
  return { ok: true, value: { min: minus(leastBore, upper), max: negate(lower) } };
}
