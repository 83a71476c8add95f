import type { Drawing } from './drawing.ts';
import type { SceneLeader } from './leaders.ts';
import type { Scene, SceneDimension } from './scene.ts';

/** What is lifted off the drawing while it is dragged: stations that move together, and what hangs on them. */
export type Carry = {
  readonly ids: ReadonlySet<string>;
  readonly segments: ReadonlySet<string>;
  /** Stretches of segments that go along as they are, that are drawn out or pushed together, and that rest: places in the file. */
  readonly rigid: readonly Stretch[];
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
  const kinds = part.segments.map((_, k): Way => {
    const ends = [part.faces[k], part.faces[k + 1]].filter((face) => face && ids.has(face.id)).length;
    return all || ends === 1 ? 'moving' : ends === 2 ? 'rigid' : 'resting';
  });
  // A crossing that moves on a segment that does not, or the other way round, draws that segment anew.
  part.crossings.forEach((x) => {
    const ends = [x.at, ...('to' in x ? [x.to] : [])];
    const k = part.faces.findLastIndex((face) => at(face.id) <= at(x.at));
    for (const near of [k - 1, k, k + 1]) {
      const goes = kinds[near] === 'rigid';
      if (near in kinds && ends.some((id) => ids.has(id) !== goes)) kinds[near] = 'moving';
    }
  });
  const segments = new Set(part.segments.flatMap(({ id }, k) => (kinds[k] === 'resting' ? [] : [id])));
  return { ids, ...stretches(kinds), segments, ...freeWay(part, places, ids) };
}

type Way = 'rigid' | 'moving' | 'resting';

function stretches(kinds: readonly Way[]): Pick<Carry, Way> {
  const of: { readonly [kind in Way]: Stretch[] } = { rigid: [], moving: [], resting: [] };
  kinds.forEach((kind, k) => {
    const list = of[kind];
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

/** What goes along as it is: everything that stands on lifted stations alone. It need only be shifted. */
export function rigidOf(scene: Scene, { ids, rigid }: Carry, picture: Scene['picture']): Scene {
  const { part } = scene.drawing;
  const whole = new Set(
    rigid.flatMap(({ first, last }) => part.segments.slice(first, last + 1).map(({ id }) => id)),
  );
  return {
    ...scene,
    picture,
    stations: scene.stations.filter(({ id }) => ids.has(id)),
    dimensions: scene.dimensions.filter(({ from, to }) => ids.has(from) && ids.has(to)),
    leaders: scene.leaders.filter((l) => goesWhole(scene.drawing, l, ids)),
    sides: scene.sides.filter(({ choice }) => whole.has(choice.id)),
    ordinates: scene.ordinates.filter(({ station }) => ids.has(station)),
  };
}

function goesWhole(drawing: Drawing, leader: SceneLeader, ids: ReadonlySet<string>): boolean {
  const feet = footOf(drawing, leader);
  return feet.length > 0 && feet.every((id) => ids.has(id));
}

/** What is drawn out or pushed together: between a lifted station and one that rests. */
export function elasticOf(scene: Scene, carry: Carry): Scene {
  const { ids, segments } = carry;
  const goes = goesOf(scene, carry);
  const rigid = new Set(rigidOf(scene, carry, scene.picture).sides);
  return {
    ...scene,
    stations: [],
    dimensions: scene.dimensions.filter(({ from, to }) => ids.has(from) !== ids.has(to)),
    leaders: scene.leaders.filter((l) => goes.leader(l) && !goesWhole(scene.drawing, l, ids)),
    sides: scene.sides.filter((s) => segments.has(s.choice.id) && !rigid.has(s)),
    ordinates: [],
  };
}

/** What is elastic, for lifted stations moved by so many mm; lanes and rows stay until it is put down. */
export function stretchedBy(elastic: Scene, { ids }: Carry, by: number, picture: Scene['picture']): Scene {
  const px = by * elastic.view.scale;
  const off = (id: string) => (ids.has(id) ? px : 0);
  return {
    ...elastic,
    picture,
    dimensions: elastic.dimensions.map((d) => movedDimension(d, off, elastic)),
    leaders: elastic.leaders.map((l) => {
      const feet = footOf(elastic.drawing, l);
      const aside = feet.reduce((sum, id) => sum + off(id), 0) / Math.max(feet.length, 1);
      return { ...l, x: l.x + aside, tipX: l.tipX + aside };
    }),
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
