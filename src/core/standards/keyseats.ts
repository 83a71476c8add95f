import { fromInches, fromMm, nearest, toMm, PM_PER } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import type { Origin } from './origin.ts';

/** The key that suits a shaft. Depths are null where the system gives them by formula (`inchKeyseat`). */
export type Key = {
  readonly width: Length;
  readonly height: Length;
  /** Keyseat depth in the shaft and in the hub, from the surface at the middle of the key. */
  readonly shaftDepth: Length;
  readonly hubDepth: Length;
  readonly origin: Origin;
};

export const metricKeyOrigin: Origin = {
  source: 'DIN 6885-1, as printed in published tables; two agree to 58 mm except from 22 to 38 mm',
  provenance: 'published',
};

/** mm: shaft over, up to and including, key width, height, depth in the shaft, depth in the hub. */
export const metricKeyRows: readonly (readonly [number, number, number, number, number, number])[] = [
  [6, 8, 2, 2, 1.2, 1],
  [8, 10, 3, 3, 1.8, 1.4],
  [10, 12, 4, 4, 2.5, 1.8],
  [12, 17, 5, 5, 3, 2.3],
  [17, 22, 6, 6, 3.5, 2.8],
  [22, 30, 8, 7, 4, 3.3],
  [30, 38, 10, 8, 5, 3.3],
  [38, 44, 12, 8, 5, 3.3],
  [44, 50, 14, 9, 5.5, 3.8],
  [50, 58, 16, 10, 6, 4.3],
  [58, 65, 18, 11, 7, 4.4],
  [65, 75, 20, 12, 7.5, 4.9],
  [75, 85, 22, 14, 9, 5.4],
  [85, 95, 25, 14, 9, 5.4],
  [95, 110, 28, 16, 10, 6.4],
];

/** Key and keyseat of a shaft over 6 to 110 mm by DIN 6885-1; null outside the table. */
export function metricKey(shaft: Length): Key | null {
  const row = metricKeyRows.find(([over, upTo]) => toMm(shaft) > over && toMm(shaft) <= upTo);
  if (!row) return null;
  const [, , width, height, shaftDepth, hubDepth] = row.map(fromMm);
  if (width === undefined || height === undefined || shaftDepth === undefined || hubDepth === undefined)
    return null;
  return { width, height, shaftDepth, hubDepth, origin: metricKeyOrigin };
}

export type InchKey = {
  readonly width: Length;
  /** Heights: a square key, and a flat one (null where the table has none). */
  readonly square: Length;
  readonly flat: Length | null;
  readonly origin: Origin;
};

export const inchKeyOrigin: Origin = {
  source: 'ASME B17.1, ranges of shaft from memory; the sizes from 1/2 to 2 in follow from a published table',
  provenance: 'memory',
};

/** Inches: shaft over, up to and including, key width, height of a flat key. */
export const inchKeyRows: readonly (readonly [number, number, number, number | null])[] = [
  [5 / 16, 7 / 16, 3 / 32, null],
  [7 / 16, 9 / 16, 1 / 8, 3 / 32],
  [9 / 16, 7 / 8, 3 / 16, 1 / 8],
  [7 / 8, 1 + 1 / 4, 1 / 4, 3 / 16],
  [1 + 1 / 4, 1 + 3 / 8, 5 / 16, 1 / 4],
  [1 + 3 / 8, 1 + 3 / 4, 3 / 8, 1 / 4],
  [1 + 3 / 4, 2 + 1 / 4, 1 / 2, 3 / 8],
];

/** The key of an inch shaft over 5/16 to 2 1/4 in; null outside the table. */
export function inchKey(shaft: Length): InchKey | null {
  const inches = shaft / PM_PER.in;
  const row = inchKeyRows.find(([over, upTo]) => inches > over && inches <= upTo);
  if (!row) return null;
  const [, , width, flat] = row;
  return {
    width: fromInches(width),
    square: fromInches(width),
    flat: flat === null ? null : fromInches(flat),
    origin: inchKeyOrigin,
  };
}

/** What is measured at an inch keyseat, for a key of a width and height. */
export type KeyseatChecks = {
  /** From the top of the shaft down to the chord where the keyseat's walls begin. */
  readonly chord: Length;
  /** From the bottom of the keyseat to the far side of the shaft. */
  readonly shaft: Length;
  /** From the bottom of the hub's keyseat to the far side of its bore, with the clearance of the standard. */
  readonly hub: Length;
};

const HUB_CLEARANCE_IN = 0.005;

/**
 * Keyseat depths by ASME B17.1: Y = (D - √(D² - W²)) / 2, S = D - Y - H / 2, T = D - Y + H / 2 + .005 in.
 * Null where the key is as wide as the shaft or wider. Rounded to the picometre.
 */
export function inchKeyseat(shaft: Length, width: Length, height: Length): KeyseatChecks | null {
  if (!(width > 0 && width < shaft)) return null;
  const [d, w, h] = [shaft / PM_PER.in, width / PM_PER.in, height / PM_PER.in];
  const chord = (d - Math.sqrt(d * d - w * w)) / 2;
  const inches = (x: number): Length => nearest(x * PM_PER.in);
  return {
    chord: inches(chord),
    shaft: inches(d - chord - h / 2),
    hub: inches(d - chord + h / 2 + HUB_CLEARANCE_IN),
  };
}
