import type { Picture } from '../core/outline/picture.ts';
import type { ChoiceKind } from './choice.ts';
import type { Measure } from './label.ts';
import type { Drawing } from './drawing.ts';
import { ROOMY, sceneOf, TIGHT, type Scene, type Spacing } from './scene.ts';
import type { Size, Viewport } from './viewport.ts';

/** How much is written around the part, from everything down to the bare profile of a narrow strip. */
export type Detail = 'all' | 'sizes' | 'lengths' | 'diameters' | 'bare';
export type Fit = {
  readonly view: Viewport;
  readonly detail: Detail;
  /** Whether diameters stand at the sides. */
  readonly sides: boolean;
  readonly spacing: Spacing;
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
const PAD = 8;
/** Length of paper that an empty board shows, mm. */
const EMPTY = 150;
/** A drawing is made this much smaller before something is left out, or more while it stays so many px wide. */
const LEAST = 0.55;
const WIDE = 500;

/** From one scale that is tried to the next. */
const STEP = 0.93;

/** Diameters go to the sides, and what is written stands apart, while that makes the drawing no smaller than this. */
const COST = 0.82;

/** The largest view of the whole part in a window, with as much written around it as there is room for. */
export function fitted(drawing: Drawing, window: Size, measure: Measure): Fit {
  const { places, tall } = drawing;
  const across = Math.max(window.width - 60, 40);
  if (places.extent <= 0) {
    // The first diameter may stand left of the part.
    const x = Math.min(Math.max(window.width * 0.09, 40), 110);
    const view = { scale: (across + 40 - x) / EMPTY, x, y: window.height / 2 };
    return { view, detail: 'all', sides: false, spacing: ROOMY };
  }
  const largest = Math.min(across / places.extent, Math.max(window.height - 40, 20) / (2 * tall));
  const least = Math.min(largest * LEAST, WIDE / places.extent);
  const scales: number[] = [];
  for (let scale = largest; scale > least; scale *= STEP) scales.push(scale);
  const seek = (detail: Detail, sides: boolean, over = 0) =>
    fitWith(drawing, window, measure, { detail, sides, over, scales });
  for (const detail of ['all', 'sizes', 'lengths', 'diameters'] as const) {
    const aside = seek(detail, true);
    const fit = seek(detail, false, aside?.view.scale) ?? aside;
    if (fit) return fit;
  }
  // With nothing written, faces that are not placed are still told so: that has to have room across.
  const half = tall * largest;
  const upright = { top: -half, bottom: half };
  const bare = { detail: 'bare', sides: false, spacing: ROOMY } as const;
  for (const scale of scales) {
    const { left, right } = laidAt(drawing, scale, measure, bare).bounds;
    if (right - left > window.width - 2 * PAD) continue;
    return { ...bare, view: centred({ left, right, ...upright }, scale, window) };
  }
  const bounds = { left: 0, right: places.extent * largest, ...upright };
  return { ...bare, view: centred(bounds, largest, window) };
}

type Wish = {
  readonly detail: Detail;
  readonly sides: boolean;
  /** What was found otherwise, px per mm: only for a much larger drawing is that given up. */
  readonly over: number;
  /** From the largest to the smallest that will do, px per mm. */
  readonly scales: readonly number[];
};

/** The largest scale at which all of it has room, with lanes apart or as near as they can be; null where there is none. */
function fitWith(
  drawing: Drawing,
  window: Size,
  measure: Measure,
  { detail, sides, over, scales }: Wish,
): Fit | null {
  const room = { width: window.width - 2 * PAD, height: window.height - 2 * PAD };
  let near: Fit | null = null;
  let hopeless = Infinity;
  for (const scale of scales) {
    if (near ? scale < COST * near.view.scale : COST * scale <= over) return near;
    if (scale > hopeless) continue;
    const { bounds, dimensions } = laidAt(drawing, scale, measure, { detail, sides, spacing: ROOMY });
    const [wide, high] = [bounds.right - bounds.left, bounds.bottom - bounds.top];
    const low = high - (near ? 0 : saved(dimensions));
    // Letters stay as large as they are, so that all of it shrinks by less than the scale does, or by two steps more where some of
    // them find another place.
    hopeless = (scale / STEP ** 2) * Math.min(room.width / wide, room.height / low);
    if (wide > room.width) continue;
    if (high <= room.height)
      return COST * scale > over
        ? { view: centred(bounds, scale, window), detail, sides, spacing: ROOMY }
        : null;
    if (near || low > room.height) continue;
    const tight = { detail, sides, spacing: TIGHT };
    near = { ...tight, view: centred(laidAt(drawing, scale, measure, tight).bounds, scale, window) };
  }
  return near;
}

/** What a drawing is lower with everything near to each other, px. */
function saved(dimensions: Scene['dimensions']): number {
  const lanes = Math.max(0, ...dimensions.map(({ inLane }) => inLane));
  return ROOMY.above - TIGHT.above + (ROOMY.below - TIGHT.below) + lanes * (ROOMY.lane - TIGHT.lane);
}

const laidAt = (
  drawing: Drawing,
  scale: number,
  measure: Measure,
  { detail, sides, spacing }: Omit<Fit, 'view'>,
): Scene =>
  sceneOf(drawing, blank, { scale, x: 0, y: 0 }, measure, {
    shows: ({ kind }) => showsKind(detail, kind),
    sides,
    spacing,
  });

const centred = ({ left, right, top, bottom }: Scene['bounds'], scale: number, window: Size): Viewport => ({
  scale,
  x: (window.width - left - right) / 2,
  y: (window.height - top - bottom) / 2,
});
