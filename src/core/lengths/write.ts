import { pm, PM_PER, type Length, type Unit } from './length.ts';

/** Decimals that a length in each unit can need: 2.54 cm in pm has the factor 127, so only some inches end. */
const MOST_DECIMALS: Readonly<Record<Unit, number>> = { in: 11, mm: 9 };

const magnitude = (length: Length): bigint => BigInt(Math.abs(length));

/** `num / den`, halves away from zero; both positive. */
const rounded = (num: bigint, den: bigint): bigint => (2n * num + den) / (2n * den);

/** A count of 10^-decimals as figures: inches without the zero before the mark (`.5000`), millimetres with it. */
function figures(count: bigint | number, decimals: number, unit: Unit): string {
  const digits = count.toString().padStart(decimals + 1, '0');
  const whole = digits.slice(0, digits.length - decimals);
  if (decimals === 0) return whole;
  return `${unit === 'in' && whole === '0' ? '' : whole}.${digits.slice(digits.length - decimals)}`;
}

/** A minus in front unless all figures are 0. */
const withSign = (length: Length, text: string) => (length < 0 && /[1-9]/.test(text) ? `-${text}` : text);

/** The length to so many decimals of `unit`, halves away from zero: `.5000`, `-.5000`, `12.70`, without the unit. */
export function writeDecimal(length: Length, unit: Unit, decimals: number): string {
  const count =
    countOf(Math.abs(length), PM_PER[unit], 10 ** decimals) ??
    rounded(magnitude(length) * 10n ** BigInt(decimals), BigInt(PM_PER[unit]));
  return withSign(length, figures(count, decimals, unit));
}

/** The same count in plain numbers, where every one of them is whole and exact; null where it may not be. */
function countOf(size: number, one: number, scale: number): number | null {
  const whole = Math.floor(size / one);
  const rest = size - whole * one;
  const twice = 2 * rest * scale + one;
  if (rest < 0 || rest >= one || twice > Number.MAX_SAFE_INTEGER || whole * scale > 1e12) return null;
  const over = twice % (2 * one);
  return whole * scale + (twice - over) / (2 * one);
}

function fractionText(count: bigint, denominator: bigint): string {
  const whole = count / denominator;
  let num = count % denominator;
  let den = denominator;
  while (num > 0n && num % 2n === 0n && den % 2n === 0n) {
    num /= 2n;
    den /= 2n;
  }
  if (num === 0n) return whole.toString();
  return whole === 0n ? `${num}/${den}` : `${whole} ${num}/${den}`;
}

/**
 * The length as a binary fraction of an inch in lowest terms, `1 5/8`, `-3/64`, `2`; null unless that is exact with a
 * denominator of at most `maxDenominator` (a power of two).
 */
export function writeFraction(length: Length, maxDenominator: number): string | null {
  const counts = magnitude(length) * BigInt(maxDenominator);
  const inch = BigInt(PM_PER.in);
  if (counts % inch !== 0n) return null;
  return withSign(length, fractionText(counts / inch, BigInt(maxDenominator)));
}

/** The nearest whole count of 1/`denominator` in (a power of two, at most 512), halves away from zero, and its length. */
export function nearestFraction(length: Length, denominator: number): { text: string; length: Length } {
  const inch = BigInt(PM_PER.in);
  const count = rounded(magnitude(length) * BigInt(denominator), inch);
  const near = pm(Number((count * inch) / BigInt(denominator)) * Math.sign(length));
  return { text: withSign(length, fractionText(count, BigInt(denominator))), length: near };
}

/** The exact decimals of a length in `unit`, as few as do; null where they never end. */
function exactDecimal(length: Length, unit: Unit): string | null {
  const most = MOST_DECIMALS[unit];
  const scaled = magnitude(length) * 10n ** BigInt(most);
  const one = BigInt(PM_PER[unit]);
  if (scaled % one !== 0n) return null;
  const text = figures(scaled / one, most, unit).replace(/\.?0+$/, '');
  return withSign(length, text === '' ? '0' : text);
}

const decimalsIn = (text: string) => (text.includes('.') ? text.length - text.indexOf('.') - 1 : 0);

/**
 * The shortest exact text, the unit left out: `.428`, `12.7`, `1 5/8`. Inches are decimals while four will do, then
 * fractions down to 1/512, then more decimals; what no decimal inch holds is written in millimetres with its unit.
 * `readSize(writeShort(x, unit), unit)` has `x` as its nominal for every x from 0 to 10 m.
 */
export function writeShort(length: Length, unit: Unit): string {
  const decimal = exactDecimal(length, unit);
  if (decimal === null) return `${exactDecimal(length, 'mm') ?? ''} mm`;
  if (unit === 'mm' || decimalsIn(decimal) <= 4) return decimal;
  return writeFraction(length, 512) ?? decimal;
}

/**
 * What a loop misses by, as it is read: to the ten-thousandth of an inch or the thousandth of a millimetre, as "0.090 in";
 * one that would be rounded to nothing is written in full, as it is none. With its unit.
 */
export function writeGap(length: Length, unit: Unit): string {
  const rounded = writeDecimal(length, unit, unit === 'in' ? 4 : 3);
  if (length === 0 || /[1-9]/.test(rounded)) return `${rounded} ${unit}`;
  const exact = writeShort(length, unit);
  return exact.endsWith('mm') ? exact : `${exact} ${unit}`;
}

const rounding = {
  nearest: (length: Length, step: Length) => Math.sign(length) * Math.floor(Math.abs(length) / step + 0.5),
  up: (length: Length, step: Length) => Math.ceil(length / step),
  down: (length: Length, step: Length) => Math.floor(length / step),
};

/** Kept, as a readout has one resolution. */
const decimalsKept = { in: new Map<Length, number>(), mm: new Map<Length, number>() };

/** Decimals that a count of `resolution` shows: as many as it needs, or where it never ends, as are finer than it. */
function decimalsOf(resolution: Length, unit: Unit): number {
  const kept = decimalsKept[unit].get(resolution);
  if (kept !== undefined) return kept;
  const decimals = decimalsNeeded(resolution, unit);
  if (decimalsKept[unit].size < 100) decimalsKept[unit].set(resolution, decimals);
  return decimals;
}

function decimalsNeeded(resolution: Length, unit: Unit): number {
  const exact = exactDecimal(resolution, unit);
  if (exact !== null) return decimalsIn(exact);
  return Math.max(0, Math.ceil(Math.log10(PM_PER[unit] / resolution)));
}

/**
 * What a readout shows for `length`: a whole count of `resolution` (above 0), with the decimals that it needs and the
 * sign kept: `-.5000`, `12.70`. `up` is the count at or above, `down` at or below, `nearest` has halves away from zero.
 */
export function writeReading(
  length: Length,
  unit: Unit,
  resolution: Length,
  round: 'nearest' | 'up' | 'down',
): string {
  const count = rounding[round](length, resolution);
  return writeDecimal(pm(count * resolution), unit, decimalsOf(resolution, unit));
}
