import type { Drawing } from './drawing.ts';
import type { Scene, SceneDimension, SceneLeader, SceneStation } from './scene.ts';

/** What is lifted off the drawing while it is dragged: stations that move together, and what hangs on them. */
export type Carry = {
  readonly ids: ReadonlySet<string>;
  readonly segments: ReadonlySet<string>;
  /** Stretches of segments that change, and those that rest, as places in the file. */
  readonly moving: readonly Stretch[];
  readonly resting: readonly Stretch[];
  /** How far it may go to the left (negative) and to the right, mm. */
  readonly least: number;
  readonly most: number;
};
export type Stretch = { readonly first: number; readonly last: number };

/** Of the part's length: no nearer does a face come to its neighbour. */
const ROOM = 0.002;

/** Lifts a loose station with all that sizes tie to it. */
export function carryOf({ part, places }: Drawing, station: string): Carry {
  const ids = new Set(places.tied(station).filter((id) => places.loose.has(id)));
  const at = (id: string | undefined) => places.at.get(id ?? '') ?? 0;
  // A hole from an end that moves goes along; it shows through all of the part, so all of it is drawn anew.
  const end = part.faces.at(-1)?.id ?? '';
  const all = ids.has(end) && part.holes.length > 0;
  const changes = part.segments.map(
    (_, k) => all || ids.has(part.faces[k]?.id ?? '') || ids.has(part.faces[k + 1]?.id ?? ''),
  );
  part.crossings.forEach((x) => {
    if (!ids.has(x.at) && !('to' in x && ids.has(x.to))) return;
    const k = part.faces.findLastIndex((face) => at(face.id) <= at(x.at));
    for (const near of [k - 1, k, k + 1]) if (near in changes) changes[near] = true;
  });
  return { ids, ...stretches(changes), segments: changed(part, changes), ...freeWay(part, places, ids) };
}

const changed = ({ segments }: Drawing['part'], changes: readonly boolean[]): ReadonlySet<string> =>
  new Set(segments.flatMap(({ id }, k) => (changes[k] ? [id] : [])));

function stretches(changes: readonly boolean[]): Pick<Carry, 'moving' | 'resting'> {
  const of: { readonly [kind in 'moving' | 'resting']: Stretch[] } = { moving: [], resting: [] };
  changes.forEach((moves, k) => {
    const list = moves ? of.moving : of.resting;
    const before = list.at(-1);
    if (before?.last === k - 1) list[list.length - 1] = { first: before.first, last: k };
    else list.push({ first: k, last: k });
  });
  return of;
}

/** How far faces may move before one meets a neighbour that stays; points stay on the part. */
function freeWay(
  { faces, points }: Drawing['part'],
  { at, extent }: Drawing['places'],
  ids: ReadonlySet<string>,
): Pick<Carry, 'least' | 'most'> {
  const room = Math.max(extent, 1e-3) * ROOM;
  const mm = (id: string | undefined) => at.get(id ?? '');
  let [least, most] = [-Infinity, Infinity];
  faces.forEach(({ id }, i) => {
    if (!ids.has(id)) return;
    const [here, before, after] = [mm(id) ?? 0, mm(faces[i - 1]?.id), mm(faces[i + 1]?.id)];
    if (before !== undefined && !ids.has(faces[i - 1]?.id ?? ''))
      least = Math.max(least, before + room - here);
    if (after !== undefined && !ids.has(faces[i + 1]?.id ?? '')) most = Math.min(most, after - room - here);
  });
  for (const { id } of points) {
    if (!ids.has(id)) continue;
    least = Math.max(least, -(mm(id) ?? 0));
    if (!ids.has(faces.at(-1)?.id ?? '')) most = Math.min(most, extent - (mm(id) ?? 0));
  }
  return { least: Math.min(least, 0), most: Math.max(most, 0) };
}

/** The places with the lifted ones moved by so many mm. */
export function movedPlaces({ places, part }: Drawing, { ids }: Carry, by: number): Drawing['places'] {
  const at = new Map(places.at);
  for (const id of ids) at.set(id, (at.get(id) ?? 0) + by);
  return { ...places, at, extent: at.get(part.faces.at(-1)?.id ?? '') ?? places.extent };
}

/** Which things of a scene go along; the others rest. */
type Goes = {
  readonly station: (s: { readonly id: string }) => boolean;
  readonly dimension: (d: { readonly from: string; readonly to: string }) => boolean;
  readonly segment: (id: string) => boolean;
  readonly leader: (l: SceneLeader) => boolean;
};

/** Stations that a note's leader stands over: its place is in the middle of them. */
function footOf({ part }: Drawing, { choice: { kind, id } }: SceneLeader): readonly string[] {
  if (kind === 'segment') {
    const k = part.segments.findIndex((s) => s.id === id);
    return [part.faces[k]?.id ?? '', part.faces[k + 1]?.id ?? ''];
  }
  if (kind === 'crossing') return [part.crossings.find((x) => x.id === id)?.at ?? ''];
  if (kind === 'edge') return [part.edges.find((e) => e.id === id)?.face ?? ''];
  return [];
}

function goesOf({ drawing }: Scene, { ids, segments }: Carry): Goes {
  return {
    station: ({ id }) => ids.has(id),
    dimension: ({ from, to }) => ids.has(from) || ids.has(to),
    segment: (id) => segments.has(id),
    leader: (l) => footOf(drawing, l).some((id) => ids.has(id)),
  };
}

/** What stays on the board while something is carried. */
export function restOf(scene: Scene, carry: Carry, picture: Scene['picture']): Scene {
  const goes = goesOf(scene, carry);
  return {
    ...scene,
    picture,
    stations: scene.stations.filter((s) => !goes.station(s)),
    dimensions: scene.dimensions.filter((d) => !goes.dimension(d)),
    leaders: scene.leaders.filter((l) => !goes.leader(l)),
    sides: scene.sides.filter(({ choice }) => !goes.segment(choice.id)),
    ordinates: scene.ordinates.filter(({ station }) => !carry.ids.has(station)),
  };
}

/** What is carried, at rest: the things to move by a drag. */
export function liftedOf(scene: Scene, carry: Carry): Scene {
  const goes = goesOf(scene, carry);
  return {
    ...scene,
    stations: scene.stations.filter((s) => goes.station(s)),
    dimensions: scene.dimensions.filter((d) => goes.dimension(d)),
    leaders: scene.leaders.filter((l) => goes.leader(l)),
    sides: scene.sides.filter(({ choice }) => goes.segment(choice.id)),
    ordinates: scene.ordinates.filter(({ station }) => carry.ids.has(station)),
  };
}

/** What is carried, moved by so many mm; lanes and rows stay until it is put down. */
export function carriedBy(lifted: Scene, { ids }: Carry, by: number, picture: Scene['picture']): Scene {
  const px = by * lifted.view.scale;
  const off = (id: string) => (ids.has(id) ? px : 0);
  return {
    ...lifted,
    picture,
    stations: lifted.stations.map((s): SceneStation => ({
      ...s,
      x: s.x + px,
      note: s.note && { ...s.note, x: s.note.x + px },
    })),
    dimensions: lifted.dimensions.map((d) => movedDimension(d, off, lifted)),
    leaders: lifted.leaders.map((l) => {
      const feet = footOf(lifted.drawing, l);
      return { ...l, x: l.x + feet.reduce((sum, id) => sum + off(id), 0) / Math.max(feet.length, 1) };
    }),
    ordinates: lifted.ordinates.map((o) => ({ ...o, x: o.x + px })),
  };
}

function movedDimension(d: SceneDimension, off: (id: string) => number, { drawing }: Scene): SceneDimension {
  const at = (id: string) => drawing.places.at.get(id) ?? 0;
  const [left, right] = at(d.from) <= at(d.to) ? [d.from, d.to] : [d.to, d.from];
  const [x0, x1] = [d.x0 + off(left), d.x1 + off(right)];
  const shift =
    d.beside === 'left' ? off(left) : d.beside === 'right' ? off(right) : (off(left) + off(right)) / 2;
  return { ...d, x0: Math.min(x0, x1), x1: Math.max(x0, x1), textX: d.textX + shift };
}
