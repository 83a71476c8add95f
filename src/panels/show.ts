import { fromMm, type Unit } from '../core/lengths/length.ts';
import { writeDecimal } from '../core/lengths/write.ts';

/** A place or length of the report as a person reads it, in ten-thousandths or microns; a dash where undetermined. */
export function showMm(mm: number | null, unit: Unit): string {
  return mm === null ? '–' : writeDecimal(fromMm(mm), unit, unit === 'in' ? 4 : 3);
}

/** The same with its unit, for sentences. */
export function showWithUnit(mm: number | null, unit: Unit): string {
  return mm === null ? '–' : `${showMm(mm, unit)} ${unit}`;
}

/** "3 cuts", "1 cut". */
export const count = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

const numerals = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];

/** A small count in words at the head of a sentence: "Two lengths", "12 lengths". */
export function countInWords(n: number, one: string, many = `${one}s`): string {
  const word = numerals[n] ?? String(n);
  return `${word.charAt(0).toUpperCase()}${word.slice(1)} ${n === 1 ? one : many}`;
}
