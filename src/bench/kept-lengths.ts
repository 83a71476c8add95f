import type { Placed } from '../core/actuals/step-name.ts';
import type { ActualsReport } from '../core/actuals/types.ts';
import { fromMm, type Unit } from '../core/lengths/length.ts';
import { writeDecimal } from '../core/lengths/write.ts';
import type { Part } from '../core/part/types.ts';

/** A drawing length that can still be kept, and the next readings that make its open faces. */
export type KeptLength = {
  readonly length: string;
  readonly now: string;
  readonly cuts: readonly { n: number; station: string; text: string; planned: string }[];
};

/** Lengths that are still to be cut and stay in their limits, each with where its faces are cut now. */
export function keptLengths(
  actuals: ActualsReport,
  steps: readonly Placed[],
  part: Part,
  unit: Unit,
): readonly KeptLength[] {
  const open = new Set(actuals.stations.flatMap(({ station, state }) => (state === 'open' ? [station] : [])));
  return actuals.lengths
    .filter(({ state, ok }) => state === 'open' && ok)
    .map(({ length, now_mm }) => {
      const drawn = part.lengths.find(({ id }) => id === length);
      const ends = [drawn?.from, drawn?.to].filter((end) => end !== undefined && open.has(end));
      const cuts = ends.flatMap((station) => nextReading(actuals, steps, station ?? ''));
      return { length, now: `${writeDecimal(fromMm(now_mm), unit, unit === 'in' ? 4 : 3)} ${unit}`, cuts };
    });
}

/** The next reading that is to be cut at a station, as it is now. */
function nextReading(actuals: ActualsReport, steps: readonly Placed[], station: string): KeptLength['cuts'] {
  for (const { cut } of steps) {
    if (actuals.done.includes(cut.n) || cut.kind === 'touch') continue;
    const at = cut.readings.findIndex((reading) => reading.axis === 'Z' && reading.station === station);
    const reading = cut.readings[at];
    if (!reading) continue;
    const now = actuals.readings.find((moved) => moved.n === cut.n && moved.at === at);
    return [{ n: cut.n, station, text: now?.text ?? reading.text, planned: reading.text }];
  }
  return [];
}
