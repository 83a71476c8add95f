import { type Length, pm, toMm } from '../lengths/length.ts';
import { writeDecimal, writeReading } from '../lengths/write.ts';
import type { ResolvedLathe } from '../part/resolved.ts';
import type { ShiftRow } from './types.ts';

/**
 * How a readout stands to the truth, as it counts: true = shown + shift. Zero where it was just set.
 */
export type Correction = {
  readonly shift: Length;
  readonly set: ShiftRow['set'];
  /** What the readout should have shown. */
  readonly truth: Length;
  readonly enter: string;
};

/** What X shows for a diameter: itself, or half of it on a readout of radii (down to the picometre). */
export const onReadout = (diameter: number, lathe: ResolvedLathe): Length =>
  pm(Math.floor(lathe.readout.x === 'radius' ? diameter / 2 : diameter));

/**
 * A size measured at a known reading corrects the readout from then on.
 *
 * Off by less than one count there is nothing to correct, as the readout could not show it. Where the readout is set,
 * it tells the truth afterwards and later readings stay; where it is left as it is, later readings go by the shift.
 * On X, 0.010 too large on the diameter is 0.005 on a readout of radii.
 *
 * @param before - The shift that readings went by until now.
 * @param shown - What the readout showed when the metal was cut, as it counts.
 * @param truth - What it should have shown for the size that was measured.
 */
export function correction(
  before: Length,
  shown: Length,
  truth: Length,
  set: 'readout' | 'readings',
  lathe: ResolvedLathe,
): Correction {
  const { resolution } = lathe.readout;
  const enter = writeReading(truth, lathe.unit, resolution, 'nearest');
  const off = truth - shown - before;
  if (Math.abs(off) < resolution) return { shift: before, set: 'none', truth, enter };
  return { shift: set === 'readout' ? pm(0) : pm(truth - shown), set, truth, enter };
}

/** A change of a reading with its sign, in whole counts: `+.0005`, `-.010`, `0`. */
export function writeChange(change: Length, lathe: ResolvedLathe): string {
  const text = writeReading(change, lathe.unit, lathe.readout.resolution, 'nearest');
  return change > 0 && /[1-9]/.test(text) ? `+${text}` : text;
}

type At = { holding: string; tool: string; axis: 'X' | 'Z'; after: number; shown: Length };

/** The line of the report about a correction. */
export function shiftRow(at: At, made: Correction, lathe: ResolvedLathe): ShiftRow {
  const by = pm(-made.shift);
  const { axis, tool, holding } = at;
  const here = `${axis} of ${tool} in ${holding}`;
  const amount = writeDecimal(pm(Math.abs(by)), lathe.unit, lathe.unit === 'in' ? 4 : 3);
  const say =
    made.set === 'none'
      ? `${here} stands right, to a count of the readout.`
      : made.set === 'readout'
        ? `Set ${here} to ${made.enter}; later readings stay as planned.`
        : `${here} is left as it is, and shows ${amount} too ${by < 0 ? 'little' : 'much'}: later readings go ${by < 0 ? 'down' : 'up'} by that, to whole counts of the readout.`;
  return {
    ...{ holding, tool, axis, after: at.after, set: made.set, enter: made.enter, say },
    shown_mm: toMm(at.shown),
    true_mm: toMm(made.truth),
    by_mm: toMm(by),
  };
}
