import type { Outcome, Problem } from '../problem.ts';
import { isObject, ownField, type JsonObject } from '../part/shape.ts';
import { readImageHeader } from './image-header.ts';
import { headOfDataUrl, isDataUrl } from './data-url.ts';

/** A place in the picture: pixels from its upper left corner, y down. */
export type Pixel = readonly [x: number, y: number];

/** The size that the picture was brought to scale by: two places in it, and what the plan says between them. */
export type Known = {
  readonly from: Pixel;
  readonly to: Pixel;
  readonly size: string;
  /** How far off either pick may be, px of the picture. */
  readonly within: number;
};

/** A face or point as it was pointed to in the picture. It counts while the station is still sketched where it was then. */
export type Trace = {
  readonly station: string;
  readonly at: Pixel;
  readonly sketched: number;
  readonly within: number;
};

/**
 * A land as tall as it was pointed to in the picture: a place on its outline, and which end of it that is where it was
 * marked at both. It counts while the segment is still sketched as thick as it was then, in the unit of the part; where
 * it was not sketched, while it is not.
 */
export type TallTrace = {
  readonly segment: string;
  readonly end?: 'start' | 'end';
  readonly at: Pixel;
  readonly sketched?: number;
  readonly within: number;
};

/** A hole along the axis as it was pointed to in the picture: its wall where it begins and where it ends. */
export type HoleTrace = {
  readonly hole: string;
  readonly from: Pixel;
  readonly to: Pixel;
  readonly within: number;
};

/** The picture that is traced, and how it lies under the drawing. */
export type Scan = {
  /** A data URL, or `kept:` and a key of this browser's store. */
  readonly image: string;
  readonly name?: string;
  readonly width: number;
  readonly height: number;
  /** Pixels of the picture to a millimetre of the part. */
  readonly scale: number;
  /** Degrees that the picture is turned counter-clockwise, so that its centre line lies level. */
  readonly angle: number;
  /** What lies on the axis at the first face. */
  readonly origin: Pixel;
  /** Absent until the picture was brought to scale. */
  readonly known?: Known;
  /** 0 shows the picture as it is, 1 not at all. */
  readonly fade?: number;
  readonly locked?: boolean;
  readonly hidden?: boolean;
  readonly traced?: readonly Trace[];
  readonly traced_tall?: readonly TallTrace[];
  readonly traced_holes?: readonly HoleTrace[];
};

/** Largest side and most pixels of a picture that is decoded at all: an A3 sheet at 400 dpi, and room to spare. */
export const MOST_SIDE = 20_000;
export const MOST_PIXELS = 50_000_000;
const KEPT = /^kept:[0-9a-z-]{1,80}$/;
/** Places in a picture lie on it or not far off; this keeps every later figure finite. */
const FARTHEST = 10_000_000;

/** Whether an image is only named by its key in a browser's own store. */
export const isKept = (image: string): boolean => KEPT.test(image);

/**
 * The picture of a part, checked.
 *
 * @param value - The part's field `scan`, whatever stands there.
 * @returns null where there is none; else the picture, or the problem `scan-unreadable` with what is wrong with it.
 *   The drawing does not depend on it, so a part with a spoilt picture is a part all the same.
 */
export function readScan(value: unknown): Outcome<Scan> | null {
  if (value === undefined || value === null) return null;
  const why = faultIn(value);
  return why === null ? { ok: true, value: value as Scan } : { ok: false, problem: unreadable(why) };
}

const unreadable = (why: string): Problem => ({
  code: 'scan-unreadable',
  where: 'scan',
  say: `The picture to trace is not shown: ${why}.`,
  facts: { why },
});

function faultIn(value: unknown): string | null {
  if (!isObject(value)) return 'what the file says about it is no object';
  const field = (key: string) => ownField(value, key);
  const side = (n: unknown) => Number.isInteger(n) && within(n, 1, MOST_SIDE);
  if (!side(field('width')) || !side(field('height')))
    return `its width and height are not from 1 to ${MOST_SIDE}`;
  if (!within(field('scale'), 1e-6, 1e6)) return 'its scale is no number of pixels to a millimetre';
  if (!within(field('angle'), -360, 360)) return 'its angle is no number of degrees';
  if (!isPixel(field('origin'))) return 'its origin is no place in it';
  if (!optional(field('fade'), (fade) => within(fade, 0, 1))) return 'its fade is not from 0 to 1';
  if (!optional(field('known'), isKnown)) return 'the size it was placed by cannot be read';
  const traced = (list: unknown) => Array.isArray(list) && list.every(isTrace);
  const tall = (list: unknown) => Array.isArray(list) && list.every(isTallTrace);
  const holes = (list: unknown) => Array.isArray(list) && list.every(isHoleTrace);
  const readable =
    optional(field('traced'), traced) &&
    optional(field('traced_tall'), tall) &&
    optional(field('traced_holes'), holes);
  if (!readable) return 'what was traced cannot be read';
  return faultInImage(field('image'), Number(field('width')) * Number(field('height')));
}

function faultInImage(image: unknown, pixels: number): string | null {
  if (typeof image !== 'string') return 'there is no image';
  if (pixels > MOST_PIXELS) return `it has more than ${MOST_PIXELS / 1e6} million pixels`;
  if (isKept(image)) return null;
  if (!isDataUrl(image)) return 'its image is no PNG, JPEG or WebP that stands in the file';
  const head = readImageHeader(headOfDataUrl(image));
  return head.ok ? null : head.why;
}

const within = (value: unknown, least: number, most: number): value is number =>
  typeof value === 'number' && value >= least && value <= most;
const optional = (value: unknown, fits: (value: unknown) => boolean): boolean =>
  value === undefined || fits(value);
const isPixel = (value: unknown): value is Pixel =>
  Array.isArray(value) && value.length === 2 && value.every((one) => within(one, -FARTHEST, FARTHEST));
const isKnown = (value: unknown): boolean =>
  isObject(value) &&
  isPixel(ownField(value, 'from')) &&
  isPixel(ownField(value, 'to')) &&
  typeof ownField(value, 'size') === 'string' &&
  within(ownField(value, 'within'), 0, FARTHEST);
const isMark = (value: unknown, of: string, places: readonly string[]): value is JsonObject =>
  isObject(value) &&
  typeof ownField(value, of) === 'string' &&
  places.every((place) => isPixel(ownField(value, place))) &&
  within(ownField(value, 'within'), 0, FARTHEST);
const isSketched = (value: unknown): boolean => within(value, -FARTHEST, FARTHEST);
const isTrace = (value: unknown): boolean =>
  isMark(value, 'station', ['at']) && isSketched(ownField(value, 'sketched'));
const isTallTrace = (value: unknown): boolean =>
  isMark(value, 'segment', ['at']) &&
  optional(ownField(value, 'sketched'), isSketched) &&
  optional(ownField(value, 'end'), (end) => end === 'start' || end === 'end');
const isHoleTrace = (value: unknown): boolean => isMark(value, 'hole', ['from', 'to']);
