import type { Part } from '../part/types.ts';
import type { Report } from '../report-types.ts';
import { drawingDiameters, type DrawnDiameters } from './drawing-diameters.ts';
import { drawingPlaces, type DrawingPlaces } from './drawing-places.ts';
import { hatchLines } from './hatching.ts';
import type { LineRole, Picture, PictureItem } from './picture.ts';
import { drawnSegments, type DrawnSegment } from './profile.ts';
import { drawnCrossings, type DrawnCrossing } from './profile-crossings.ts';
import { drawnHoles, insideOf, type DrawnHole } from './profile-holes.ts';
import { between, clipTo, combine, radiusAt, runs, type Piece, type Radial } from './radial.ts';

/** What of the report a drawing needs: places and diameters. */
export type Solved = Pick<Report, 'chains' | 'diameters'>;

/** Seen from outside, cut open below the axis, or cut open right through. */
export type View = 'outside' | 'half' | 'section';
export type ProfileOptions = {
  /** Left out: half in section where holes run along the axis, else from outside, as a solid shaft is not cut. */
  readonly view?: View;
  /** Between hatch lines, mm; left out: a hundredth of the part's length. */
  readonly hatch?: number;
  /** Worked out already, for a caller that needs the same places. */
  readonly places?: DrawingPlaces;
  /** Worked out already, by segment id. */
  readonly diameters?: ReadonlyMap<string, DrawnDiameters>;
  /**
   * Only the segments from the first to the last of these places in the file, with what is cut across them: for what
   * moves while the rest stands still. Left out: the whole part, with the holes along it and its axis.
   */
  readonly only?: { readonly first: number; readonly last: number };
};

type Drawn = {
  readonly segments: readonly DrawnSegment[];
  readonly outside: readonly Piece[];
  readonly holes: readonly DrawnHole[];
  readonly inside: readonly Piece[];
  readonly crossings: readonly DrawnCrossing[];
  readonly places: DrawingPlaces;
  readonly faces: readonly string[];
  readonly hatch: number;
};

/**
 * The part as a drawing: outline with its edges, threads with a thin root line, holes and crossings (cut, or as hidden
 * lines), hatching where cut, the axis. Faces, segments, holes and crossings carry their ids. What cannot be read is
 * left out or drawn by its neighbours; nothing fails.
 */
export function profilePicture(part: Part, solved: Solved, options: ProfileOptions = {}): Picture {
  const places = options.places ?? drawingPlaces(part, solved.chains);
  const diameters = options.diameters ?? drawingDiameters(part, solved.diameters, places.extent);
  const drawn = drawnPart(part, places, diameters, options);
  const view = options.view ?? (part.holes.length > 0 ? 'half' : 'outside');
  const upper = view === 'section' ? cutSide(drawn, 1) : outsideSide(drawn, 1);
  const lower = view === 'outside' ? outsideSide(drawn, -1) : cutSide(drawn, -1);
  const areas = [...upper, ...lower].filter((item) => item.kind === 'area');
  const lines = [...upper, ...lower].filter((item) => item.kind !== 'area');
  return { items: [...areas, ...lines, ...shapes(drawn, view), ...axes(drawn, options.only !== undefined)] };
}

function drawnPart(
  part: Part,
  places: DrawingPlaces,
  diameters: ReadonlyMap<string, DrawnDiameters>,
  { hatch, only }: ProfileOptions,
): Drawn {
  const { segments, faces, crossings } = only
    ? stretch(part, places, diameters, only)
    : whole(part, places, diameters);
  const outside = segments.flatMap((s) => s.outside);
  const holes = drawnHoles(part, places.extent);
  const inside = insideOf(holes);
  const [x0, x1] = [segments[0]?.x0 ?? 0, segments.at(-1)?.x1 ?? 0];
  return {
    segments,
    outside,
    holes: only ? [] : holes,
    inside: only ? clipTo(inside, x0, x1) : inside,
    crossings: drawnCrossings({ ...part, crossings: [...crossings] }, places, outside),
    places,
    faces: faces.map((f) => f.id),
    hatch: hatch ?? places.extent / 100,
  };
}

type Stretch = Pick<Part, 'faces' | 'crossings'> & { readonly segments: readonly DrawnSegment[] };

const whole = (
  part: Part,
  places: DrawingPlaces,
  diameters: ReadonlyMap<string, DrawnDiameters>,
): Stretch => ({
  segments: drawnSegments(part, places, diameters),
  faces: part.faces,
  crossings: part.crossings,
});

/** Some neighbouring segments. One more to either side is looked at, as a fillet reaches up to its neighbour. */
function stretch(
  part: Part,
  places: DrawingPlaces,
  diameters: ReadonlyMap<string, DrawnDiameters>,
  { first, last }: { first: number; last: number },
): Stretch {
  const from = Math.max(first - 1, 0);
  const near = {
    ...part,
    faces: part.faces.slice(from, last + 3),
    segments: part.segments.slice(from, last + 2),
  };
  const wanted = new Set(part.segments.slice(first, last + 1).map(({ id }) => id));
  const at = (id: string | undefined) => places.at.get(id ?? '') ?? 0;
  const [x0, x1] = [at(part.faces[first]?.id), at(part.faces[last + 1]?.id)];
  return {
    segments: drawnSegments(near, places, diameters).filter(({ id }) => wanted.has(id)),
    faces: part.faces.slice(first, last + 2),
    crossings: part.crossings.filter((x) => at(x.at) >= x0 && at(x.at) <= x1),
  };
}

const line = (role: LineRole, points: readonly number[], id?: string): PictureItem =>
  id === undefined ? { kind: 'line', points, role } : { kind: 'line', points, role, id };

const cutsOf = (crossing: DrawnCrossing, side: 1 | -1) => (side > 0 ? crossing.upper : crossing.lower);

/** The outline as seen: a flat takes from it, a hole or a keyseat does not. */
function seenOutside({ outside, crossings }: Drawn, side: 1 | -1): readonly Piece[] {
  return crossings
    .filter((c) => c.form === 'flat')
    .reduce<readonly Piece[]>((r, c) => combine(r, cutsOf(c, side), 'smaller', Infinity), outside);
}

function outsideSide(drawn: Drawn, side: 1 | -1): PictureItem[] {
  const outer = seenOutside(drawn, side);
  const items: PictureItem[] = drawn.segments.flatMap((s) =>
    between(clipTo(outer, s.x0, s.x1), [], side).map((points): PictureItem => ({
      kind: 'area',
      points,
      role: 'steel',
      id: s.id,
    })),
  );
  items.push(...runs(outer, side).map((points) => line('outline', points)));
  items.push(...edgesAcross(drawn, outer, side), ...threads(drawn, side));
  for (const hole of drawn.holes) {
    items.push(...runs(hole.inside, side).map((points) => line('hidden', points, hole.id)));
    items.push(...steps(hole.inside, side, 'hidden', hole.id));
    if (hole.thread) items.push(...runs(hole.thread, side).map((points) => line('hidden', points, hole.id)));
  }
  for (const crossing of drawn.crossings) items.push(...hiddenEdgeOn(drawn, crossing, side));
  return items;
}

function cutSide(drawn: Drawn, side: 1 | -1): PictureItem[] {
  const { crossings, inside, segments, places } = drawn;
  const outer = crossings
    .filter((c) => c.form !== 'flat')
    .reduce((r, c) => combine(r, cutsOf(c, side), 'smaller', Infinity), seenOutside(drawn, side) as Piece[]);
  const items: PictureItem[] = [];
  for (const { id, x0, x1 } of segments)
    for (const points of between(clipTo(outer, x0, x1), clipTo(inside, x0, x1), side)) {
      items.push({ kind: 'area', points, role: 'section', id });
      items.push(...hatchLines(points, drawn.hatch).map((p) => line('hatch', p)));
    }
  items.push(...runs(combine(outer, inside, 'larger'), side).map((points) => line('outline', points)));
  items.push(...threads(drawn, side));
  for (const hole of drawn.holes) {
    items.push(...runs(hole.inside, side).map((points) => line('outline', points, hole.id)));
    items.push(...steps(hole.inside, side, 'outline', hole.id));
    if (hole.thread) items.push(...runs(hole.thread, side).map((points) => line('thin', points, hole.id)));
  }
  const ends = [drawn.faces[0], drawn.faces.at(-1)];
  for (const [i, x] of [0, places.extent].entries())
    items.push(line('outline', [x, 0, x, side * radiusAt(outer, x)], ends[i]));
  return items;
}

/** Faces, and where edges begin, seen across the part. A face between equal diameters is only a thin line. */
function edgesAcross(drawn: Drawn, outer: Radial, side: 1 | -1): PictureItem[] {
  const { segments, faces, places } = drawn;
  const across = (x: number, role: LineRole, id?: string) =>
    line(role, [x, 0, x, side * radiusAt(outer, x)], id);
  const seen = faces.map((id, k) => {
    const x = places.at.get(id) ?? 0;
    const [a, b] = [segments[k - 1]?.outside.at(-1), segments[k]?.outside[0]];
    const flush = a && b && Math.abs(a.r1 - b.r0) < 1e-6 && Math.abs(a.r0 - a.r1 - (b.r0 - b.r1)) < 1e-6;
    return across(x, flush ? 'thin' : 'outline', id);
  });
  return [...seen, ...segments.flatMap((s) => s.corners.map((x) => across(x, 'outline')))];
}

function threads({ segments }: Drawn, side: 1 | -1): PictureItem[] {
  return segments.flatMap(({ id, outside, root }) => {
    if (root === null) return [];
    const within = outside.filter((p) => p.r0 >= root || p.r1 >= root);
    const [x0, x1] = [within[0]?.x0, within.at(-1)?.x1];
    if (x0 === undefined || x1 === undefined) return [];
    return [line('thin', [x0, side * root, x1, side * root], id)];
  });
}

/** Lines from the axis where a hole's radius steps or turns. */
function steps(inside: Radial, side: 1 | -1, role: LineRole, id: string): PictureItem[] {
  const turns = inside.flatMap((p, i) => {
    const next = inside[i + 1];
    const slope = (q: Piece) => (q.r1 - q.r0) / (q.x1 - q.x0);
    const straight = next && Math.abs(next.r0 - p.r1) < 1e-6 && Math.abs(slope(p) - slope(next)) < 1e-6;
    return straight ? [] : [p.x1];
  });
  return turns
    .map((x) => [x, radiusAt(inside, x)] as const)
    .filter(([, r]) => r > 1e-6)
    .map(([x, r]) => line(role, [x, 0, x, side * r], id));
}

function hiddenEdgeOn({ outside, inside }: Drawn, crossing: DrawnCrossing, side: 1 | -1): PictureItem[] {
  if (crossing.form === 'flat') return [];
  return cutsOf(crossing, side).flatMap(({ x0, x1, r0 }) => {
    const floor = (x: number) => Math.max(r0, radiusAt(inside, x));
    const wall = (x: number) =>
      line('hidden', [x, side * radiusAt(outside, x), x, side * floor(x)], crossing.id);
    const bottom = line('hidden', [x0, side * floor(x0), x1, side * floor(x1)], crossing.id);
    return r0 > radiusAt(inside, x0) ? [wall(x0), bottom, wall(x1)] : [wall(x0), wall(x1)];
  });
}

/** Face-on crossings: what is left of the view shows them; in front of a cut they are only hinted at. */
function shapes({ crossings }: Drawn, view: View): PictureItem[] {
  return crossings.flatMap((crossing) => {
    const draw = (role: LineRole, lines: readonly (readonly number[])[]) =>
      lines.map((points) => line(role, points, crossing.id));
    const seen: LineRole = crossing.near ? 'outline' : 'hidden';
    if (view === 'section') return draw(crossing.near ? 'ghost' : 'hidden', crossing.shape);
    if (view === 'outside') return [...draw(seen, crossing.shape), ...draw('thin', crossing.diagonals)];
    return [
      ...draw(
        seen,
        crossing.shape.flatMap((points) => half(points, 1)),
      ),
      ...draw(
        crossing.near ? 'ghost' : 'hidden',
        crossing.shape.flatMap((points) => half(points, -1)),
      ),
      ...draw(
        'thin',
        crossing.diagonals.flatMap((points) => half(points, 1)),
      ),
    ];
  });
}

/** The parts of a line above (or below) the axis. */
function half(points: readonly number[], side: 1 | -1): number[][] {
  const kept: number[][] = [];
  let open = false;
  for (let i = 0; i + 3 < points.length; i += 2) {
    const [ax = 0, ay = 0, bx = 0, by = 0] = points.slice(i, i + 4);
    const [ina, inb] = [side * ay >= 0, side * by >= 0];
    const x = ay === by ? ax : ax + ((bx - ax) * ay) / (ay - by);
    if (!ina && !inb) {
      open = false;
      continue;
    }
    if (!open) kept.push(ina ? [ax, ay] : [x, 0]);
    kept.at(-1)?.push(...(inb ? [bx, by] : [x, 0]));
    open = inb;
  }
  return kept;
}

function axes({ places, crossings, outside }: Drawn, onlyCross: boolean): PictureItem[] {
  const over = places.extent / 25;
  const cross = crossings
    .filter((c) => c.form === 'hole')
    .map((c) => {
      const x = (c.x0 + c.x1) / 2;
      const r = 1.15 * radiusAt(outside, x);
      return line('centre', c.shape.length > 0 || c.lower.length > 0 ? [x, -r, x, r] : [x, 0, x, r], c.id);
    });
  return onlyCross ? cross : [line('centre', [-over, 0, places.extent + over, 0]), ...cross];
}
