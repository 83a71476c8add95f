import { fromMm, type Unit } from '../core/lengths/length.ts';
import { writeDecimal } from '../core/lengths/write.ts';

const DECIMALS = { in: { coarse: 3, fine: 4 }, mm: { coarse: 2, fine: 3 } } as const;

/**
 * A figure of the report for a person, with its unit: "4.609 in" or "117.07 mm"; one decimal more where it is `fine`,
 * as limits and gaps are.
 */
export function sizeText(mm: number, unit: Unit, how: 'coarse' | 'fine'): string {
  return `${writeDecimal(fromMm(mm), unit, DECIMALS[unit][how])} ${unit}`;
}
