import { type Length, pm } from '../lengths/length.ts';
import { nearestFraction, writeDecimal } from '../lengths/write.ts';
import type { ResolvedLathe } from '../part/resolved.ts';
import type { Reading } from './types.ts';

/** Figures and readings inside the sentences of a plan, in the lathe's unit. */
export function size(count: number, lathe: ResolvedLathe): string {
  const length = pm(Math.round(count));
  return lathe.unit === 'mm' ? `${writeDecimal(length, 'mm', 2)} mm` : `${writeDecimal(length, 'in', 4)} in`;
}

/** The same to what a micrometer reads: 0.001 mm or .0001 in. */
export function fineSize(count: number, lathe: ResolvedLathe): string {
  return lathe.unit === 'mm' ? `${writeDecimal(pm(Math.round(count)), 'mm', 3)} mm` : size(count, lathe);
}

/** A length as one would pick it off a rule: nearest 1/64 in or half millimetre. */
export function ruleText(count: number, lathe: ResolvedLathe): string {
  const length: Length = pm(Math.abs(Math.round(count)));
  if (lathe.unit === 'in') return nearestFraction(length, 64).text;
  const halves = Math.round(length / 500_000_000);
  return halves % 2 === 0 ? `${halves / 2}` : `${(halves / 2).toFixed(1)}`;
}

/** "X .5200" or "Z -.5000 by the headstock edge (tailstock edge: -.4220)". */
export function shown(reading: Reading): string {
  if (reading.axis === 'quill') return `quill ${reading.text}`;
  if (!reading.edge || !reading.other) return `${reading.axis} ${reading.text}`;
  const side = (edge: 'left' | 'right'): string => (edge === 'left' ? 'headstock edge' : 'tailstock edge');
  return `Z ${reading.text} by the ${side(reading.edge)} (${side(reading.other.edge)}: ${reading.other.text})`;
}

export const list = (readings: readonly Reading[]): string => readings.map(shown).join(', ');
