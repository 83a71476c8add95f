import type { Unit } from '../core/lengths/length.ts';
import { calloutsOf, dimensionsOf, type Dimension } from '../core/outline/dimensions.ts';
import { drawingDiameters } from '../core/outline/drawing-diameters.ts';
import { drawingPlaces, type DrawingPlaces } from '../core/outline/drawing-places.ts';
import { packLanes, packLeaders } from '../core/outline/lanes.ts';
import type { Picture } from '../core/outline/picture.ts';
import type { Part } from '../core/part/types.ts';
import type { Report } from '../core/report-types.ts';
import { anchorsOf, type Anchor } from './anchors.ts';
import { kindsOf, type Choice, type ChoiceKind } from './choice.ts';
import type { Measure } from './label.ts';
import type { Viewport } from './viewport.ts';

/** What does not change with zoom: places in millimetres, and what wants room around them. */
export type Drawing = {
  readonly part: Part;
  readonly places: DrawingPlaces;
  readonly stations: readonly Station[];
  readonly dimensions: readonly Dimension[];
  readonly callouts: readonly Anchor[];
  /** Largest radius, mm. */
  readonly tall: number;
  /** What each id of the part names. */
  readonly kinds: ReadonlyMap<string, ChoiceKind>;
};
export type Station = {
  readonly id: string;
  readonly name: string | null;
  readonly kind: 'face' | 'point';
  readonly mm: number;
  /** Largest drawn radius beside it, mm. */
  readonly radius: number;
  readonly loose: boolean;
};

/** The drawing laid out at one zoom; pixels from the viewport's origin, y down. */
export type Scene = {
  readonly drawing: Drawing;
  readonly picture: Picture;
  readonly view: Viewport;
  readonly stations: readonly SceneStation[];
  readonly dimensions: readonly SceneDimension[];
  readonly leaders: readonly SceneLeader[];
  /** What all of it covers, for fitting. */
  readonly bounds: {
    readonly left: number;
    readonly right: number;
    readonly top: number;
    readonly bottom: number;
  };
};
export type SceneStation = Station & {
  readonly x: number;
  /** The extension line, null where nothing hangs on it. */
  readonly line: { readonly from: number; readonly to: number } | null;
  /** "not placed", where its text begins. */
  readonly note: { readonly text: string; readonly x: number; readonly y: number } | null;
};
export type SceneDimension = Dimension & {
  readonly x0: number;
  readonly x1: number;
  readonly y: number;
  readonly textX: number;
  readonly width: number;
  readonly beside: 'left' | 'right' | null;
};
export type SceneLeader = {
  readonly choice: Choice;
  readonly text: string;
  readonly x: number;
  readonly anchorY: number;
  readonly y: number;
  readonly width: number;
};

export const LANE_PITCH = 23;
const LEADER_PITCH = 19;
/** Length of an arrow, px. */
export const ARROW = 8;
/** Arrows stand outside a dimension that is too short for both. */
export const arrowsOutside = (x0: number, x1: number): boolean => x1 - x0 < 3 * ARROW;
const NOTE_PITCH = 18;
const BELOW = 30;
const ABOVE = 24;
const GAP = 8;

/** Everything about a part that the board lays out, before zoom. */
export function drawingOf(part: Part, report: Report, unit: Unit): Drawing {
  const places = drawingPlaces(part, report.chains);
  const diameters = drawingDiameters(part, report.diameters, places.extent);
  const radii = part.segments.map((s) => {
    const d = diameters.get(s.id);
    return { left: (d?.left ?? 0) / 2, right: (d?.right ?? 0) / 2 };
  });
  const faceRadius = (k: number) => Math.max(radii[k - 1]?.right ?? 0, radii[k]?.left ?? 0);
  const mmOf = (id: string) => places.at.get(id) ?? 0;
  const radiusAt = (mm: number) => {
    const k = part.faces.findLastIndex((f, i) => i < part.segments.length && mmOf(f.id) <= mm);
    return Math.max(radii[Math.max(k, 0)]?.left ?? 0, radii[Math.max(k, 0)]?.right ?? 0);
  };
  const station = (kind: Station['kind'], radius: (mm: number, i: number) => number) => {
    return ({ id, name }: { id: string; name?: string }, i: number): Station => ({
      id,
      name: name ?? null,
      kind,
      mm: mmOf(id),
      radius: radius(mmOf(id), i),
      loose: places.loose.has(id),
    });
  };
  return {
    part,
    places,
    stations: [
      ...part.faces.map(station('face', (_mm, i) => faceRadius(i))),
      ...part.points.map(station('point', radiusAt)),
    ],
    dimensions: dimensionsOf(part, report.chains, unit),
    callouts: anchorsOf(part, calloutsOf(part), mmOf, radiusAt),
    kinds: kindsOf(part),
    tall: Math.max(1e-3, ...radii.flatMap((r) => [r.left, r.right])),
  };
}

/** Lays the drawing out at a zoom, or what of it `shows` lets through. Cost: quadratic in dimensions and callouts. */
export function sceneOf(
  whole: Drawing,
  picture: Picture,
  view: Viewport,
  measure: Measure,
  shows: (choice: Choice) => boolean = () => true,
): Scene {
  const { scale } = view;
  const drawing = {
    ...whole,
    dimensions: whole.dimensions.filter(({ id }) => shows({ kind: 'length', id })),
    callouts: whole.callouts.filter(({ choice }) => shows(choice)),
  };
  const dimensions = layDimensions(drawing, scale, measure);
  const lanes = Math.max(0, ...dimensions.map((d) => d.lane + 1));
  const laneY = (lane: number) => drawing.tall * scale + BELOW + lane * LANE_PITCH;
  const laid = dimensions.map(({ lane, ...d }): SceneDimension => ({ ...d, y: laneY(lane) }));
  const stations = layStations(drawing, scale, laid, laneY(lanes) - 8, measure);
  const leaders = layLeaders(drawing, scale, measure);
  const ends = [
    ...laid.flatMap((d) => [d.x0, d.x1, d.textX, d.textX + d.width]),
    ...leaders.map((l) => l.x + l.width),
    ...stations.flatMap((s) => (s.note ? [s.note.x + measure(s.note.text)] : [])),
  ];
  return {
    drawing,
    picture,
    view,
    stations,
    dimensions: laid,
    leaders,
    bounds: {
      left: Math.min(0, ...ends) - 14,
      right: Math.max(drawing.places.extent * scale, ...ends) + 14,
      top: Math.min(-drawing.tall * scale - ABOVE, ...leaders.map((l) => l.y - 16)) - 6,
      bottom: Math.max(laneY(lanes), ...stations.map((s) => (s.note ? s.note.y + 12 : 0))) + 6,
    },
  };
}

/** Brackets, note and all: what stands with a dimension. */
export const dimensionLabel = (d: Dimension): string => (d.note ? `${d.text}  ${d.note}` : d.text);

function layDimensions({ dimensions, places }: Drawing, scale: number, measure: Measure) {
  const ends = dimensions.flatMap((d) => {
    const [a, b] = [places.at.get(d.from), places.at.get(d.to)];
    if (a === undefined || b === undefined || a === b) return [];
    return [
      { d, x0: Math.min(a, b) * scale, x1: Math.max(a, b) * scale, width: measure(dimensionLabel(d)) + 8 },
    ];
  });
  const packed = packLanes(
    ends.map(({ d, x0, x1, width }) => ({
      id: d.id,
      x0,
      x1,
      width,
      outside: arrowsOutside(x0, x1) ? 2 * ARROW : 0,
    })),
    GAP,
  );
  return packed.flatMap((lane, i) => {
    const end = ends[i];
    return end ? [{ ...end.d, ...lane, textX: lane.textX + 4, width: end.width - 8 }] : [];
  });
}

function layStations(
  { stations }: Drawing,
  scale: number,
  dimensions: readonly SceneDimension[],
  below: number,
  measure: Measure,
): SceneStation[] {
  const notes = packLeaders(
    stations
      .filter((s) => s.loose)
      .map((s) => ({ id: s.id, x: s.mm * scale, width: measure('not placed') + 8 })),
    6,
  );
  const rows = new Map(notes.map((n) => [n.id, n.row]));
  return stations.map((s) => {
    const x = s.mm * scale;
    const lowest = Math.max(
      ...dimensions.filter((d) => d.from === s.id || d.to === s.id).map((d) => d.y + 7),
      -Infinity,
    );
    const row = rows.get(s.id);
    const noteY = row === undefined ? null : below + 14 + row * NOTE_PITCH;
    const to = noteY ?? lowest;
    return {
      ...s,
      x,
      line: Number.isFinite(to) ? { from: s.radius * scale + 4, to } : null,
      note: noteY === null ? null : { text: 'not placed', x: x + 7, y: noteY + 3 },
    };
  });
}

function layLeaders({ callouts, tall }: Drawing, scale: number, measure: Measure): SceneLeader[] {
  const spread = apart(
    callouts.map((c) => c.mm * scale),
    7,
  );
  const packed = packLeaders(
    callouts.map((c, i) => ({
      id: `${c.choice.kind} ${c.choice.id}`,
      x: spread[i] ?? 0,
      width: measure(c.text) + 6,
    })),
    GAP,
  );
  return callouts.flatMap((c, i) => {
    const leader = packed[i];
    if (!leader) return [];
    const y = -tall * scale - ABOVE - leader.row * LEADER_PITCH;
    const anchorY = -c.up * scale;
    return [{ choice: c.choice, text: c.text, x: leader.x, anchorY, y, width: leader.width }];
  });
}

/** Nudges places that nearly coincide to the right, so that two leaders do not become one line. */
function apart(xs: readonly number[], least: number): number[] {
  const order = xs.map((x, i) => ({ x, i })).sort((a, b) => a.x - b.x || a.i - b.i);
  const out = [...xs];
  let last = -Infinity;
  for (const { x, i } of order) {
    last = Math.max(x, last + least);
    out[i] = last;
  }
  return out;
}
