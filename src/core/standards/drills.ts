import { fromMm, nearest, pm, toMm, PM_PER } from '../lengths/length.ts';
import type { Length, Unit } from '../lengths/length.ts';
import type { Outcome } from '../problem.ts';
import { letterDrills, numberDrills } from './drill-sizes.ts';
import { refuse } from './refuse.ts';

export type DrillSeries = 'number' | 'letter' | 'fraction' | 'metric';
export type Drill = { readonly name: string; readonly diameter: Length; readonly series: DrillSeries };

const TEN_THOUSANDTH = PM_PER.in / 10_000;
const SIXTY_FOURTH = PM_PER.in / 64;
const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';

const numbers: readonly Drill[] = numberDrills.map((size, i) => ({
  name: `#${numberDrills.length - i}`,
  diameter: pm(size * TEN_THOUSANDTH),
  series: 'number',
}));
const letters: readonly Drill[] = letterDrills.map((size, i) => ({
  name: LETTERS.charAt(i),
  diameter: pm(size * TEN_THOUSANDTH),
  series: 'letter',
}));
/** 1/64 to 1 in by 64ths. */
const fractions: readonly Drill[] = Array.from({ length: 64 }, (_, i) => ({
  name: fractionName(i + 1, 64),
  diameter: pm((i + 1) * SIXTY_FOURTH),
  series: 'fraction',
}));
/** 0.3 to 13 mm by tenths, then by halves to 25 mm: the usual stock of a drill cabinet, common practice. */
const metrics: readonly Drill[] = [
  ...Array.from({ length: 128 }, (_, i) => (i + 3) / 10),
  ...Array.from({ length: 24 }, (_, i) => 13.5 + i / 2),
].map((mm) => ({ name: metricName(mm), diameter: fromMm(mm), series: 'metric' }));

/** Every drill of the tables, from small to large; of equal sizes the fraction stands before the letter. */
export const drills: readonly Drill[] = [...fractions, ...numbers, ...letters, ...metrics].sort(
  (a, b) => a.diameter - b.diameter,
);

/**
 * What a hole's size is called at the drill cabinet: the number, letter or fraction in inches, the size in mm.
 * A size that no listed drill of that unit has is written out with its unit (".2013 in", "5.03 mm").
 */
export function drillName(d: Length, unit: Unit): string {
  const same: Drill[] = [];
  for (const drill of drills) {
    if (drill.diameter > d) break;
    if (drill.diameter === d) same.push(drill);
  }
  const own = same.find((drill) => (drill.series === 'metric') === (unit === 'mm')) ?? same[0];
  if (own) return own.name;
  if (unit === 'mm') return metricName(Number(toMm(d).toFixed(3)));
  return `${(d / PM_PER.in).toFixed(4).replace(/^0/, '')} in`;
}

/**
 * The largest listed drill that is not over a size, of any series or of those named; null below the smallest.
 * Above the largest it is the largest: the caller sees from `diameter` how much is left.
 */
export function drillAtOrUnder(d: Length, series?: readonly DrillSeries[]): Drill | null {
  const fitting = drills.filter((drill) => drill.diameter <= d && (!series || series.includes(drill.series)));
  const largest = fitting[fitting.length - 1]?.diameter;
  return fitting.find((drill) => drill.diameter === largest) ?? null;
}

/**
 * Reads a drill as it is called: `#7`, `No. 7`, `F`, `13/64`, `1`, `5.1`, `5 mm`, `.201`. A bare figure with
 * one or two decimals, or with mm, is metric, with three and more and none before the point it is inches; a bare whole
 * number is refused, as it may be a number, an inch or a millimetre size.
 */
export function readDrill(text: string): Outcome<Drill> {
  const tidy = text.trim().replace(',', '.');
  const number = /^(?:#|n(?:o|umber|r)\.?\s*)\s*(\d{1,2})$/i.exec(tidy);
  const metric = /^[Øø⌀]?\s*(\d{1,2}(?:\.\d+)?)\s*mm$/i.exec(tidy) ?? /^([1-9]\d?\.\d+|0\.\d\d?)$/.exec(tidy);
  const inches = /^(0?\.\d{3,6})\s*(?:"|in)?$/.exec(tidy);
  const fraction = /^(\d{1,2})(?:\s*\/\s*([1-9]\d?)\s*(?:"|in)?|\s*(?:"|in))$/.exec(tidy);
  const found = number
    ? named(`#${Number(number[1])}`)
    : metric
      ? sized(nearest(Number(metric[1]) * PM_PER.mm), 'metric')
      : fraction
        ? sized(nearest((Number(fraction[1]) / Number(fraction[2] ?? 1)) * PM_PER.in), 'fraction')
        : inches
          ? drills.find(({ diameter, series }) => {
              return diameter === nearest(Number(inches[1]) * PM_PER.in) && series !== 'metric';
            })
          : /^[a-z]$/i.test(tidy)
            ? named(tidy.toUpperCase())
            : undefined;
  if (found) return { ok: true, value: found };
  const say = `“${text.trim()}” is not a drill in the table; write it as #7, F, 13/64 or 5.1 mm.`;
  return refuse('drill-unknown', say, { text });
}

const named = (name: string): Drill | undefined => drills.find((drill) => drill.name === name);
const sized = (diameter: Length, series: DrillSeries): Drill | undefined =>
  drills.find((drill) => drill.diameter === diameter && drill.series === series);

function metricName(mm: number): string {
  return `${mm} mm`;
}

function fractionName(over: number, under: number): string {
  if (over % 2 === 0 && under > 1) return fractionName(over / 2, under / 2);
  return under === 1 ? `${over} in` : `${over}/${under}`;
}
