import { PM_PER } from '../../lengths/length.ts';
import type { Unit } from '../../lengths/length.ts';
import type { ResolvedLathe } from '../../part/resolved.ts';
import { fromReport } from '../bar.ts';

export type Rounding = 'nearest' | 'up' | 'down' | 'either';

/** A decimal as a readout shows it ("-.5000", "12.70"), in pm; null where the text is none. */
export function shownLength(text: string, unit: Unit): number | null {
  if (!/^-?(\d+\.?\d*|\.\d+)$/.test(text)) return null;
  return Math.round(Number(text) * PM_PER[unit]);
}

/** A mark on a rule: a decimal, a fraction or both ("1 1/16", "27"), with or without its unit, in pm. */
export function ruleLength(text: string, unit: Unit): number | null {
  const match = /^(-?)(?:(\d*\.?\d+|\d+\.)(?: |-|$|(?= ?mm| ?in|"))|)(?:(\d+)\/(\d+))?\s*(mm|in|")?$/.exec(
    text.trim(),
  );
  if (!match || (match[2] === undefined && match[3] === undefined)) return null;
  const [, minus, whole, top, bottom, named] = match;
  const part = top === undefined ? 0 : Number(top) / Number(bottom);
  const size =
    (Number(whole ?? 0) + part) * PM_PER[named === undefined ? unit : named === 'mm' ? 'mm' : 'in'];
  return Number.isFinite(size) ? Math.round(minus ? -size : size) : null;
}

/** Is the text this value in whole counts of the readout, rounded as asked? Half counts may go either way. */
export function showsValue(
  text: string,
  value_mm: number,
  lathe: ResolvedLathe,
  rounding: Rounding,
): boolean {
  const shown = shownLength(text, lathe.unit);
  const value = fromReport(value_mm);
  const { resolution } = lathe.readout;
  if (shown === null || value === null || resolution <= 0) return false;
  const counts = Math.round(shown / resolution);
  if (Math.abs(shown - counts * resolution) > 1) return false;
  const over = shown - value;
  // A value halved for a radius readout may lie half a picometre off a count.
  if (rounding === 'nearest') return Math.abs(over) <= resolution / 2 + 1;
  const up = over > -2 && over < resolution;
  const down = over < 2 && over > -resolution;
  return rounding === 'either' ? up || down : rounding === 'up' ? up : down;
}
