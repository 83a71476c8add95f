import type { Outcome } from '../problem.ts';
import { isRefusal, LONGEST_TEXT, refuse, unreadable, type Refusal } from './refusal.ts';
import { plainSigns } from './scan.ts';

/** A figure as a quotient, with its place in the text. */
type Figure = { readonly num: bigint; readonly den: bigint; readonly at: number; readonly end: number };

// Degrees (a lone figure may go without the sign), then minutes, then seconds.
const written =
  /^ *([0-9.]+) *(?:(?:°|deg(?:rees?)?\.?) *(?:([0-9.]+) *'(?!') *)?(?:([0-9.]+) *(?:"|''))?)? *$/di;

/**
 * Reads an angle in degrees: `45°`, `2.5°`, `1°25'50"`; a bare number is degrees. Only the last figure may have
 * decimals, minutes and seconds stay under 60, and nothing is negative or over a full turn. Gives the float nearest
 * to what is written, or the problem `angle-unreadable`, which quotes what is wrong in it, and where.
 */
export function readAngle(text: string): Outcome<number> {
  const read = angleIn(text);
  return isRefusal(read) ? unreadable('angle', text, read) : { ok: true, value: read.degrees };
}

function angleIn(text: string): { readonly degrees: number } | Refusal {
  const all = { at: 0, end: text.length };
  if (text.length > LONGEST_TEXT) return refuse('too-long', all);
  if (text.trim() === '') return refuse('empty', all);
  const plain = plainSigns(text);
  const found = written.exec(plain);
  if (!found) return refuse(/^ *-/.test(plain) ? 'out-of-range' : 'not-angle', all);
  const figures: (Figure | null)[] = [];
  for (const place of [1, 2, 3].map((group) => found.indices?.[group])) {
    const figure = place ? figureAt(plain, place[0], place[1]) : null;
    if (figure && isRefusal(figure)) return figure;
    figures.push(figure);
  }
  return outOfPlace(figures) ?? inDegrees(figures, all);
}

function figureAt(plain: string, at: number, end: number): Figure | Refusal {
  const [whole = '', decimals = '', ...more] = plain.slice(at, end).split('.');
  if (more.length > 0) return refuse('marks', { at, end });
  if (whole + decimals === '') return refuse('no-digits', { at, end });
  return { num: BigInt(whole + decimals), den: 10n ** BigInt(decimals.length), at, end };
}

/** Decimals before the last figure, or 60 and more minutes or seconds. */
function outOfPlace(figures: readonly (Figure | null)[]): Refusal | null {
  const last = figures.findLastIndex((figure) => figure !== null);
  for (const [i, figure] of figures.entries()) {
    if (!figure) continue;
    if (i < last && figure.den > 1n) return refuse('not-angle', figure);
    if (i > 0 && figure.num >= 60n * figure.den) return refuse('out-of-range', figure);
  }
  return null;
}

/** The figures as one quotient, which becomes a float once. */
function inDegrees(figures: readonly (Figure | null)[], all: { at: number; end: number }) {
  let num = 0n;
  let den = 1n;
  for (const figure of figures) {
    const { num: n, den: d } = figure ?? { num: 0n, den: 1n };
    num = num * 60n * d + n * den;
    den *= d;
  }
  den *= 3600n;
  if (num > 360n * den) return refuse('out-of-range', all);
  return { degrees: Number(num) / Number(den) };
}
