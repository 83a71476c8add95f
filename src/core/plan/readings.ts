import { type Length, pm } from '../lengths/length.ts';
import { writeReading } from '../lengths/write.ts';
import type { ResolvedLathe, ResolvedTool } from '../part/resolved.ts';
import { mm } from './frame.ts';
import type { BladeEdge, Reading } from './types.ts';

/** How the carriage readout stands in one holding: a value v shows at part place z = zero + sign · v, all in pm. */
export type Zero = { readonly z: number; readonly sign: 1 | -1 };

/**
 * The sense of the carriage readout. Toward the tailstock is toward the drawn left when the drawn right is at the
 * headstock, and the other way round; a readout may count up either way (toward the tailstock is the ISO 841 sense).
 */
export function signOf(headstock: 'left' | 'right', lathe: ResolvedLathe): 1 | -1 {
  const towardTailstock = headstock === 'right' ? -1 : 1;
  return lathe.readout.zPositive === 'tailstock' ? towardTailstock : (-towardTailstock as 1 | -1);
}

const counts = (value: number, lathe: ResolvedLathe, round: 'nearest' | 'up' | 'down'): string =>
  writeReading(pm(value), lathe.unit, lathe.readout.resolution, round);

/** What the carriage readout shows at part place z, in pm. */
export const zValue = (zero: Zero, z: number): number => (z - zero.z) * zero.sign;

/** A Z reading of a pointed tool at part place z; `station` null where it is on no face. */
export function zReading(zero: Zero, z: number, station: string | null, lathe: ResolvedLathe): Reading {
  const value = zValue(zero, z);
  return {
    axis: 'Z',
    value_mm: mm(value),
    text: counts(value, lathe, 'nearest'),
    station,
    edge: null,
    other: null,
  };
}

type Blade = ResolvedTool & { kind: 'blade' };

/**
 * A Z reading of a blade whose `makes` edge cuts the wall at part place z. The left edge of a blade is the one toward
 * the headstock. Where the touched edge makes the wall the reading is the wall's own place, else it differs by the
 * blade's width.
 */
export function bladeReading(
  at: { zero: Zero; z: number; station: string | null; makes: BladeEdge; headstock: 'left' | 'right' },
  blade: Blade,
  lathe: ResolvedLathe,
): Reading {
  // From the tailstock-side edge to the headstock-side edge, in part coordinates.
  const across = at.headstock === 'right' ? blade.width : -blade.width;
  const leftEdge = at.makes === 'left' ? at.z : at.z + across;
  const value = (edge: BladeEdge): number => zValue(at.zero, edge === 'left' ? leftEdge : leftEdge - across);
  const otherEdge: BladeEdge = blade.edge === 'left' ? 'right' : 'left';
  return {
    axis: 'Z',
    value_mm: mm(value(blade.edge)),
    text: counts(value(blade.edge), lathe, 'nearest'),
    station: at.station,
    edge: blade.edge,
    other: {
      edge: otherEdge,
      value_mm: mm(value(otherEdge)),
      text: counts(value(otherEdge), lathe, 'nearest'),
    },
  };
}

/** An X reading for a diameter; rounded toward metal that can still be cut (outside up, bores down). */
export function xReading(diameter: number, lathe: ResolvedLathe, inside: boolean): Reading {
  const shown = lathe.readout.x === 'radius' ? diameter / 2 : diameter;
  // A radius of an odd picometre is shown to the picometre below; the text rounds to whole counts anyway.
  const text = counts(Math.floor(shown), lathe, inside ? 'down' : 'up');
  return { axis: 'X', value_mm: shown / 1e9, text };
}

/** The quill reading for a depth from the finished face: whole millimetres or thirty-seconds of an inch. */
export function quillReading(depth: Length, lathe: ResolvedLathe): Reading {
  const step = lathe.unit === 'mm' ? 1_000_000_000 : 25_400_000_000 / 32;
  const n = Math.round(depth / step);
  return { axis: 'quill', value_mm: mm(depth), text: lathe.unit === 'mm' ? `${n}` : thirtySeconds(n) };
}

function thirtySeconds(n: number): string {
  const whole = Math.floor(n / 32);
  let top = n % 32;
  let bottom = 32;
  while (top > 0 && top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  if (top === 0) return `${whole}`;
  return whole === 0 ? `${top}/${bottom}` : `${whole} ${top}/${bottom}`;
}
