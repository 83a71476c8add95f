import type { Outcome } from '../problem.ts';
import { Cursor, figureLength, leftOver, readFigure, type Figure } from './figures.ts';
import { middle, plus, type Unit } from './length.ts';
import { toleranceFigures, toleranceLengths, type ToleranceFigures } from './read-tolerance.ts';
import { isRefusal, LONGEST_TEXT, refuse, unreadable, type Refusal } from './refusal.ts';
import { typedUnit, type TypedUnit } from './scan.ts';
import type { WrittenSize } from './written.ts';

/**
 * Reads a size as it stands on a plan: `.428` `1 5/8` `1-5/8` `1⅝` `5/8"` `15.875 mm` `12,5 mm` `5 thou` `Ø12 k5`
 * `.500 ±.002` `.2500/.2495`. Exact: figures are whole numbers or quotients until they are picometres. `unit` is what
 * a size without one is in. A whole number has 0 decimals; thousandths count as decimals of an inch (`5 thou` has 3).
 * A text that is no size comes back as the problem `size-unreadable`, which quotes what is wrong in it, and where.
 */
export function readSize(text: string, unit: Unit): Outcome<WrittenSize> {
  const read = sizeIn(text, typedUnit(unit));
  return isRefusal(read) ? unreadable('size', text, read) : { ok: true, value: read };
}

function sizeIn(text: string, bare: TypedUnit): WrittenSize | Refusal {
  if (text.length > LONGEST_TEXT) return refuse('too-long', { at: 0, end: text.length });
  if (text.trim() === '') return refuse('empty', { at: 0, end: text.length });
  const cursor = new Cursor(text);
  cursor.takeIf('diameter');
  const first = readFigure(cursor, true);
  if (isRefusal(first)) return first;
  cursor.takeIf('diameter');
  if (cursor.peek().kind === 'solidus') return twoLimits(cursor, first, bare);
  return oneSize(cursor, first, bare);
}

/** `.2500/.2495`, in either order; a unit behind one of them serves both. */
function twoLimits(cursor: Cursor, first: Figure, bare: TypedUnit): WrittenSize | Refusal {
  cursor.take();
  cursor.takeIf('diameter');
  const second = readFigure(cursor, false);
  if (isRefusal(second)) return second;
  const whole = { at: first.at, end: second.end };
  if (!first.marked && !second.marked) return refuse('unmarked-limits', whole);
  const units = [first.unit ?? second.unit ?? bare, second.unit ?? first.unit ?? bare] as const;
  if (units[0].unit !== units[1].unit) return refuse('two-units', whole);
  cursor.takeIf('diameter');
  const one = figureLength(first, units[0]);
  if (isRefusal(one)) return one;
  const other = figureLength(second, units[1]);
  if (isRefusal(other)) return other;
  const [min, max] = one.length < other.length ? [one.length, other.length] : [other.length, one.length];
  return (
    leftOver(cursor) ?? {
      nominal: middle(min, max),
      limits: { min, max },
      fit: null,
      unit: units[0].unit,
      decimals: Math.max(decimalsOf(first, units[0]) ?? 0, decimalsOf(second, units[1]) ?? 0),
      fraction: false,
    }
  );
}

/** A size on its own, or with a class or deviations behind it. */
function oneSize(cursor: Cursor, figure: Figure, bare: TypedUnit): WrittenSize | Refusal {
  const unit = figure.unit ?? bare;
  const read = figureLength(figure, unit);
  if (isRefusal(read)) return read;
  const size: WrittenSize = {
    nominal: read.length,
    limits: null,
    fit: null,
    unit: unit.unit,
    decimals: decimalsOf(figure, unit),
    fraction: figure.fraction,
  };
  if (!beginsTolerance(cursor)) return leftOver(cursor) ?? size;
  const figures = toleranceFigures(cursor);
  if (isRefusal(figures)) return figures;
  return leftOver(cursor) ?? unclearUnit(figure, figures, bare) ?? withTolerance(size, figures, unit);
}

function beginsTolerance(cursor: Cursor): boolean {
  const token = cursor.peek();
  if (token.kind === 'number') return /^0+$/.test(token.digits); // `10 0/-0.05`: the sign of a zero is often left out
  return (
    token.kind === 'fit' || token.kind === 'plus' || token.kind === 'dash' || token.kind === 'plus-minus'
  );
}

/**
 * `12.7 ±.05 mm` on an inch drawing may mean 12.7 mm or 12.7 in: nobody should have to guess. Thousandths and
 * microns are units of tolerances, so they say nothing about the size.
 */
function unclearUnit(figure: Figure, figures: ToleranceFigures, bare: TypedUnit): Refusal | null {
  if (figure.unit || 'fit' in figures) return null;
  for (const { figure: deviation } of figures.signed) {
    const { unit } = deviation;
    if (unit && unit.finer === 0 && unit.unit !== bare.unit) return refuse('unit-unclear', deviation);
  }
  return null;
}

function withTolerance(size: WrittenSize, figures: ToleranceFigures, unit: TypedUnit): WrittenSize | Refusal {
  const tolerance = toleranceLengths(figures, unit);
  if (isRefusal(tolerance)) return tolerance;
  if (tolerance.kind === 'fit') return { ...size, fit: tolerance.fit };
  const { lower, upper } = tolerance;
  return { ...size, limits: { min: plus(size.nominal, lower), max: plus(size.nominal, upper) } };
}

/** Decimals of the unit that the size counts in. */
const decimalsOf = ({ decimals }: Figure, { finer }: TypedUnit) =>
  decimals === null ? null : decimals + finer;
