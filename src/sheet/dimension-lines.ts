import { fromMm } from '../core/lengths/length.ts';
import { writeGap } from '../core/lengths/write.ts';
import type { DrawingPlaces } from '../core/outline/drawing-places.ts';
import { packLanes, packLeaders, type Lane } from '../core/outline/lanes.ts';
import type { Ink } from './ink.ts';
import type { Frame } from './paper.ts';
import type { Typesetter } from './type.ts';
import { writtenText, type SheetMatter } from './wording.ts';

/** Size of the drawing's texts in points, and the height of one lane of dimensions in mm. */
export const LABEL = 8;
export const LANE = 5.2;

const THIN = { width: 0.25 } as const;
const FINE = { width: 0.18 } as const;

/** The part's first face on the page, and page mm in one mm of the part. */
export type View = { readonly x: number; readonly scale: number; readonly places: DrawingPlaces };

/** How a length stands in its chain, told by the shape of its line and by words. */
type LaneState =
  { readonly kind: 'plain' } | { readonly kind: 'twice' } | { readonly kind: 'off'; readonly by: string };

export type DrawnLane = Lane & { readonly text: string; readonly width: number; readonly state: LaneState };

function stateOf(id: string, { report }: SheetMatter): LaneState {
  const clash = report.chains.clashes.find(({ lengths }) => lengths.includes(id));
  if (clash) return { kind: 'off', by: writeGap(fromMm(clash.gap_mm), report.unit) };
  return report.chains.doubled.some(({ lengths }) => lengths.includes(id))
    ? { kind: 'twice' }
    : { kind: 'plain' };
}

const STATE_WORDS = {
  plain: () => '',
  twice: () => ' said twice',
  off: (by: string) => ` off by ${by}`,
} as const;

/** All lengths of the part, packed into lanes under it. */
export function lanesOf(type: Typesetter, { x, scale, places }: View, matter: SheetMatter): DrawnLane[] {
  const wishes = matter.part.lengths.flatMap((length, i) => {
    const [a, b] = [places.at.get(length.from), places.at.get(length.to)];
    if (a === undefined || b === undefined) return [];
    const state = stateOf(length.id, matter);
    const words = STATE_WORDS[state.kind](state.kind === 'off' ? state.by : '');
    const { text } = type.fit(writtenText(length.size, length.tol, length.role) + words, LABEL, LABEL, 70);
    const [x0, x1] = [x + Math.min(a, b) * scale, x + Math.max(a, b) * scale];
    return [
      { id: String(i), x0, x1, width: type.width(text, LABEL) + 2, text, state, lane: length.lane ?? null },
    ];
  });
  const byId = new Map(wishes.map((wish) => [wish.id, wish]));
  return packLanes(wishes, 1.5).flatMap((lane) => {
    const wish = byId.get(lane.id);
    return wish ? [{ ...lane, text: wish.text, width: wish.width, state: wish.state }] : [];
  });
}

export const laneCount = (lanes: readonly DrawnLane[]): number =>
  Math.max(0, ...lanes.map(({ lane }) => lane + 1));

export type DimensionPlace = {
  readonly axis: number;
  /** The lowest point of the part on the page. */
  readonly bottom: number;
  /** How far below the axis the part reaches at a place on the page. */
  readonly lowest: (x: number) => number;
};

/** Dimension lines below the part; stations are named between the part and the first lane. */
export function drawDimensions(
  ink: Ink,
  view: View,
  lanes: readonly DrawnLane[],
  names: readonly StationName[],
  { axis, bottom, lowest }: DimensionPlace,
): void {
  const first = bottom + namesHeight(names);
  const ends = new Map<number, number>();
  for (const lane of lanes) {
    const y = first + lane.lane * LANE;
    drawLane(ink, lane, y);
    for (const x of [lane.x0, lane.x1]) ends.set(x, Math.max(ends.get(x) ?? 0, y + 1));
  }
  const loose = looseAt(view);
  for (const x of loose.keys()) if (!ends.has(x)) ends.set(x, first);
  for (const [x, y] of ends) {
    ink.line([x, axis + lowest(x) + 1, x, y], FINE);
    if (loose.has(x)) wave(ink, x, y);
  }
  for (const { lane, text, textX } of lanes) ink.clearText(text, textX + 1, first + lane * LANE - 0.9, LABEL);
  for (const { text, x, y } of names) ink.clearText(text, x + 0.5, bottom + y, LABEL);
}

const placeOf = ({ x, scale, places }: View, id: string): number => x + (places.at.get(id) ?? 0) * scale;

const looseAt = (view: View): Map<number, string> =>
  new Map([...view.places.loose].map((id) => [placeOf(view, id), id]));

function drawLane(ink: Ink, { x0, x1, state }: DrawnLane, y: number): void {
  const long = x1 - x0;
  if (state.kind === 'off') {
    const [at, half] = [x0 + long * 0.3, Math.min(1.6, long * 0.2)];
    const zigzag = [at - half, y, at - half / 2, y - 1.1, at + half / 2, y + 1.1, at + half, y];
    ink.line([x0, y, ...zigzag, x1, y], THIN);
  } else ink.line([x0, y, x1, y], THIN);
  if (state.kind === 'twice') ink.line([x0, y + 0.8, x1, y + 0.8], THIN);
  const tip = Math.min(2, long * 0.45);
  for (const [x, way] of [
    [x0, tip],
    [x1, -tip],
  ] as const)
    ink.area([x, y, x + way, y - 0.35, x + way, y + 0.35], 'black');
}

/** The end of the extension line of a station that no size places. */
function wave(ink: Ink, x: number, y: number): void {
  const points = Array.from({ length: 13 }, (_, i) => [
    x + Math.sin((i / 12) * 2 * Math.PI) * 0.9,
    y + i * 0.3,
  ]);
  ink.line(points.flat(), THIN);
}

/** A station's name, and where it stands: right of its extension line, in rows where names are close together. */
export type StationName = { readonly text: string; readonly x: number; readonly y: number };

export function stationNames(
  type: Typesetter,
  { right }: Frame,
  view: View,
  part: SheetMatter['part'],
): StationName[] {
  const wishes = [...part.faces, ...part.points].map(({ id }) => {
    const { text } = type.fit(view.places.loose.has(id) ? `${id} not placed` : id, LABEL, LABEL, 30);
    const width = type.width(text, LABEL) + 0.6;
    return { id, text, x: Math.min(placeOf(view, id), right - width), width };
  });
  const step = Math.max(...wishes.map(({ text }) => type.leading(text, LABEL).step));
  return packLeaders(wishes, 0.6).map(({ row, x }, i) => ({
    x,
    y: (row + 1) * step,
    text: wishes[i]?.text ?? '',
  }));
}

/** Room for the names between the part and the first dimension. */
export const namesHeight = (names: readonly StationName[]): number =>
  5.5 + Math.max(0, ...names.map(({ y }) => y));
