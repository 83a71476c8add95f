import { ownField } from '../part/shape.ts';
import type { Part, Segment } from '../part/types.ts';
import { inPicture, onDrawing, type Place } from './place.ts';
import type { HoleTrace, Known, Pixel, Scan, TallTrace, Trace } from './scan.ts';

/**
 * How far off a pick is taken to be, in pixels of the picture and in pixels of the screen, whichever is coarser: a
 * printed line is some pixels wide, and a hand points to within a few of the screen's. Common practice, no source.
 */
const PICTURE_PIXELS = 2;
const SCREEN_PIXELS = 2;
/** What paper and copier stretch one stretch against another, as a share of the length. Common practice, no source. */
const STRETCH = 0.005;

/** How far off a pick may be, px of the picture. @param zoom - Pixels of the screen to a millimetre of the drawing. */
export const pickError = ({ scale }: Pick<Scan, 'scale'>, zoom: number): number =>
  Number(Math.max(PICTURE_PIXELS, (SCREEN_PIXELS * scale) / zoom).toFixed(2));

/**
 * The picture with a face or point marked as seen at so many millimetres along the drawing. An earlier mark of the
 * same station goes.
 */
export function withTrace(scan: Scan, station: string, mm: number, sketched: number, within: number): Scan {
  const trace: Trace = { station, at: inPicture(scan, { x: mm, y: 0 }), sketched, within };
  const others = (scan.traced ?? []).filter((one) => one.station !== station);
  return { ...scan, traced: [...others, trace] };
}

/**
 * The picture with a land marked as tall as it was pointed to: `mm` along the drawing, `radius` above the axis. An
 * earlier mark of the same segment goes. A place nearer to the axis than three times what it can be off tells nothing
 * of a diameter, and only its place along the axis was meant: then the picture as it was.
 */
export function withTall(
  scan: Scan,
  segment: string,
  { mm, radius, sketched, within }: { mm: number; radius: number; sketched: number; within: number },
): Scan {
  if (radius * scan.scale < 3 * within) return scan;
  const trace: TallTrace = { segment, at: inPicture(scan, { x: mm, y: radius }), sketched, within };
  return { ...scan, traced_tall: [...tallOfOthers(scan, segment), trace] };
}

const tallOfOthers = (scan: Scan, segment: string): readonly TallTrace[] =>
  (scan.traced_tall ?? []).filter((one) => one.segment !== segment);

/**
 * The picture with a segment of the part marked by two places on its outline, where it begins and where it ends, in either
 * order and on either side of the axis: both its faces, and how thick it is there; a land as thick as the middle of
 * both. Earlier marks of these go. Null where the part has no such segment, or the places are not apart along the axis by
 * more than they can be off.
 */
export function withOutline(
  scan: Scan,
  part: Part,
  id: string,
  picks: readonly [Pixel, Pixel],
  within: number,
): Scan | null {
  const i = part.segments.findIndex((one) => one.id === id);
  const [segment, ...faces] = [part.segments[i], part.faces[i], part.faces[i + 1]] as const;
  const ends = inOrder(scan, picks, within);
  if (!segment || !ends) return null;
  const marked = faces.reduce(
    (now, face, k) => (face ? withTrace(now, face.id, ends[k]?.x ?? 0, face.sketched, within) : now),
    scan,
  );
  const tall = sketchedTall(segment);
  const common = { ...(tall === null ? {} : { sketched: tall }), within };
  const [start, end] = ends;
  const middle = { x: (start.x + end.x) / 2, y: (start.y + end.y) / 2 };
  const traces: readonly TallTrace[] =
    segment.form === 'taper'
      ? [
          { segment: id, end: 'start', at: inPicture(scan, start), ...common },
          { segment: id, end: 'end', at: inPicture(scan, end), ...common },
        ]
      : [{ segment: id, at: inPicture(scan, middle), ...common }];
  return { ...marked, traced_tall: [...tallOfOthers(scan, id), ...traces] };
}

/** The picture with a hole marked by its wall where it begins and where it ends; null where these are not apart along the axis. */
export function withHole(
  scan: Scan,
  hole: string,
  picks: readonly [Pixel, Pixel],
  within: number,
): Scan | null {
  if (!inOrder(scan, picks, within)) return null;
  const trace: HoleTrace = { hole, from: picks[0], to: picks[1], within };
  const others = (scan.traced_holes ?? []).filter((one) => one.hole !== hole);
  return { ...scan, traced_holes: [...others, trace] };
}

/** Two picks as they lie on the drawing, from left to right and above the axis; null where neither is clearly left of the other. */
function inOrder(scan: Scan, picks: readonly [Pixel, Pixel], within: number): [Place, Place] | null {
  const above = (pick: Pixel): Place => {
    const { x, y } = onDrawing(scan, pick);
    return { x, y: Math.abs(y) };
  };
  const [a, b] = [above(picks[0]), above(picks[1])];
  if (Math.abs(b.x - a.x) * scan.scale <= 2 * within) return null;
  return a.x < b.x ? [a, b] : [b, a];
}

/** How thick a segment was sketched, in the unit of the part; null where it was not. It is no size, so the part file need not have it. */
export const sketchedTall = (segment: Segment): number | null => {
  const tall = ownField(segment, 'sketched');
  return typeof tall === 'number' ? tall : null;
};

/** Marks of lands that are still sketched as thick as they were when they were marked. */
export function tallTracesOf(part: Part, scan: Scan): readonly TallTrace[] {
  const tall = new Map(part.segments.map((segment) => [segment.id, sketchedTall(segment)]));
  return (scan.traced_tall ?? []).filter(({ segment, sketched }) => tall.get(segment) === (sketched ?? null));
}

/** Ids of all that counts as traced, each once: stations along the axis, segments, holes. */
export function tracedIds(part: Part, scan: Scan): readonly string[] {
  const holes = new Set(part.holes.map(({ id }) => id));
  return [
    ...tracesOf(part, scan).map(({ station }) => station),
    ...new Set(tallTracesOf(part, scan).map(({ segment }) => segment)),
    ...(scan.traced_holes ?? []).map(({ hole }) => hole).filter((id) => holes.has(id)),
  ];
}

/**
 * What counts as traced: marks of faces and points that are still sketched where they were when they were marked. The
 * first face counts too as long as it has no mark of its own, as the picture was laid with its left end there.
 */
export function tracesOf(part: Part, scan: Scan): readonly Trace[] {
  const stations = new Map([...part.faces, ...part.points].map(({ id, sketched }) => [id, sketched]));
  const marked = (scan.traced ?? []).filter(({ station, sketched }) => stations.get(station) === sketched);
  const first = part.faces[0];
  if (!first || !scan.known || marked.length === 0 || marked.some(({ station }) => station === first.id))
    return marked;
  const laid = { station: first.id, at: scan.origin, sketched: first.sketched, within: scan.known.within };
  return [laid, ...marked];
}

/** What measures in the picture, with the most that this can be off; millimetres. */
export type Scaled = { readonly mm: number; readonly within: number };

/**
 * What lies between two traced places, by the scale of the picture. It can be off by both picks, by what the picks of
 * the known size make of it over this length, and by what the paper has stretched. It is never a size.
 */
export function scaledLength(
  scan: Scan,
  a: Pick<Trace, 'at' | 'within'>,
  b: Pick<Trace, 'at' | 'within'>,
): Scaled | null {
  const { known, scale } = scan;
  if (!known) return null;
  const mm = Math.abs(onDrawing(scan, b.at).x - onDrawing(scan, a.at).x);
  return { mm, within: (a.within + b.within) / scale + mm * ofScale(known) };
}

/**
 * A diameter by the scale of the picture: twice as far as its outline lies from the axis. It can be off by twice the pick
 * and twice how surely the axis lies, which was laid through picks of the known size, and by scale and paper as a length.
 * It is never a size.
 */
export function scaledDiameter(scan: Scan, { at, within }: Pick<TallTrace, 'at' | 'within'>): Scaled | null {
  const { known, scale } = scan;
  if (!known) return null;
  const mm = 2 * Math.abs(onDrawing(scan, at).y);
  return { mm, within: (2 * (within + known.within)) / scale + mm * ofScale(known) };
}

/** What the picks of the known size, and the paper, make of a length, as a share of it. */
function ofScale({ from, to, within }: Known): number {
  const far = Math.hypot(to[0] - from[0], to[1] - from[1]);
  return (2 * within) / Math.max(far, 1) + STRETCH;
}
