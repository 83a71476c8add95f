import { fromInches, fromMm } from '../lengths/length.ts';
import type { Length, Unit } from '../lengths/length.ts';
import type { Origin } from './origin.ts';

export const barOrigin: Origin = {
  source: 'round bar as dealers commonly stock it: common practice, no source',
  provenance: 'memory',
};

/** A stocked round bar, named as it is ordered. */
export type Bar = { readonly name: string; readonly diameter: Length };

const MM = [
  3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 18, 20, 22, 24, 25, 28, 30, 32, 35, 36, 38, 40, 42, 45, 48,
  50, 55, 60, 65, 70, 75, 80, 90, 100,
];
/** Sixteenths of an inch: by 1/16 from 1/8 to 1 1/2, by 1/8 to 2 1/2, by 1/4 to 4. */
const SIXTEENTHS = [...upTo(2, 24, 1), ...upTo(26, 40, 2), ...upTo(44, 64, 4)];

function upTo(from: number, to: number, step: number): number[] {
  return Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, i) => from + i * step);
}

export const bars: Readonly<Record<Unit, readonly Bar[]>> = {
  mm: MM.map((mm) => ({ name: `${mm} mm`, diameter: fromMm(mm) })),
  in: SIXTEENTHS.map((n) => ({ name: sixteenths(n), diameter: fromInches(n / 16) })),
};

/** The smallest stocked bar that is not under a diameter; null over the largest. */
export function barAtOrOver(diameter: Length, unit: Unit): Bar | null {
  return bars[unit].find((bar) => bar.diameter >= diameter) ?? null;
}

function sixteenths(n: number): string {
  const [whole, rest] = [Math.floor(n / 16), n % 16];
  if (rest === 0) return `${whole}`;
  let [over, under] = [rest, 16];
  while (over % 2 === 0) [over, under] = [over / 2, under / 2];
  return whole === 0 ? `${over}/${under}` : `${whole} ${over}/${under}`;
}
