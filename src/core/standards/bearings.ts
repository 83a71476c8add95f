import { fromInches, fromMm, nearest, pm, toMm } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import type { Outcome } from '../problem.ts';
import { boreTolerance, inchBearings, metricBearings } from './bearing-table.ts';
import type { Provenance } from './origin.ts';
import { weakest } from './origin.ts';
import { refuse } from './refuse.ts';
import { neighbours, oneOf } from './suggestions.ts';

/** Marks after a number for seals, shields, clearance and a snap-ring groove. */
const MARKS = /2?RSR|2?RSH|2?RS1?|2?RZ|2?Z|DDU?|LLU|LLB|UU|C[2-5]|NR?|[ /-]/g;
const LONGEST = 40;

/** A deep-groove ball bearing of normal tolerance class. */
export type Bearing = {
  readonly designation: string;
  readonly bore: { readonly min: Length; readonly max: Length };
  readonly outside: Length;
  readonly width: Length;
  /** Least corner chamfer of the rings, which the shaft's corner must clear; null where the table has none. */
  readonly chamfer: Length | null;
  /** The bearing's sizes and bore limits; `chamferFrom` says the same of the chamfer. */
  readonly provenance: Provenance;
  readonly chamferFrom: Provenance;
};

const bearings: ReadonlyMap<string, Bearing> = new Map(
  [
    ...metricBearings.map(([designation, bore, outside, width, chamfer, provenance]) =>
      bearingOf(designation, fromMm(bore), fromMm(outside), fromMm(width), chamfer, provenance),
    ),
    ...inchBearings.map(([designation, bore, outside, width, chamfer, provenance]) =>
      // The bore limits of inch bearings are taken as those of the metric ones: from memory.
      bearingOf(
        designation,
        fromInches(bore),
        fromInches(outside),
        fromInches(width),
        chamfer,
        weakest(provenance, 'memory'),
      ),
    ),
  ].map((bearing) => [bearing.designation, bearing] as const),
);

function bearingOf(
  designation: string,
  bore: Length,
  outside: Length,
  width: Length,
  chamferMm: number | null,
  provenance: Provenance,
): Bearing {
  const under = boreTolerance.find(({ upTo }) => toMm(bore) <= upTo)?.lowerMicrometres ?? 0;
  return {
    designation,
    bore: { min: pm(bore + nearest(under * 1_000_000)), max: bore },
    outside,
    width,
    chamfer: chamferMm === null ? null : fromMm(chamferMm),
    provenance,
    chamferFrom: 'memory',
  };
}

/**
 * Reads a ball bearing's number: `6000`, `6201-2RS`, `608 ZZ`, `R8`. Marks for seals, shields and clearance after the
 * number are passed over, except that inch bearings with shields are wider than the table says.
 * Reports `bearing-unknown` with near numbers where the table has none.
 */
export function readBearing(text: string): Outcome<Bearing> {
  const tidy = text.length > LONGEST ? '' : text.trim().toUpperCase();
  const match = /^(?:BEARING )?(\d{3,5}|R ?\d{1,2}A?)(?!\d)(.*)$/.exec(tidy);
  const marks = (match?.[2] ?? '').replace(MARKS, '');
  const designation = marks === '' ? (match?.[1]?.replace(' ', '') ?? '') : '';
  const found = bearings.get(designation);
  if (found) return { ok: true, value: found };
  const near = nearNumbers(designation);
  const hint =
    near.length > 0
      ? ` Did you mean ${oneOf(near)}?`
      : ' It has 623 to 629, 608, 6000 to 6008, 6200 to 6208 and R2 to R12.';
  return refuse('bearing-unknown', `The table has no bearing “${text.trim().slice(0, LONGEST)}”.${hint}`, {
    text,
    near,
  });
}

/** The numbers of the same series next below and next above. */
function nearNumbers(designation: string): string[] {
  const series = /^(60|62|R(?=\d))\d+A?$/.exec(designation)?.[1];
  if (series === undefined) return [];
  const last = (name: string): number => parseInt(name.slice(series.length), 10);
  const own = [...bearings.keys()].filter(
    (name) => name.startsWith(series) && name.length >= designation.length,
  );
  const codes = [...new Set(own.map(last))].sort((a, b) => a - b);
  return neighbours(codes, last(designation)).flatMap(
    (code) => own.find((name) => last(name) === code) ?? [],
  );
}

/** All bearings of the table, in its order. */
export const allBearings = (): readonly Bearing[] => [...bearings.values()];
