import type { Unit } from '../../core/lengths/length.ts';
import type { Mend } from '../../core/stiffness/error.ts';
import { showWithUnit } from '../show.ts';

/** A spring, finer than sizes are shown; "under …" where even that shows nothing. */
export function fine(mm: number, unit: Unit): string {
  if (!Number.isFinite(mm)) return 'without limit';
  const [value, least, decimals] = unit === 'mm' ? [mm, 0.0001, 4] : [mm / 25.4, 0.00001, 5];
  if (Math.abs(value) < least)
    return `under ${least.toFixed(decimals).replace(unit === 'in' ? /^0/ : '', '')} ${unit}`;
  const text = value.toFixed(decimals);
  return `${unit === 'in' ? text.replace(/^0/, '') : text} ${unit}`;
}

export function stickOutWords(longest_mm: number | null, unit: Unit): string {
  if (longest_mm === null) return 'with the grip alone it would not hold however short';
  return `with the grip alone up to ${showWithUnit(longest_mm, unit)} would hold`;
}

export function mendWords(mend: Mend, unit: Unit): string {
  const left = `${fine(mend.error_mm, unit)} left`;
  if (mend.how === 'centre') return `a centre (${left})`;
  if (mend.how === 'steady') return `a steady ${showWithUnit(mend.at_mm, unit)} from the grip (${left})`;
  return `a cut with ${mend.force_N.toFixed(0)} N (${left})`;
}
