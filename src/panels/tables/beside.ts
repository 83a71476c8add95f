import { nearest, PM_PER, type Length, type Unit } from '../../core/lengths/length.ts';
import { readAngle } from '../../core/lengths/read-angle.ts';
import { readSize } from '../../core/lengths/read-size.ts';
import type { Segment, SizeText } from '../../core/part/types.ts';
import type { DiameterRow } from '../../core/report-types.ts';
import { readBearing } from '../../core/standards/bearings.ts';
import type { Entry, EntryKind } from '../../core/standards/entry.ts';
import { fitPair } from '../../core/standards/fits.ts';
import { seatFeel } from '../../core/standards/bearing-seats.ts';
import { deviationsOrigin } from '../../core/standards/iso286-shafts.ts';
import { fitDeviations, readFitClass } from '../../core/standards/iso286.ts';
import { lookUp } from '../../core/standards/look-up.ts';
import { angleOfRatio, perFootOfAngle } from '../../core/standards/taper-angles.ts';
import { threadFacts } from '../../core/standards/thread-facts.ts';
import { readThread } from '../../core/standards/threads.ts';
import { sizeText, tolText } from '../length-words.ts';
import { between, signed, written } from './written.ts';

/** What stands beside a designation: one line to read in passing, and what it was gathered from. */
export type Said = { readonly brief: string; readonly entries: readonly Entry[] };

const listed = (kind: EntryKind, text: string, unit: Unit): readonly Entry[] => {
  const found = lookUp(kind, text, unit);
  return found.ok ? [found.value] : [];
};
const joined = (words: readonly (string | false)[]): string => words.filter(Boolean).join(' · ');
const SIGN_MM = 1e-9;

/** Beside a thread on the shaft: limits of the outside, pitch, blank, tap drill, relief. Null for one not in the tables. */
export function besideThread(text: string, unit: Unit, tapped = false): Said | null {
  const read = readThread(text);
  const facts = read.ok ? threadFacts(read.value) : null;
  if (!read.ok || !facts) return null;
  const { pitch, metric, blank } = read.value;
  const { major, class: outside } = facts.external;
  const { minor, class: inside } = facts.internal;
  const [drill] = facts.tapDrills;
  const { under, most } = facts.relief;
  const pitchWords = metric
    ? `pitch ${written(pitch, unit)}`
    : `${Math.round(PM_PER.in / pitch)} to the inch`;
  const drillWords = drill ? `tap drill ${drill.name}` : 'no tap drill in the table';
  const hole =
    minor.min !== null && minor.max !== null && `hole ${between(minor.min, minor.max, unit)} (${inside})`;
  const relief = `relief ${under === null ? '' : `${written(under, unit)} under, `}to ${written(most.normal, unit)} wide`;
  const limits =
    major.min !== null && major.max !== null && `outside ${between(major.min, major.max, unit)} (${outside})`;
  const brief = tapped
    ? joined([drillWords, hole, pitchWords])
    : joined([limits, pitchWords, `blank for a die ${written(blank, unit)}`, drillWords, relief]);
  return { brief, entries: listed('thread', text, unit) };
}

/** The class that stands with a diameter, in its text or as its tolerance. */
function classOf(size: SizeText, unit: Unit): { nominal: Length; fit: string } | null {
  const read = readSize(sizeText(size), unit);
  if (!read.ok) return null;
  const fit = read.value.fit ?? tolText(size).trim();
  return readFitClass(fit).ok ? { nominal: read.value.nominal, fit } : null;
}

/** How a shaft class feels in an H hole one grade coarser, or in the hole that the mate gives. */
function feelWords(nominal: Length, fit: string, hole: string | null): string {
  const shaft = readFitClass(fit);
  if (!shaft.ok) return '';
  const mated = hole ?? `H${Math.min(shaft.value.grade + 1, 9)}`;
  const pair = fitPair(nominal, `${mated}/${fit}`);
  if (!pair.ok) return '';
  return `${pair.value.feel ?? pair.value.kind} in ${mated}`;
}

/** "clearance .0002 to .0010", "from .0002 tight to .0001 free". Figures in mm. */
function clearanceWords(fit: NonNullable<DiameterRow['fit']>, unit: Unit): string {
  const [least, most] = [fit.clearance_min_mm, fit.clearance_max_mm].map((mm) => nearest(mm * PM_PER.mm));
  if (least === undefined || most === undefined) return '';
  if (fit.clearance_min_mm >= -SIGN_MM) return `clearance ${written(least, unit)} to ${written(most, unit)}`;
  const tight = written(nearest(-least), unit);
  if (fit.clearance_max_mm <= SIGN_MM) return `interference ${written(nearest(-most), unit)} to ${tight}`;
  return `from ${tight} tight to ${written(most, unit)} free`;
}

/** Beside a diameter with a class: its limits, how it feels, and the clearance with its mate where it has one. */
export function besideFit(segment: Segment, rows: readonly DiameterRow[], of: Unit, unit: Unit): Said | null {
  if (segment.form !== 'cylinder') return null;
  const given = classOf(segment.diameter, of);
  const zone = given && fitDeviations(given.nominal, given.fit);
  if (!given || !zone?.ok) return null;
  const { nominal, fit } = given;
  const { lower, upper } = zone.value;
  const bore = segment.mate?.bore === undefined ? null : readSize(segment.mate.bore, of);
  const hole = bore?.ok ? bore.value.fit : null;
  const clearance = rows.find((row) => row.segment === segment.id && row.end === null)?.fit ?? null;
  const bearing = segment.mate?.bearing;
  const within = `${written(nearest(nominal + lower), unit)} to ${written(nearest(nominal + upper), unit)}`;
  const brief = joined([
    `${fit}: ${signed(upper, unit)}, ${signed(lower, unit)}`,
    within,
    bearing === undefined ? feelWords(nominal, fit, hole) : (seatFeel(fit) ?? false),
    clearance !== null &&
      `${bearing === undefined ? '' : `in ${bearing}: `}${clearanceWords(clearance, unit)}`,
  ]);
  const pair = hole === null ? null : fitPair(nominal, `${hole}/${fit}`);
  const title = hole === null ? fit : `${hole}/${fit}`;
  const facts = [
    { name: 'upper deviation', length: upper },
    { name: 'lower deviation', length: lower },
    ...(pair?.ok
      ? [
          { name: `hole ${hole ?? ''}, upper deviation`, length: pair.value.hole.upper },
          { name: `hole ${hole ?? ''}, lower deviation`, length: pair.value.hole.lower },
        ]
      : []),
    ...(bearing !== undefined && seatFeel(fit) !== null
      ? [{ name: 'feel (our own words: common practice, no source)', text: seatFeel(fit) ?? '' }]
      : []),
    ...(hole === null && bearing === undefined
      ? [{ name: 'feel (common practice, no source)', text: feelWords(nominal, fit, null) }]
      : []),
  ];
  const own: Entry = { kind: 'fit', title, facts, origins: [deviationsOrigin] };
  return { brief, entries: [own, ...(bearing === undefined ? [] : listed('bearing', bearing, unit))] };
}

/** Beside a taper: the whole angle, per foot, and what the compound is set to. Null until it reads as one. */
export function besideTaper(segment: Segment): Said | null {
  if (segment.form !== 'taper') return null;
  const degrees = includedAngle(segment);
  if (degrees === null || !(degrees > 0 && degrees < 180)) return null;
  const half = `${(degrees / 2).toFixed(3)}°`;
  const perFoot = `${perFootOfAngle(degrees).toFixed(4)} in per foot`;
  const brief = joined([
    `set the compound to ${half} from the axis`,
    `whole angle ${degrees.toFixed(3)}°`,
    perFoot,
  ]);
  const facts = [
    { name: 'compound from the axis', text: `${(degrees / 2).toFixed(4)}°` },
    { name: 'compound from square across', text: `${(90 - degrees / 2).toFixed(4)}°` },
    { name: 'whole angle', text: `${degrees.toFixed(4)}°` },
    { name: 'change of diameter', text: perFoot },
  ];
  const origins = [
    { source: 'change of diameter over length; per foot = 24 tan(half)', provenance: 'rule' as const },
  ];
  return { brief, entries: [{ kind: 'taper', title: half, facts, origins }] };
}

function includedAngle(segment: Extract<Segment, { form: 'taper' }>): number | null {
  if (segment.ratio !== undefined) {
    const [over = NaN, under = NaN] = segment.ratio.split(':').map((text) => Number(text.replace(',', '.')));
    return angleOfRatio(over / under);
  }
  if (segment.per_foot !== undefined) {
    const read = readSize(segment.per_foot, 'in');
    return read.ok ? angleOfRatio(read.value.nominal / PM_PER.in / 12) : null;
  }
  const read = readAngle(segment.half_angle ?? segment.included_angle ?? '');
  return read.ok ? read.value * (segment.half_angle === undefined ? 1 : 2) : null;
}

/** Beside a bearing: bore and its limits, width, the corner it asks for. */
export function besideBearing(text: string, unit: Unit): Said | null {
  const read = readBearing(text);
  if (!read.ok) return null;
  const { bore, outside, width, chamfer } = read.value;
  const brief = joined([
    `bore ${between(bore.min, bore.max, unit)}`,
    `outside ${written(outside, unit)}`,
    `width ${written(width, unit)}`,
    chamfer !== null && `corner at least ${written(chamfer, unit)}`,
  ]);
  return { brief, entries: listed('bearing', text, unit) };
}

/** Beside a centre drill: pilot, body and the usual mouth. */
export function besideCentre(text: string, unit: Unit): Said | null {
  const [entry] = listed('centre-drill', text, unit);
  if (!entry) return null;
  const words = entry.facts.map((fact) => 'length' in fact && `${fact.name} ${written(fact.length, unit)}`);
  return { brief: joined(words), entries: [entry] };
}

/** Beside a material: what it weighs, how stiff it is, how fast to begin. */
export function besideMaterial(key: string): Said | null {
  const [entry] = listed('material', key, 'mm');
  if (!entry) return null;
  const word = (name: string) => {
    const fact = entry.facts.find((each) => each.name.startsWith(name));
    return fact && 'text' in fact && fact.text;
  };
  return {
    brief: joined([`rough at ${word('rough') || '–'}`, word('cutting oil') || '', word('modulus') || '']),
    entries: [entry],
  };
}
