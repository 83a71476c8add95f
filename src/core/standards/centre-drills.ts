import { fromInches, fromMm, toMm } from '../lengths/length.ts';
import type { Length, Unit } from '../lengths/length.ts';
import type { Outcome } from '../problem.ts';
import type { Provenance } from './origin.ts';
import { refuse } from './refuse.ts';

/** A 60 degree centre drill: its pilot, its body, and the usual mouth of the centre hole that it makes. */
export type CentreDrill = {
  readonly designation: string;
  readonly pilot: Length;
  readonly body: Length;
  /** Usual diameter of the centre hole at the face. */
  readonly mouth: Length;
  readonly provenance: Provenance;
};

export const centreDrillSource =
  'sizes of ANSI B94.11M plain type and ISO 866 type A, from memory; centre-hole diameters of ISO 6411 and DIN 332-1 as published';

/** Number, pilot and body in inches. Mouth: twice the pilot, common practice. */
const INCH: readonly (readonly [name: string, pilot: number, body: number])[] = [
  ['#00', 0.025, 1 / 8],
  ['#0', 1 / 32, 1 / 8],
  ['#1', 3 / 64, 1 / 8],
  ['#2', 5 / 64, 3 / 16],
  ['#3', 7 / 64, 1 / 4],
  ['#4', 1 / 8, 5 / 16],
  ['#5', 3 / 16, 7 / 16],
  ['#6', 7 / 32, 1 / 2],
  ['#7', 1 / 4, 5 / 8],
  ['#8', 5 / 16, 3 / 4],
];

/** Pilot, body and mouth in mm; the mouths marked from memory are not in the published table. */
const METRIC: readonly (readonly [pilot: number, body: number, mouth: number, mouthFrom: Provenance])[] = [
  [0.5, 3.15, 1.06, 'memory'],
  [0.63, 3.15, 1.32, 'memory'],
  [0.8, 3.15, 1.7, 'memory'],
  [1, 3.15, 2.12, 'published'],
  [1.25, 3.15, 2.65, 'published'],
  [1.6, 4, 3.35, 'published'],
  [2, 5, 4.25, 'published'],
  [2.5, 6.3, 5.3, 'published'],
  [3.15, 8, 6.7, 'published'],
  [4, 10, 8.5, 'published'],
  [5, 12.5, 10.6, 'memory'],
  [6.3, 16, 13.2, 'published'],
  [8, 20, 17, 'memory'],
  [10, 25, 21.2, 'published'],
];

export const inchCentreDrills: readonly CentreDrill[] = INCH.map(([designation, pilot, body]) => ({
  designation,
  pilot: fromInches(pilot),
  body: fromInches(body),
  mouth: fromInches(pilot * 2),
  provenance: 'memory',
}));

/** The body diameters are recollected for all sizes, hence `memory` throughout; see `METRIC` for the mouths. */
export const metricCentreDrills: readonly CentreDrill[] = METRIC.map(([pilot, body, mouth]) => ({
  designation: `A ${pilot}/${body}`,
  pilot: fromMm(pilot),
  body: fromMm(body),
  mouth: fromMm(mouth),
  provenance: 'memory',
}));

/**
 * Reads a centre drill: `#2`, `No. 2`, `2` (the inch series, by number); `A 2/5`, `A2`, `2 mm`, `2.5` (ISO, by pilot).
 * Reports `centre-drill-unknown` with the sizes there are.
 */
export function readCentreDrill(text: string): Outcome<CentreDrill> {
  const tidy = text.trim().replace(/,/g, '.').replace(/\s+/g, ' ');
  const number = /^(?:#|n(?:o|r)\.?)?\s?(00|\d)$/i.exec(tidy);
  const metric =
    /^(?:form |type )?[abr]? ?(\d{1,2}(?:\.\d+)?) ?(?:mm)?(?: ?[/x×] ?(\d{1,2}(?:\.\d+)?) ?(?:mm)?)?$/i.exec(
      tidy,
    );
  const found = number
    ? inchCentreDrills.find((drill) => drill.designation === `#${number[1]}`)
    : metric
      ? metricCentreDrills.find(({ pilot, body }) => {
          return toMm(pilot) === Number(metric[1]) && (!metric[2] || toMm(body) === Number(metric[2]));
        })
      : undefined;
  if (found) return { ok: true, value: found };
  const say = `“${text.trim()}” is not a centre drill in the table; write #00 to #8, or the pilot in mm: A 0.5 to A 10.`;
  return refuse('centre-drill-unknown', say, { text });
}

/** Work up to and including, and the mouth that suits it, in mm: guideline of a published table by shaft diameter. */
const METRIC_WORK: readonly (readonly [upTo: number, mouth: number])[] = [
  [8, 2.12],
  [12, 3.35],
  [18, 4.25],
  [25, 5.3],
  [40, 6.7],
  [80, 8.5],
  [180, 13.2],
  [Infinity, 21.2],
];
/** The same in inches: turning-handbook practice, from memory; it ends at 4 in and stays at its last mouth beyond. */
const INCH_WORK: readonly (readonly [upTo: number, mouth: number])[] = [
  [5 / 16, 1 / 8],
  [1, 3 / 16],
  [2, 1 / 4],
  [Infinity, 5 / 16],
];

/**
 * The centre drill for work of a diameter, of the series of the unit: the largest whose mouth is not over the
 * guideline for that work nor over half its diameter; the smallest drill where none is that small.
 * Source: published guideline (metric), turning-handbook practice from memory (inch); the half is common practice.
 */
export function centreDrillForWork(diameter: Length, unit: Unit): CentreDrill {
  const [series, guide, size] =
    unit === 'mm' ? [metricCentreDrills, METRIC_WORK, fromMm] : [inchCentreDrills, INCH_WORK, fromInches];
  const row = guide.find(([upTo]) => upTo === Infinity || diameter <= size(upTo));
  const most = Math.min(row ? size(row[1]) : 0, diameter / 2);
  const fitting = series.filter(({ mouth }) => mouth <= most);
  const best = fitting[fitting.length - 1] ?? series[0];
  if (!best) throw new RangeError('centreDrillForWork: the table is empty');
  return best;
}
