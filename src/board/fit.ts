import type { Picture } from '../core/outline/picture.ts';
import type { ChoiceKind } from './choice.ts';
import type { Measure } from './label.ts';
import type { Drawing } from './drawing.ts';
import { sceneOf } from './scene.ts';
import type { Size, Viewport } from './viewport.ts';

/** How much is written around the part, from everything down to the bare profile of a narrow strip. */
export type Detail = 'all' | 'sizes' | 'lengths' | 'diameters' | 'bare';
export type Fit = {
  readonly view: Viewport;
  readonly detail: Detail;
  /** Whether diameters stand at the sides. */
  readonly sides: boolean;
};

const kindsIn: Readonly<Record<Detail, readonly ChoiceKind[]>> = {
  all: ['segment', 'length', 'edge', 'hole', 'crossing'],
  sizes: ['segment', 'length'],
  lengths: ['length'],
  diameters: ['segment'],
  bare: [],
};

export const showsKind = (detail: Detail, kind: ChoiceKind): boolean => kindsIn[detail].includes(kind);

const blank: Picture = { items: [] };
const PAD = 12;
/** Length of paper that an empty board shows, mm. */
const EMPTY = 150;
/** A drawing is made this much smaller before something is left out, or more while it stays so many px wide. */
const LEAST = 0.55;
const WIDE = 500;

/** Diameters go to the sides while that makes the drawing no smaller than this. */
const SIDES_COST = 0.82;

/** The largest view of the whole part in a window, with as much written around it as there is room for. */
export function fitted(drawing: Drawing, window: Size, measure: Measure): Fit {
  const across = Math.max(window.width - 60, 40);
  if (drawing.places.extent <= 0)
    return { view: { scale: across / EMPTY, x: 40, y: window.height / 2 }, detail: 'all', sides: false };
  const plain = plainFit(drawing, window, measure);
  const { scale } = plain.view;
  const aside = { detail: plain.detail, sides: true, from: scale, least: SIDES_COST * scale };
  return (plain.detail !== 'bare' && fitWith(drawing, window, measure, aside)) || plain;
}

/** All written on leaders, above and below. */
function plainFit(drawing: Drawing, window: Size, measure: Measure): Fit {
  const { places, tall } = drawing;
  const across = Math.max(window.width - 60, 40);
  const largest = Math.min(across / places.extent, Math.max(window.height - 40, 20) / (2 * tall));
  const least = Math.min(largest * LEAST, WIDE / places.extent);
  for (const detail of ['all', 'sizes', 'lengths', 'diameters'] as const) {
    const fit = fitWith(drawing, window, measure, { detail, sides: false, from: largest, least });
    if (fit) return fit;
  }
  const half = tall * largest;
  // With nothing written, faces that are not placed are still told so: that has to have room across.
  for (let scale = largest; scale > least; scale *= 0.93) {
    const { left, right } = boundsAt(drawing, scale, 'bare', measure, false);
    if (right - left > window.width - 2 * PAD) continue;
    return {
      view: centred({ left, right, top: -half, bottom: half }, scale, window),
      detail: 'bare',
      sides: false,
    };
  }
  const bounds = { left: 0, right: places.extent * largest, top: -half, bottom: half };
  return { view: centred(bounds, largest, window), detail: 'bare', sides: false };
}

type Wish = {
  readonly detail: Detail;
  readonly sides: boolean;
  /** The largest and the smallest scale that will do, px per mm. */
  readonly from: number;
  readonly least: number;
};

/** The largest of those scales at which all of it has room; null where none has. */
function fitWith(
  drawing: Drawing,
  window: Size,
  measure: Measure,
  { detail, sides, from, least }: Wish,
): Fit | null {
  for (let scale = from; scale > least; scale *= 0.93) {
    const bounds = boundsAt(drawing, scale, detail, measure, sides);
    if (bounds.right - bounds.left > window.width - 2 * PAD) continue;
    if (bounds.bottom - bounds.top > window.height - 2 * PAD) continue;
    return { view: centred(bounds, scale, window), detail, sides };
  }
  return null;
}

type Bounds = {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
};

const boundsAt = (
  drawing: Drawing,
  scale: number,
  detail: Detail,
  measure: Measure,
  sides: boolean,
): Bounds =>
  sceneOf(drawing, blank, { scale, x: 0, y: 0 }, measure, {
    shows: ({ kind }) => showsKind(detail, kind),
    sides,
  }).bounds;

const centred = ({ left, right, top, bottom }: Bounds, scale: number, window: Size): Viewport => ({
  scale,
  x: (window.width - left - right) / 2,
  y: (window.height - top - bottom) / 2,
});
