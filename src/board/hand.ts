import type { Unit } from '../core/lengths/length.ts';
import { drawingDiameters, type DrawnDiameters } from '../core/outline/drawing-diameters.ts';
import type { Picture } from '../core/outline/picture.ts';
import { profilePicture, type View } from '../core/outline/profile-picture.ts';
import type { Part } from '../core/part/types.ts';
import type { Report } from '../core/report-types.ts';
import { carryOf, elasticOf, movedPlaces, restOf, rigidOf, stretchedBy } from './carry.ts';
import type { Carry, Stretch } from './carry.ts';
import type { Drawing } from './drawing.ts';
import { noOverlay, type Overlay } from './overlay.ts';
import type { Scene } from './scene.ts';
import { freeAt, snapTo, type Catches, type Snap } from './snap.ts';
import type { Spot } from './viewport.ts';

/** What a hand can be at: a loose face, a placed one that is pulled, a dimension between lanes, a box, a land drawn out. */
export type Act =
  | { readonly kind: 'face'; readonly station: string; readonly lifted: Lifted }
  | { readonly kind: 'held' }
  | { readonly kind: 'lane'; readonly id: string }
  | { readonly kind: 'box'; readonly adds: boolean }
  | { readonly kind: 'outline'; readonly from: number }
  | { readonly kind: 'length'; readonly from: string };

/** What is in the hand, taken off the drawing once: while it moves only it is drawn anew. */
type Lifted = {
  readonly carry: Carry;
  readonly drawing: Drawing;
  readonly report: Report;
  readonly diameters: ReadonlyMap<string, DrawnDiameters>;
  readonly rest: Scene;
  readonly rigid: Scene;
  readonly elastic: Scene;
  readonly hatch: number;
  readonly view: View | null;
  readonly catches: Catches;
};

type LiftOptions = { readonly hatch: number; readonly view: View | null; readonly unit: Unit };

/** Lifts a loose station off a scene. */
export function lift(scene: Scene, report: Report, station: string, options: LiftOptions): Lifted {
  const { drawing } = scene;
  const { part, places } = drawing;
  const carry = carryOf(drawing, station);
  const diameters = drawingDiameters(part, report.diameters, places.extent);
  const base = { carry, drawing, report, diameters, hatch: options.hatch, view: options.view };
  const rest = pictureOf({ ...base, places }, carry.resting);
  const whole = carry.moving.some(({ first, last }) => first === 0 && last === part.segments.length - 1);
  return {
    ...base,
    rest: restOf(scene, carry, { items: whole ? [] : [...rest.items, ...alongAxis(scene.picture, part)] }),
    rigid: rigidOf(scene, carry, pictureOf({ ...base, places }, carry.rigid)),
    elastic: elasticOf(scene, carry),
    catches: catchesFor(drawing, carry, station, options.unit, scene.view.scale),
  };
}

/** The axis, and the holes along it: they rest while faces move. */
function alongAxis({ items }: Picture, { holes }: Part): Picture['items'] {
  const ids = new Set(holes.map(({ id }) => id));
  return items.filter(
    (item) => item.kind === 'line' && (item.id ? ids.has(item.id) : item.role === 'centre'),
  );
}

type Drawn = Pick<Lifted, 'drawing' | 'report' | 'diameters' | 'hatch' | 'view'> & {
  readonly places: Drawing['places'];
};

function pictureOf(
  { drawing, report, diameters, hatch, view, places }: Drawn,
  stretches: readonly Stretch[],
): Picture {
  const { part } = drawing;
  const shown = view ?? (part.holes.length > 0 ? 'half' : 'outside');
  const options = { places, diameters, hatch, view: shown };
  const whole = stretches.some(({ first, last }) => first === 0 && last === part.segments.length - 1);
  if (whole) return profilePicture(part, report, options);
  return { items: stretches.flatMap((only) => profilePicture(part, report, { ...options, only }).items) };
}

/** What is in the hand, as it is drawn: a part of the scene shifted as it is, and one drawn out or pushed together. */
export type Carried = { readonly rigid: Scene; readonly dx: number; readonly elastic: Scene };

/** What is lifted, moved by so many mm. */
export function movedBy({ carry, drawing, rigid, elastic, ...rest }: Lifted, by: number): Carried {
  const places = movedPlaces(drawing, carry, by);
  const picture = pictureOf({ ...rest, drawing, places }, carry.moving);
  return { rigid, dx: by * rigid.view.scale, elastic: stretchedBy(elastic, carry, by, picture) };
}

/** A moving face falls onto the rule laid at its left neighbour, a point also onto faces; and where a land gets as long as another. */
function catchesFor(
  { part, places }: Drawing,
  { ids }: Carry,
  station: string,
  unit: Unit,
  scale: number,
): Catches {
  const at = (id: string) => places.at.get(id) ?? 0;
  const here = at(station);
  const before = [...part.faces, ...part.points]
    .filter(({ id }) => !ids.has(id) && at(id) <= here)
    .sort((a, b) => at(b.id) - at(a.id))[0];
  const from = before ? at(before.id) : 0;
  const isFace = part.faces.some(({ id }) => id === station);
  const faces = part.faces
    .filter(({ id }) => !ids.has(id) && !isFace)
    .map(({ id }) => ({ mm: at(id), say: `at face ${id}` }));
  const lands = part.faces.slice(1).flatMap(({ id }, k) => {
    const left = part.faces[k]?.id ?? '';
    if (ids.has(id) || ids.has(left)) return [];
    return [{ mm: from + at(id) - at(left), say: `as long as ${left}–${id}` }];
  });
  return { unit, scale, from, of: `${before?.id ?? ''}–${station}`, marks: [...faces, ...lands] };
}

/** How far a drag moves what is lifted, mm, snapped unless it is free, and within its way. */
export function fallOf(
  { carry, drawing, catches }: Lifted,
  station: string,
  by: number,
  free: boolean,
): Snap {
  const here = drawing.places.at.get(station) ?? 0;
  const { mm, say } = free ? freeAt(here + by, catches) : snapTo(here + by, catches);
  const within = Math.min(Math.max(mm - here, carry.least), carry.most);
  return { mm: within, say: within === mm - here ? say : null };
}

/** The words beside a moving face, with the line it fell onto. */
export function faceOverlay(
  station: string,
  { drawing }: Lifted,
  { mm, say }: Snap,
  at: Spot,
  scale: number,
): Overlay {
  if (say === null) return noOverlay;
  const x = ((drawing.places.at.get(station) ?? 0) + mm) * scale;
  return { frame: null, guide: x, hint: { x, y: at.y, text: say } };
}

/** A land or a groove that is drawn out with the pointer: from one place along the axis to another, so tall, mm. */
export type Outline = {
  readonly from: number;
  readonly to: number;
  readonly radius: number;
  readonly say: string;
};

/** No land is sketched thinner, mm. */
const LEAST_RADIUS = 0.05;

/**
 * What a drag with the tool for lands draws out. Right of the part it begins at the part's end; inside a land it is a
 * groove. Length and diameter fall onto the rule, and onto the diameters that are there.
 */
export function outlineOf(
  { part, places, radii }: Drawing,
  unit: Unit,
  scale: number,
  from: Spot,
  to: Spot,
  free: boolean,
): Outline {
  const begin = from.x > places.extent ? places.extent : from.x;
  const fall = (mm: number, catches: Catches) => (free ? freeAt(mm, catches) : snapTo(mm, catches));
  const along = fall(to.x, { unit, scale, from: begin, of: '', marks: [] });
  const marks = part.segments.map(({ id }, k) => ({ mm: 2 * (radii[k]?.left ?? 0), say: `as ${id}` }));
  const across = fall(2 * Math.abs(to.y), { unit, scale: scale / 2, from: 0, of: 'Ø', marks });

  return {
    from: begin,
    to: along.mm,
    radius: Math.max(across.mm / 2, LEAST_RADIUS),
    say: `${along.say ?? ''} long, ${across.say ?? ''}`,
  };
}

export function outlineOverlay({ from, to, radius, say }: Outline, at: Spot, scale: number): Overlay {
  const r = radius * scale;
  const frame = { x0: from * scale, x1: to * scale, y0: -r, y1: r, solid: true };
  return { frame, guide: null, hint: { x: at.x, y: at.y, text: say } };
}
