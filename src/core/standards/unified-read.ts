import { nearest, pm, PM_PER } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import type { Outcome } from '../problem.ts';
import { drills } from './drills.ts';
import { refuse } from './refuse.ts';
import { neighbours, oneOf } from './suggestions.ts';
import { withHand } from './thread-text.ts';
import type { ThreadText } from './thread-text.ts';
import type { ThreadSpec } from './thread-spec.ts';
import { unifiedRows } from './unified-threads.ts';
import type { UnifiedRow } from './unified-threads.ts';

const TEN_THOUSANDTH = PM_PER.in / 10_000;
/** External minor diameter of the UNR profile, in pitches below the nominal: 11/16 of the height H, twice. */
const ROOT = (11 / 8) * (Math.sqrt(3) / 2);
/** At this many threads to the inch and more a bare whole number is a number size. */
const FINE_AS_NUMBER = 24;

type Size = { readonly name: string; readonly tenThousandths: number | null };

export const unifiedName = ([series, size, tpi]: UnifiedRow): string => `${size}-${tpi} ${series}`;
const shortName = ([, size, tpi]: UnifiedRow): string => `${size}-${tpi}`;

export function readUnifiedThread({ body, leftHand, asWritten }: ThreadText): Outcome<ThreadSpec> {
  const match =
    /^(#|no\.? ?|nr\.? ?)?(\d+(?:[ -]\d+\/[1-9]\d*)?|\d+\/[1-9]\d*|\d*\.\d+)(?: ?- ?(\d+))?(?: ?-? ?(UNR?(?:EF|C|F|S)?|N(?:EF|C|F|S)))?(?: ?-? ?([123][AB]))?$/i.exec(
      body,
    );
  if (!match || (match[3] === undefined && match[4] === undefined)) {
    const say = `“${asWritten}” is not a thread; write 5/16-24, 8-32 UNC-2A or M6x1.`;
    return refuse('thread-unreadable', say, { text: asWritten });
  }
  const [, mark, written = '', tpiText, seriesText, cls] = match;
  const tpi = tpiText === undefined ? null : Number(tpiText);
  const series = seriesText === undefined ? null : standardSeries(seriesText);
  const size = sizeOf(written, mark !== undefined, tpi);
  const sized = unifiedRows.filter((row) => row[1] === size.name || row[3] === size.tenThousandths);
  const row = sized.find((r) => (tpi === null || r[2] === tpi) && (series === null || r[0] === series));
  if (!row) return missing(asWritten, size, sized, tpi);
  const suffix = cls ? `-${cls.toUpperCase()}` : '';
  const designation = withHand(`${unifiedName(row)}${suffix}`, leftHand);
  return { ok: true, value: { ...specOf(row, cls?.toUpperCase() ?? null), designation } };
}

/** UNC, UNF, UNEF; the rounded-root and the older names of the same series. Null: no series named. */
function standardSeries(text: string): string | null {
  const tail = text.toUpperCase().replace(/^(UNR|UN|N)/, '');
  return tail === '' ? null : `UN${tail}`;
}

function sizeOf(written: string, marked: boolean, tpi: number | null): Size {
  if (written.includes('.')) return { name: '', tenThousandths: Math.round(Number(written) * 10_000) };
  if (written.includes('/')) return { name: lowest(written), tenThousandths: null };
  const number = marked || (tpi === null ? written !== '1' : tpi >= FINE_AS_NUMBER);
  return { name: number ? `#${Number(written)}` : written, tenThousandths: null };
}

/** 10/32 is 5/16. Whole inches with a fraction stay as written: the tables end at 1 in. */
function lowest(text: string): string {
  const match = /^(\d+)\/(\d+)$/.exec(text);
  let [over, under] = match ? [Number(match[1]), Number(match[2])] : [1, 1];
  if (!match || under === 0) return text;
  while (over % 2 === 0 && under % 2 === 0) [over, under] = [over / 2, under / 2];
  return under === 1 ? `${over}` : `${over}/${under}`;
}

function specOf(row: UnifiedRow, cls: string | null): ThreadSpec {
  const [, , tpi, major, , , , , drillName] = row;
  const d = pm(major * TEN_THOUSANDTH);
  const drill = drills.find(({ name }) => name === drillName);
  return {
    designation: unifiedName(row),
    metric: false,
    nominal: d,
    pitch: nearest(PM_PER.in / tpi),
    class: cls,
    major: majorLimits(row, cls ?? '2A'),
    blank: unifiedBlank(row),
    minor: nearest(d - (ROOT * PM_PER.in) / tpi),
    tapDrill: drill ? { name: drill.name, diameter: drill.diameter } : null,
  };
}

/**
 * Diameter for a die: nominal less 0.15 pitch, to the half thousandth of an inch; on the large coarse threads, where
 * that would leave 2A, its least major diameter, rounded up.
 */
function unifiedBlank([, , tpi, major, [, least]]: UnifiedRow): Length {
  const halfThousandths = Math.max(Math.round((major - 1500 / tpi) / 5), Math.ceil(least / 5));
  return pm(halfThousandths * 5 * TEN_THOUSANDTH);
}

/** 3A has the major tolerance of 2A and no allowance, by ASME B1.1. */
function majorLimits(row: UnifiedRow, cls: string): ThreadSpec['major'] {
  const [max, min] = row[4];
  if (cls === '2A') return { min: pm(min * TEN_THOUSANDTH), max: pm(max * TEN_THOUSANDTH) };
  if (cls === '3A')
    return { min: pm((row[3] - (max - min)) * TEN_THOUSANDTH), max: pm(row[3] * TEN_THOUSANDTH) };
  return null;
}

function missing(
  asWritten: string,
  size: Size,
  sized: readonly UnifiedRow[],
  tpi: number | null,
): Outcome<never> {
  const near = sized.length > 0 ? ofSize(sized, tpi) : nearbySizes(size);
  const say = `The table has no ${asWritten}${near.length > 0 ? `; did you mean ${oneOf(near)}?` : '; it runs from #0 to 1 in.'}`;
  return refuse('thread-not-in-table', say, { text: asWritten, near });
}

/** The two nearest in threads to the inch; the series is named where the number of threads was right. */
const ofSize = (sized: readonly UnifiedRow[], tpi: number | null): string[] => {
  const right = sized.filter((row) => row[2] === tpi);
  if (right.length > 0) return right.map(unifiedName);
  if (tpi === null) return sized.map(unifiedName);
  return [...sized]
    .sort((a, b) => Math.abs(a[2] - tpi) - Math.abs(b[2] - tpi))
    .slice(0, 2)
    .sort((a, b) => a[2] - b[2])
    .map(shortName);
};

function nearbySizes({ name, tenThousandths }: Size): string[] {
  const value = tenThousandths ?? inchesOf(name);
  if (value === null) return [];
  const majors = [...new Set(unifiedRows.map((row) => row[3]))].sort((a, b) => a - b);
  if (value > (majors[majors.length - 1] ?? 0)) return [];
  return neighbours(majors, value).flatMap((major) => {
    const row = unifiedRows.find((r) => r[3] === major);
    return row ? [shortName(row)] : [];
  });
}

/** A number size n is .060 + .013 n in; a fraction is itself. In ten-thousandths. */
function inchesOf(name: string): number | null {
  const number = /^#(\d+)$/.exec(name);
  if (number) return 600 + 130 * Number(number[1]);
  const fraction = /^(?:(\d+)[ -])?(\d+)\/(\d+)$/.exec(name);
  if (fraction) return (Number(fraction[1] ?? 0) + Number(fraction[2]) / Number(fraction[3])) * 10_000;
  return /^\d+$/.test(name) ? Number(name) * 10_000 : null;
}
