import { pm, PM_PER, type Length, type Unit } from './length.ts';
import { writeDecimal, writeFraction } from './write.ts';

// prettier-ignore
const ones = [
  'zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve',
  'thirteen', 'fourteen', 'fifteen', 'sixteen', 'seventeen', 'eighteen', 'nineteen',
] as const;
const tens = ['', '', 'twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'] as const;
const parts: ReadonlyMap<number, string> = new Map([
  [2, 'half'],
  [4, 'quarter'],
  [8, 'eighth'],
  [16, 'sixteenth'],
  [32, 'thirty-second'],
  [64, 'sixty-fourth'],
]);

/** A whole number from 0 to 999 in words; larger ones stay figures. */
export function speakCount(count: number): string {
  if (count < 20) return ones[count] ?? String(count);
  if (count < 100)
    return `${tens[Math.floor(count / 10)] ?? ''}${count % 10 ? `-${speakCount(count % 10)}` : ''}`;
  if (count >= 1000) return String(count);
  return `${speakCount(Math.floor(count / 100))} hundred${count % 100 ? ` ${speakCount(count % 100)}` : ''}`;
}

function speakFraction(text: string): string {
  const [fraction = '', whole] = text.split(' ').reverse();
  const [num = 0, den = 1] = fraction.split('/').map(Number);
  if (den === 1) return num === 1 ? 'one inch' : `${speakCount(num)} inches`;
  const part = parts.get(den) ?? '';
  const article = den === 8 ? 'an' : 'a';
  const count = num === 1 && whole ? article : speakCount(num);
  const spoken = `${count} ${part}${num === 1 ? '' : 's'}`;
  return whole ? `${speakCount(Number(whole))} and ${spoken}` : spoken;
}

/** Inches in thousandths, to a tenth of one: "four hundred twenty-eight thousandths". */
function speakThousandths(length: Length): string {
  const tenths = Math.round(length / (PM_PER.in / 10_000));
  const inches = Math.floor(tenths / 10_000);
  const thousandths = Math.floor((tenths % 10_000) / 10);
  const tenth = tenths % 10;
  const about = tenths * (PM_PER.in / 10_000) === length ? '' : 'about ';
  const count =
    tenth === 0 ? speakCount(thousandths) : `${speakCount(thousandths)} point ${speakCount(tenth)}`;
  const fine = thousandths === 1 && tenth === 0 ? 'one thousandth' : `${count} thousandths`;
  const spoken = thousandths + tenth === 0 ? [] : [fine];
  if (inches > 0 || spoken.length === 0)
    spoken.unshift(inches === 1 ? 'one inch' : `${speakCount(inches)} inches`);
  return about + spoken.join(', ');
}

/**
 * The length as a machinist says it, for a screen reader. Inches: "one and five eighths" where it is a fraction to
 * 1/64, else thousandths; millimetres keep their figures: "12.7 millimetres". Rounded to .0001 in or 0.0001 mm, with
 * "about" where that is not exact; "minus" in front of what is negative.
 */
export function speakLength(length: Length, unit: Unit): string {
  const size = pm(Math.abs(length));
  const minus = length < 0 ? 'minus ' : '';
  if (unit === 'mm') return minus + speakMillimetres(size);
  const fraction = writeFraction(size, 64);
  return minus + (fraction === null ? speakThousandths(size) : speakFraction(fraction));
}

function speakMillimetres(size: Length): string {
  const figures = writeDecimal(size, 'mm', 4).replace(/\.?0+$/, '');
  const about = size % 100_000 === 0 ? '' : 'about ';
  return `${about}${figures} millimetre${figures === '1' ? '' : 's'}`;
}
