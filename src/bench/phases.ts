import { fromMm, type Unit } from '../core/lengths/length.ts';
import { writeDecimal } from '../core/lengths/write.ts';
import type { Cut } from '../core/plan/types.ts';

/** Threads that the lead of a die leaves shallow at a shoulder. Common practice, no source: two to three. */
const LEAD_THREADS = 3;

/** What a step is done in, one thing after another, where it is more than one movement; empty for any other step. */
export function phasesOf(cut: Cut, unit: Unit): readonly string[] {
  const said = (mm: number) => `${writeDecimal(fromMm(mm), unit, unit === 'in' ? 3 : 1)} ${unit}`;
  const pitch = cut.setting?.pitch_mm;
  if (cut.kind === 'thread' && cut.setting?.die && pitch) {
    const length = Math.abs(cut.z1_mm - cut.z0_mm);
    const turns = (length / pitch).toFixed(1);
    return [
      `Spindle out of gear. The die with its lead first, square in the tailstock holder; oil. Begin by hand pressure, then ${turns} turns to the end of the thread, ${said(length)}; half a turn back for each one or two.`,
      `At a shoulder: wind the die off, turn it round in its holder, run it on by hand, and cut the last ${LEAD_THREADS} threads, ${said(LEAD_THREADS * pitch)}, with the side that has the shorter lead. Without a shoulder: leave it as it is.`,
      'Wind it off, brush out the chips, and try the nut or the gauge.',
    ];
  }
  if (cut.kind === 'part-off') {
    const x = cut.readings.find(({ axis }) => axis === 'X');
    return [
      'Before: the centre is backed off, the carriage locked, the blade square and on centre height, the work close to the jaws and caught by a tray or a rod, never by hand.',
      `Cut: slow speed, steady feed, oil; where it chatters or squeals, back out and clear the slot.${x ? ` Stop at X ${x.text}.` : ''}`,
      cut.d1_mm !== null && cut.d1_mm > 0
        ? `Stop the spindle, draw the blade out. A pip ${said(cut.d1_mm)} thick still holds the work: support it until it is sawn through.`
        : 'Stop the spindle and draw the blade out before the work is taken.',
    ];
  }
  return [];
}
