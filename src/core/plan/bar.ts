import { ZERO, pm } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import { arc, between, diametersAt, line, lower, raise, whole } from './profile.ts';
import type { Curve, Piece, Profile } from './profile.ts';
import type { Cut, CutKind, Stock } from './types.ts';

/**
 * The bar as it stands, a body of revolution in part coordinates, in exact picometres. Both profiles run from z0 to
 * z1. Where a cut went right through, `outside` is 0 there (a kerf), or the plane is in `severed` (a break that has
 * no width); `bodyAt` gives the one body that is left in the hand.
 */
export type Bar = {
  readonly z0: Length;
  readonly z1: Length;
  readonly outside: Profile;
  /** Diameter of the hole, 0 where the bar is solid. */
  readonly inside: Profile;
  readonly severed: readonly Length[];
};

const REMOVES_NOTHING: ReadonlySet<CutKind> = new Set<CutKind>([
  'tap',
  'thread',
  'touch',
  'measure',
  'support',
  'prove',
  'cross',
  'deburr',
]);
const ALWAYS_INSIDE: ReadonlySet<CutKind> = new Set<CutKind>(['centre-drill', 'drill', 'bore']);

/**
 * Millimetres of a report back to the exact picometre. Null where the figure is no place on a lathe (not finite, or
 * over 100 m), so that absurd figures never throw.
 */
export function fromReport(mm: number): Length | null {
  return isPlace(mm) ? pm(Math.round(mm * 1e9)) : null;
}

/** Is a figure of a report in millimetres one that `fromReport` reads? */
export const isPlace = (mm: number): boolean => Math.abs(mm) <= 1e5;

const place = (mm: number): Length => fromReport(mm) ?? ZERO;

/** The bar before its first cut. Unusable figures count as 0. */
export function startBar(stock: Stock): Bar {
  const [z0, z1, d] = [place(stock.z0_mm), place(stock.z1_mm), place(stock.diameter_mm)];
  return barOf(line(z0, z1, d, d));
}

/** A bar that is solid under the given outside. */
export function barOf(outside: Curve): Bar {
  const { z0, z1 } = outside;
  return { z0, z1, outside: [whole(outside)], inside: [whole(line(z0, z1, ZERO, ZERO))], severed: [] };
}

/** Does this kind of cut work inside, whatever the cut itself says? */
export const cutsInside = (cut: Cut): boolean => cut.inside || ALWAYS_INSIDE.has(cut.kind);

/** Does this cut take metal off in turning (a crossing does too, but not as a body of revolution)? */
export const removesMetal = (cut: Cut): boolean => !REMOVES_NOTHING.has(cut.kind);

/** The surface that a cut leaves at most (outside) or at least (inside); null where it cuts nothing. */
export function cutCurve(cut: Cut): Curve | null {
  if (!removesMetal(cut)) return null;
  const z0 = fromReport(cut.z0_mm);
  const z1 = fromReport(cut.z1_mm);
  const d0 = fromReport(cut.d0_mm ?? NaN);
  const d1 = fromReport(cut.d1_mm ?? NaN);
  if (z0 === null || z1 === null || d0 === null || d1 === null) return null;
  return cut.kind === 'fillet' ? arc(z0, z1, d0, d1) : line(z0, z1, d0, d1);
}

/**
 * The bar after a cut: outside nothing stands above the cut's surface between its two places, inside nothing below
 * it. A cut never adds metal. Ends that were faced away are gone; what is parted off or severed leaves a gap, see
 * `bodyAt`. Steps that remove nothing, threads and unusable figures give back the same bar.
 */
export const afterCut = (bar: Bar, cut: Cut): Bar => afterCurve(bar, cut, cutCurve(cut));

/** The same where the surface that the cut leaves is known already. */
export function afterCurve(bar: Bar, cut: Cut, curve: Curve | null): Bar {
  if (!curve) return bar;
  if (cut.kind === 'sever' && curve.z0 === curve.z1) return { ...bar, severed: [...bar.severed, curve.z0] };
  if (cutsInside(cut)) return { ...bar, inside: raise(bar.inside, curve) };
  return trimmed({ ...bar, outside: lower(bar.outside, curve) });
}

/** Ends where nothing stands any more taken off. */
function trimmed(bar: Bar): Bar {
  const z0 = bar.outside.find(stands)?.z0 ?? bar.z0;
  const z1 = bar.outside.findLast(stands)?.z1 ?? bar.z0;
  return z0 === bar.z0 && z1 === bar.z1 ? bar : cropped(bar, z0, z1);
}

const stands = (piece: Piece): boolean => piece.d0 > 0 || piece.d1 > 0;

function cropped(bar: Bar, z0: Length, z1: Length): Bar {
  return {
    z0,
    z1,
    outside: between(bar.outside, z0, z1),
    inside: between(bar.inside, z0, z1),
    severed: bar.severed.filter((z) => z > z0 && z < z1),
  };
}

/** Has a cut gone right through somewhere, so that the bar is in several bodies? */
export function isApart(bar: Bar): boolean {
  let whole = bar.severed.length === 0;
  for (const piece of bar.outside) whole &&= piece.d0 > 0 || piece.d1 > 0;
  return !whole && bodies(bar).length > 1;
}

/** The body at the drawn left or right end: after parting off, the work is the one at the free end. */
export function bodyAt(bar: Bar, end: 'left' | 'right'): Bar {
  const all = bodies(bar);
  const [z0, z1] = (end === 'left' ? all[0] : all.at(-1)) ?? [bar.z0, bar.z1];
  return cropped(bar, z0, z1);
}

/** Where each body begins and ends, from left to right. */
function bodies(bar: Bar): readonly (readonly [Length, Length])[] {
  const spans: [Length, Length][] = [];
  for (const piece of bar.outside) {
    if (piece.d0 === 0 && piece.d1 === 0) continue;
    const last = spans.at(-1);
    if (last && last[1] === piece.z0 && !bar.severed.includes(piece.z0)) last[1] = piece.z1;
    else spans.push([piece.z0, piece.z1]);
  }
  return spans.flatMap(([z0, z1]) => {
    const planes = bar.severed.filter((z) => z > z0 && z < z1).sort((a, b) => a - b);
    const ends = [z0, ...planes, z1];
    return ends.slice(1).map((end, i): readonly [Length, Length] => [ends[i] ?? z0, end]);
  });
}

/** Outside diameter on either side of a place: [left of it, right of it]; null beyond the bar. */
export const outsideAt = (bar: Bar, z: Length): readonly [Length | null, Length | null] =>
  diametersAt(bar.outside, z);

/** Hole diameter on either side of a place, 0 where solid; null beyond the bar. */
export const insideAt = (bar: Bar, z: Length): readonly [Length | null, Length | null] =>
  diametersAt(bar.inside, z);

/** The holes as pieces, from left to right, solid stretches left out. */
export const bores = (bar: Bar): readonly Piece[] => bar.inside.filter((p) => p.d0 > 0 || p.d1 > 0);
