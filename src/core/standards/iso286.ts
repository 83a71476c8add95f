import { negate, nearest, pm, toMm } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import type { Outcome } from '../problem.ts';
import { refuse } from './refuse.ts';
import { grades } from './iso286-grades.ts';
import { shaftLetters } from './iso286-shafts.ts';

/** A zone: deviations from the nominal, lower not above upper. */
export type Deviations = { readonly lower: Length; readonly upper: Length };

/** A class read from its text. Capitals are holes. */
export type FitClass = { readonly hole: boolean; readonly letter: string; readonly grade: number };

const micrometres = (um: number): Length => nearest(um * 1_000_000);
const LARGEST_MM = 500;
const HOLES = 'D E F G H JS K M N P';
const SHAFTS = `${[...shaftLetters.keys()].join(' ')} js`;

/**
 * Reads one class, such as `k5`, `H7` or `js6`. Spaces are ignored; capitals mean a hole.
 * Reports `fit-unreadable` where the text is no letter and grade, and for a pair such as `H7/g6`.
 */
export function readFitClass(text: string): Outcome<FitClass> {
  const tidy = text.replace(/\s+/g, '');
  if (/^[A-Za-z]{1,2}\d+[/-][A-Za-z]{1,2}\d+$/.test(tidy)) {
    return refuse('fit-pair', `“${tidy}” names a hole and a shaft; here only one of them belongs.`, { text });
  }
  const match = /^([A-Za-z]{1,2})(?:IT)?(\d{1,2})$/.exec(tidy);
  if (!match) {
    return refuse('fit-unreadable', `“${text.trim()}” is not a class of fit, such as h6, k5 or H7.`, {
      text,
    });
  }
  const [, letters = '', grade = ''] = match;
  const hole = letters.charAt(0) !== letters.charAt(0).toLowerCase();
  const letter = hole ? letters.toUpperCase() : letters.toLowerCase();
  return { ok: true, value: { hole, letter, grade: Number(grade) } };
}

/**
 * Deviations of a size from its nominal by ISO 286, for shaft classes (`k5`, `h6`) and hole classes (`H7`).
 * Sizes over 0 to 500 mm; a size on the boundary of two steps belongs to the lower one.
 * Reports a class that cannot be read, and a size or class that the tables here do not hold; nothing is extrapolated.
 */
export function fitDeviations(nominal: Length, fit: string): Outcome<Deviations> {
  const read = readFitClass(fit);
  return read.ok ? classDeviations(nominal, read.value) : read;
}

/** As `fitDeviations`, for a class that has been read. */
export function classDeviations(nominal: Length, { hole, letter, grade }: FitClass): Outcome<Deviations> {
  const name = `${letter}${grade}`;
  const width = toleranceGrade(nominal, grade);
  if (!width.ok) return width;
  const it = width.value;
  if (letter.toLowerCase() === 'js') {
    const half = pm(Math.round(it / 2));
    return { ok: true, value: { lower: negate(half), upper: half } };
  }
  const zone = hole ? holeZone(nominal, letter, grade, it) : shaftZone(nominal, letter, grade, it);
  if (zone === 'letter') {
    const known = hole ? HOLES : SHAFTS;
    return refuse('fit-not-in-table', `${name} is not in the table; it knows ${known}.`, { fit: name });
  }
  if (zone === 'size') {
    const at = `${Number(toMm(nominal).toFixed(4))} mm`;
    return refuse('fit-not-in-table', `The table has no ${name} at ${at}.`, {
      fit: name,
      nominal_mm: toMm(nominal),
    });
  }
  return { ok: true, value: zone };
}

/**
 * Width of the standard tolerance IT1 to IT16 at a nominal size over 0 to 500 mm.
 * IT14 and coarser are not defined at 1 mm and under.
 */
export function toleranceGrade(nominal: Length, grade: number): Outcome<Length> {
  const mm = toMm(nominal);
  if (!(mm > 0 && mm <= LARGEST_MM)) {
    const say = `The table of limits covers sizes over 0 to ${LARGEST_MM} mm, not ${Number(mm.toFixed(4))} mm.`;
    return refuse('fit-size-out-of-range', say, { nominal_mm: mm });
  }
  const um = grades.find(({ upTo }) => mm <= upTo)?.it[grade - 1];
  if (um === undefined || (grade >= 14 && mm <= 1)) {
    const say =
      um === undefined
        ? `There is no grade IT${grade}; the table has IT1 to IT16.`
        : `IT${grade} is not used at 1 mm and under.`;
    return refuse('fit-not-in-table', say, { grade });
  }
  return { ok: true, value: micrometres(um) };
}

type Zone = Deviations | 'letter' | 'size';

function shaftZone(nominal: Length, letter: string, grade: number, it: Length): Zone {
  const table = shaftLetters.get(letter);
  if (!table) return 'letter';
  const um = fundamental(nominal, letter, grade);
  if (um === null) return 'size';
  const dev = micrometres(um);
  return table.bound === 'es' ? { lower: pm(dev - it), upper: dev } : { lower: dev, upper: pm(dev + it) };
}

/** Fundamental deviation of a shaft letter in micrometres; null where the table has none. */
function fundamental(nominal: Length, letter: string, grade: number): number | null {
  const table = shaftLetters.get(letter);
  if (!table) return null;
  if (table.grades && (grade < table.grades[0] || grade > table.grades[1])) {
    // k is 0 at grades finer and coarser than its figures; other letters stop.
    return letter === 'k' ? 0 : null;
  }
  const mm = toMm(nominal);
  return table.values[table.upTo.findIndex((upTo) => mm <= upTo)] ?? null;
}

/**
 * Holes mirror the shaft letter. K, M and N to IT8 and P to IT7, over 3 mm, lie higher by the difference of their
 * grade to the next finer one (ISO 286-1, rule for the fundamental deviations of holes).
 */
function holeZone(nominal: Length, letter: string, grade: number, it: Length): Zone {
  if (!HOLES.split(' ').includes(letter)) return 'letter';
  const um = fundamental(nominal, letter.toLowerCase(), letter === 'K' && grade <= 8 ? 7 : grade);
  if (um === null) return 'size';
  if (shaftLetters.get(letter.toLowerCase())?.bound === 'es') {
    const lower = micrometres(-um);
    return { lower, upper: pm(lower + it) };
  }
  const overThree = toMm(nominal) > 3;
  if (grade < 4 || (grade > 8 && overThree && letter === 'K')) return 'size';
  // N over IT8 is its own row of the standard: it touches the nominal from below.
  if (grade > 8 && overThree && letter === 'N') return { lower: negate(it), upper: pm(0) };
  const lifted = overThree && grade <= (letter === 'P' ? 7 : 8);
  const lift = lifted ? stepUp(nominal, grade, it) : 0;
  const upper = pm(micrometres(-um) + lift);
  return { lower: pm(upper - it), upper };
}

function stepUp(nominal: Length, grade: number, it: Length): number {
  const finer = toleranceGrade(nominal, grade - 1);
  return finer.ok ? it - finer.value : 0;
}
