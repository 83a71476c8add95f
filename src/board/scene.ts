import type { Dimension } from '../core/outline/dimensions.ts';
import { packLanes, packLeaders } from '../core/outline/lanes.ts';
import type { Picture } from '../core/outline/picture.ts';
import type { Choice } from './choice.ts';
import { GAP, LEADER_PITCH, layLeaders, type SceneLeader } from './leaders.ts';
import type { Drawing, Station } from './drawing.ts';
import type { Measure } from './label.ts';
import { laySides, type SceneSide } from './sides.ts';
import type { Viewport } from './viewport.ts';

/** The drawing laid out at one zoom; pixels from the viewport's origin, y down. */
export type Scene = {
  readonly drawing: Drawing;
  readonly picture: Picture;
  readonly view: Viewport;
  readonly spacing: Spacing;
  readonly stations: readonly SceneStation[];
  readonly dimensions: readonly SceneDimension[];
  readonly leaders: readonly SceneLeader[];
  /** Diameters that stand at the side. */
  readonly sides: readonly SceneSide[];
  readonly ordinates: readonly SceneOrdinate[];
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
/** A place written at the end of an extension line. */
export type SceneOrdinate = {
  readonly station: string;
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
};
export type SceneDimension = Dimension & {
  /** Where it stands now; `lane` of the plan is null where it packed itself. */
  readonly inLane: number;
  readonly x0: number;
  readonly x1: number;
  readonly y: number;
  readonly textX: number;
  readonly width: number;
  readonly beside: 'left' | 'right' | null;
};

/** Room between what is written, px: from lane to lane, and from the part to the first lane and the first note. */
export type Spacing = { readonly lane: number; readonly below: number; readonly above: number };
export const ROOMY: Spacing = { lane: 23, below: 30, above: 24 };
/** As near to each other as figures can stand, stacked limits too. */
export const TIGHT: Spacing = { lane: 21, below: 25, above: 16 };
/** Length of an arrow, px. */
export const ARROW = 8;
/** Arrows stand outside a dimension that is too short for both. */
export const arrowsOutside = (x0: number, x1: number): boolean => x1 - x0 < 3 * ARROW;
const NOTE_PITCH = 18;
const NOT_PLACED = 'not placed';

export type Layout = {
  /** What of the drawing is written around it; left out: all. */
  readonly shows?: (choice: Choice) => boolean;
  /** Whether diameters that can be reached from an end stand at the side, not on leaders. */
  readonly sides?: boolean;
  readonly spacing?: Spacing;
  /** Diameters that would stand outside this stretch, px from the first face, stay on leaders; these come down to `top`, px from the axis. */
  readonly within?: { readonly left: number; readonly right: number; readonly top?: number } | null;
};

/** Where a lane lies below the axis, px. */
const laneY = (tall: number, lane: number, spacing: Spacing): number =>
  tall + spacing.below + lane * spacing.lane;

/** The lane that lies nearest to a height below the axis, px. */
export const laneAt = (tall: number, y: number, spacing: Spacing): number =>
  Math.max(0, Math.round((y - tall - spacing.below) / spacing.lane));

/** Lays the drawing out at a zoom. Cost: quadratic in dimensions and callouts. */
export function sceneOf(
  whole: Drawing,
  picture: Picture,
  view: Viewport,
  measure: Measure,
  { shows = () => true, sides: wantsSides = false, spacing = ROOMY, within = null }: Layout = {},
): Scene {
  const { scale } = view;
  const sides = (wantsSides ? laySides(whole, scale, measure, shows) : []).filter(
    ({ textX, width }) => !within || (textX >= within.left && textX + width <= within.right),
  );
  const aside = new Set(sides.map(({ choice }) => choice.id));
  const drawing = {
    ...whole,
    dimensions: whole.dimensions.filter(({ id }) => shows({ kind: 'length', id })),
    callouts: whole.callouts.filter(({ choice }) => shows(choice) && !aside.has(choice.id)),
  };
  const tall = drawing.tall * scale;
  const laid = layDimensions(drawing, scale, measure).map((d): SceneDimension => ({
    ...d,
    y: laneY(tall, d.inLane, spacing),
  }));
  const ordinates = layOrdinates(drawing, scale, measure, spacing);
  const below = Math.max(
    laneY(tall, Math.max(0, ...laid.map((d) => d.inLane + 1)), spacing),
    ...ordinates.map((o) => o.y + LEADER_PITCH),
  );
  const stations = layStations(drawing, scale, laid, ordinates, below - 8, measure, within);
  const leaders = layLeaders(drawing, scale, measure, spacing, within?.top);
  const rest = { stations, dimensions: laid, leaders, sides, ordinates };
  return {
    drawing,
    picture,
    view,
    spacing,
    ...rest,
    bounds: boundsOf(drawing, scale, rest, spacing, measure),
  };
}

type Written = Pick<Scene, 'stations' | 'dimensions' | 'leaders' | 'sides' | 'ordinates'>;

function boundsOf(
  { tall, places }: Drawing,
  scale: number,
  { stations, dimensions, leaders, sides, ordinates }: Written,
  { above }: Spacing,
  measure: Measure,
): Scene['bounds'] {
  const ends = [
    ...dimensions.flatMap((d) => [d.x0, d.x1, d.textX, d.textX + d.width]),
    ...leaders.map((l) => l.x + l.width),
    ...sides.flatMap((s) => [s.textX, s.textX + s.width]),
    ...ordinates.map((o) => o.x + o.width),
    ...stations.flatMap((s) => (s.note ? [s.note.x + measure(s.note.text)] : [])),
  ];
  return {
    left: Math.min(0, ...ends) - 14,
    right: Math.max(places.extent * scale, ...ends) + 14,
    top: Math.min(-tall * scale - above, ...leaders.map((l) => l.y - 16)) - 6,
    bottom: Math.max(
      tall * scale + 14,
      ...[...dimensions, ...ordinates].map(({ y }) => y + 9),
      ...stations.map((s) => (s.note ? s.note.y + 18 : 0)),
    ),
  };
}

function layOrdinates(
  { ordinates, stations, tall }: Drawing,
  scale: number,
  measure: Measure,
  { below }: Spacing,
): SceneOrdinate[] {
  const at = new Map(stations.map(({ id, mm }) => [id, mm * scale]));
  const wishes = ordinates.flatMap(({ station, text }) => {
    const x = at.get(station);
    return text === null || x === undefined ? [] : [{ id: station, text, x, width: measure(text) + 6 }];
  });
  const texts = new Map(wishes.map(({ id, text }) => [id, text]));
  return packLeaders(wishes, GAP).map(({ id, x, width, row }) => ({
    station: id,
    text: texts.get(id) ?? '',
    x,
    y: tall * scale + below + row * LEADER_PITCH,
    width,
  }));
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
      lane: d.lane,
    })),
    GAP,
  );
  return packed.flatMap((lane, i) => {
    const end = ends[i];
    if (!end) return [];
    const { x0, x1, lane: inLane, beside } = lane;
    return [{ ...end.d, x0, x1, beside, inLane, textX: lane.textX + 4, width: end.width - 8 }];
  });
}

function layStations(
  { stations }: Drawing,
  scale: number,
  dimensions: readonly SceneDimension[],
  ordinates: readonly SceneOrdinate[],
  below: number,
  measure: Measure,
  within: Layout['within'],
): SceneStation[] {
  const width = measure(NOT_PLACED) + 8;
  const notes = packLeaders(
    stations.filter((s) => s.loose).map((s) => ({ id: s.id, x: s.mm * scale, width })),
    6,
  );
  const rows = new Map(notes.map((n) => [n.id, n.row]));
  return stations.map((s) => {
    const x = s.mm * scale;
    const lowest = Math.max(
      ...dimensions.filter((d) => d.from === s.id || d.to === s.id).map((d) => d.y + 7),
      ...ordinates.filter((o) => o.station === s.id).map((o) => o.y + 5),
      -Infinity,
    );
    const row = rows.get(s.id);
    const noteY = row === undefined ? null : below + 14 + row * NOTE_PITCH;
    const to = noteY ?? lowest;
    return {
      ...s,
      x,
      line: Number.isFinite(to) ? { from: s.radius * scale + 4, to } : null,
      note:
        noteY === null
          ? null
          : { text: NOT_PLACED, x: within && x + width > within.right ? x + 1 - width : x + 7, y: noteY + 3 },
    };
  });
}
