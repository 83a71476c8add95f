import type { Outcome } from '../problem.ts';
import { Cursor, figureLength, leftOver, readFigure, type Figure } from './figures.ts';
import { negate, type Length, type Unit } from './length.ts';
import { isRefusal, LONGEST_TEXT, refuse, unreadable, type Refusal } from './refusal.ts';
import { typedUnit, type TypedUnit } from './scan.ts';
import type { WrittenTolerance } from './written.ts';

/** Two signed figures as written, or a class. */
export type ToleranceFigures = { readonly fit: string } | { readonly signed: readonly [Signed, Signed] };
type Signed = { readonly sign: 1 | -1; readonly figure: Figure };

/**
 * Reads a tolerance: `±.005`, `+.000/-.002`, `+0 -0.05`, `+0/-.1 mm`, `±2 thou`, `k5`. The deviations come signed
 * and in order, in pm; a unit written once serves both, and where none is written `unit` (the size's) does.
 * A text that is no tolerance comes back as the problem `tolerance-unreadable`, which quotes what is wrong in it.
 */
export function readTolerance(text: string, unit: Unit): Outcome<WrittenTolerance> {
  const read = toleranceIn(text, typedUnit(unit));
  return isRefusal(read) ? unreadable('tolerance', text, read) : { ok: true, value: read };
}

function toleranceIn(text: string, unit: TypedUnit): WrittenTolerance | Refusal {
  if (text.length > LONGEST_TEXT) return refuse('too-long', { at: 0, end: text.length });
  if (text.trim() === '') return refuse('empty', { at: 0, end: text.length });
  const cursor = new Cursor(text);
  const figures = toleranceFigures(cursor);
  if (isRefusal(figures)) return figures;
  return leftOver(cursor) ?? toleranceLengths(figures, unit);
}

/** Reads the tolerance that begins at the cursor, without giving its figures a unit yet. */
export function toleranceFigures(cursor: Cursor): ToleranceFigures | Refusal {
  const first = cursor.peek();
  if (first.kind === 'fit') {
    cursor.take();
    return { fit: first.fit };
  }
  if (takePlusMinus(cursor)) {
    const figure = readFigure(cursor, false);
    if (isRefusal(figure)) return figure;
    const signed = (sign: 1 | -1) => ({ sign, figure });
    return { signed: [signed(1), signed(-1)] };
  }
  return deviationPair(cursor);
}

/** Takes `±`, `+/-` or `+-`. */
function takePlusMinus(cursor: Cursor): boolean {
  if (cursor.takeIf('plus-minus')) return true;
  if (cursor.peek().kind !== 'plus') return false;
  const dashAt = cursor.peek(1).kind === 'solidus' ? 2 : 1;
  if (cursor.peek(dashAt).kind !== 'dash') return false;
  for (let i = 0; i <= dashAt; i += 1) cursor.take();
  return true;
}

function deviationPair(cursor: Cursor): ToleranceFigures | Refusal {
  const one = deviation(cursor);
  if (isRefusal(one)) return one;
  cursor.takeIf('solidus');
  const end = cursor.peek();
  if (end.kind === 'end') return refuse('one-sided', one.figure);
  const other = deviation(cursor);
  return isRefusal(other) ? other : { signed: [one, other] };
}

/** One deviation with its sign, which only a zero may lack. */
function deviation(cursor: Cursor): Signed | Refusal {
  const sign = cursor.peek().kind;
  const signed = sign === 'plus' || sign === 'dash';
  if (signed) cursor.take();
  const figure = readFigure(cursor, false);
  if (isRefusal(figure)) return figure;
  if (!signed && figure.num !== 0n) return refuse('unsigned', figure);
  return { sign: sign === 'dash' ? -1 : 1, figure };
}

/** The deviations in pm, `lower <= upper`; `unit` serves where none is written. */
export function toleranceLengths(figures: ToleranceFigures, unit: TypedUnit): WrittenTolerance | Refusal {
  if ('fit' in figures) return { kind: 'fit', fit: figures.fit };
  const [one, other] = figures.signed;
  const first = signedLength(one, one.figure.unit ?? other.figure.unit ?? unit);
  if (isRefusal(first)) return first;
  const second = signedLength(other, other.figure.unit ?? one.figure.unit ?? unit);
  if (isRefusal(second)) return second;
  const [lower, upper] =
    first.length < second.length ? [first.length, second.length] : [second.length, first.length];
  return { kind: 'deviations', lower, upper };
}

function signedLength({ sign, figure }: Signed, unit: TypedUnit): { readonly length: Length } | Refusal {
  const read = figureLength(figure, unit);
  if (isRefusal(read)) return read;
  return { length: sign === 1 ? read.length : negate(read.length) };
}
