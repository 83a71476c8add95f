import type { Part } from '../part/types.ts';
import { inPicture, onDrawing } from './place.ts';
import type { Scan, Trace } from './scan.ts';

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

/** A length as it measures in the picture, with the most that this can be off; millimetres. */
export type Scaled = { readonly mm: number; readonly within: number };

/**
 * What lies between two traced places, by the scale of the picture. It can be off by both picks, by what the picks of
 * the known size make of it over this length, and by what the paper has stretched. It is never a size.
 */
export function scaledLength(scan: Scan, a: Trace, b: Trace): Scaled | null {
  const { known, scale } = scan;
  if (!known) return null;
  const mm = Math.abs(onDrawing(scan, b.at).x - onDrawing(scan, a.at).x);
  const far = Math.hypot(known.to[0] - known.from[0], known.to[1] - known.from[1]);
  const ofScale = (2 * known.within) / Math.max(far, 1);
  return { mm, within: (a.within + b.within) / scale + mm * (ofScale + STRETCH) };
}
