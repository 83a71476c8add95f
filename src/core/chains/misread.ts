import { pm, PM_PER } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import { readSize } from '../lengths/read-size.ts';
import { writeDecimal, writeFraction, writeShort } from '../lengths/write.ts';
import type { ResolvedSize } from '../part/resolved.ts';

/** How a size that should be another may have been misread. */
export type Misread = {
  readonly hint: string;
  /**
   * Natural logarithm of how often such a slip is made, shared among all the sizes the same slip could have given. Common
   * practice, no source: only the order that it gives matters, and that is measured.
   */
  readonly odds: number;
};

type Reader = (size: ResolvedSize, value: Length) => Misread | null;

/** Figures that are easily taken for one another in print or in poor copies. From memory, no source. */
const alike = new Set([
  '38',
  '83',
  '56',
  '65',
  '17',
  '71',
  '06',
  '60',
  '08',
  '80',
  '68',
  '86',
  '49',
  '94',
  '39',
  '93',
  '58',
  '85',
  '35',
  '53',
  '27',
  '72',
]);

/** The likeliest way in which a size that should be `value` came to be written as it is; null where nothing explains it. */
export function explainMisread(size: ResolvedSize, value: Length): Misread | null {
  let best: Misread | null = null;
  for (const reader of readers) {
    const misread = reader(size, value);
    if (misread && (!best || misread.odds > best.odds)) best = misread;
  }
  return best;
}

/** Whether `value` could stand on the plan in the style of `size`: as many decimals, or a fraction in sixty-fourths. */
export function isNatural(size: ResolvedSize, value: Length): boolean {
  if (size.decimals !== null) return onGrid(size, value);
  return writeFraction(value, 64) !== null;
}

/** `value` as the draughtsman would have written it. */
export function inStyleOf(size: ResolvedSize, value: Length): string {
  if (size.decimals !== null && onGrid(size, value)) return writeDecimal(value, size.unit, size.decimals);
  return (size.fraction ? writeFraction(value, 64) : null) ?? writeShort(value, size.unit);
}

const onGrid = (size: ResolvedSize, value: number): boolean =>
  (BigInt(value) * 10n ** BigInt(size.decimals ?? 0)) % BigInt(PM_PER[size.unit]) === 0n;

/** The size text without its tolerance, and where its figures stand. */
function figuresOf(size: ResolvedSize): { text: string; at: number[] } {
  const text = (/^[^±+]*/.exec(size.text)?.[0] ?? size.text).trim();
  return { text, at: [...text].flatMap((char, i) => (/[0-9]/.test(char) ? [i] : [])) };
}

function reads(text: string, size: ResolvedSize, value: Length): boolean {
  const outcome = readSize(text, size.unit);
  return outcome.ok && outcome.value.nominal === value;
}

const swapped: Reader = (size, value) => {
  const { text, at } = figuresOf(size);
  for (let k = 1; k < at.length; k++) {
    const [i, j] = [at[k - 1] as number, at[k] as number];
    const [p, q] = [text[i] as string, text[j] as string];
    if (p === q) continue;
    const turned = text.slice(0, i) + q + text.slice(i + 1, j) + p + text.slice(j + 1);
    if (reads(turned, size, value))
      return { hint: `${turned} with two figures swapped`, odds: Math.log(0.2 / 3) };
  }
  return null;
};

const oneFigure: Reader = (size, value) => {
  if (size.decimals !== null && !onGrid(size, value)) return null;
  const { text, at } = figuresOf(size);
  for (const i of at) {
    for (const figure of '0123456789') {
      const was = text[i] as string;
      const other = text.slice(0, i) + figure + text.slice(i + 1);
      if (figure === was || !reads(other, size, value)) continue;
      return alike.has(figure + was)
        ? { hint: `${other} with a ${figure} taken for a ${was}`, odds: Math.log(0.15 / 6) }
        : { hint: `${other} with one figure misread`, odds: Math.log(0.1 / 30) };
    }
  }
  return null;
};

const slippedPoint: Reader = (size, value) => {
  if (size.fraction) return null;
  for (const [factor, odds] of [
    [10, 0.05],
    [100, 0.01],
    [1000, 0.005],
  ] as const) {
    if (value !== size.nominal * factor && value * factor !== size.nominal) continue;
    return { hint: `${inStyleOf(size, value)} with the decimal point slipped`, odds: Math.log(odds) };
  }
  return null;
};

const unitMixedUp: Reader = (size, value) => {
  const near = (a: number, b: number) => Math.abs(a - b) <= 1;
  const asMm = near(value * 25.4, size.nominal);
  if (!asMm && !near(value, size.nominal * 25.4)) return null;
  const { text } = figuresOf(size);
  const bare = text.replace(/\s*(mm|in|")$/, '');
  const hint = asMm ? `${bare} mm read as inches` : `${bare} in read as millimetres`;
  return { hint, odds: Math.log(0.08) };
};

/** Whole, numerator and denominator of a binary fraction text; null where it is none. */
function fractionOf(text: string | null): { whole: number; num: number; den: number } | null {
  const match = text === null ? null : /^(?:(\d+) )?(\d+)\/(\d+)$/.exec(text);
  return match && { whole: Number(match[1] ?? 0), num: Number(match[2]), den: Number(match[3]) };
}

const otherFraction: Reader = (size, value) => {
  if (!size.fraction) return null;
  const text = writeFraction(value, 64);
  const was = fractionOf(writeFraction(size.nominal, 64));
  const now = fractionOf(text);
  if (!was || !now || text === null || was.whole !== now.whole) return null;
  if (was.den === now.den && Math.abs(was.num - now.num) === 2)
    return { hint: `${text}, the neighbouring fraction`, odds: Math.log(0.15 / 3) };
  if (was.num === now.num) return { hint: `${text} with the lower figure misread`, odds: Math.log(0.04 / 4) };
  if (was.den === now.den) return { hint: `${text} with the upper figure misread`, odds: Math.log(0.04 / 6) };
  return null;
};

/** A sixteenth is lost where the size should be that much more and is finer than what stands there; else it crept in. */
const lostSixteenth: Reader = (size, value) => {
  if (size.unit !== 'in') return null;
  const step = PM_PER.in / 16;
  const difference = value - size.nominal;
  const coarse = size.decimals === null ? 0 : PM_PER.in / 10 ** size.decimals / 2;
  if (Math.abs(Math.abs(difference) - step) > coarse) return null;
  const text = inStyleOf(size, value);
  const finer = value % (PM_PER.in / 8) !== 0 && size.nominal % (PM_PER.in / 8) === 0;
  if (difference > 0) return { hint: `${text} with a sixteenth lost`, odds: Math.log(finer ? 0.06 : 0.03) };
  return { hint: `${text} with a sixteenth too many`, odds: Math.log(0.012) };
};

const lostWhole: Reader = (size, value) => {
  const difference = Math.abs(value - size.nominal);
  if (!size.fraction || difference % PM_PER.in !== 0 || difference > 3 * PM_PER.in) return null;
  return { hint: `${inStyleOf(size, value)} with the whole inches misread`, odds: Math.log(0.01) };
};

const lostFigure: Reader = (size, value) => {
  if (size.decimals === null) return null;
  const { text, at } = figuresOf(size);
  for (const i of [...at, text.length]) {
    for (const figure of '0123456789') {
      const longer = text.slice(0, i) + figure + text.slice(i);
      if (reads(longer, size, value))
        return { hint: `${longer} with a figure lost`, odds: Math.log(0.05 / 30) };
    }
    const shorter = text.slice(0, i) + text.slice(i + 1);
    if (reads(shorter, size, value))
      return { hint: `${shorter} with a figure too many`, odds: Math.log(0.03 / 5) };
  }
  return null;
};

const readers: readonly Reader[] = [
  swapped,
  oneFigure,
  slippedPoint,
  unitMixedUp,
  otherFraction,
  lostSixteenth,
  lostWhole,
  lostFigure,
];

/** Sizes that a slip of the eye could have turned into what is written, for choosing within a range; in pm. */
export function likelyValues(size: ResolvedSize): Length[] {
  const { text, at } = figuresOf(size);
  const texts: string[] = [];
  at.forEach((i, k) => {
    for (const figure of '0123456789') texts.push(text.slice(0, i) + figure + text.slice(i + 1));
    const j = at[k + 1];
    if (j !== undefined) {
      texts.push(
        text.slice(0, i) + (text[j] ?? '') + text.slice(i + 1, j) + (text[i] ?? '') + text.slice(j + 1),
      );
    }
  });
  const values = texts.flatMap((other) => {
    const outcome = readSize(other, size.unit);
    return outcome.ok ? [outcome.value.nominal] : [];
  });
  if (size.unit === 'in') for (const step of [-1, 1]) values.push(pm(size.nominal + (step * PM_PER.in) / 16));
  return values;
}
