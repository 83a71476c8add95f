import type { Length, Unit } from '../../core/lengths/length.ts';
import { writeDecimal } from '../../core/lengths/write.ts';
import type { Fact } from '../../core/standards/entry.ts';
import type { Origin } from '../../core/standards/origin.ts';

const FINE_MM = 0.254;

/** A figure of a table in the unit shown: to the micrometre, or to the ten-thousandth (small ones a tenth of that). */
export function written(length: Length, unit: Unit): string {
  const fewest = unit === 'mm' ? 3 : 4;
  const plain = writeDecimal(length, unit, fewest);
  const small = Math.abs(length) < FINE_MM * 1e9;
  const finer = small && unit === 'in' ? writeDecimal(length, unit, fewest + 1) : plain;
  const text = finer === `${plain}0` ? plain : finer;
  return unit === 'mm' ? text.replace(/\.?0+$/, '') || '0' : text;
}

/** The same with its sign, as deviations are written; 0 has none. */
export function signed(length: Length, unit: Unit): string {
  if (length === 0) return '0';
  const small = unit === 'in' && Math.abs(length) < FINE_MM * 1e9;
  const text = small ? writeDecimal(length, unit, 5) : written(length, unit);
  return `${length > 0 ? '+' : '−'}${text.replace('-', '')}`;
}

/** Two limits as one reads them off: "3.04 to 3.11". A deviation keeps its signs. */
export const between = (min: Length, max: Length, unit: Unit): string =>
  min < 0 || max < 0
    ? `${signed(min, unit)} to ${signed(max, unit)}`
    : `${written(min, unit)} to ${written(max, unit)}`;

const PROVENANCE = {
  published: 'published',
  rule: 'worked out by the rule',
  memory: 'from memory: check before relying on it',
} as const;

/** "ISO 286-1 …: published", as the user is told on demand. */
export const originWords = ({ source, provenance }: Origin): string =>
  `${source} (${PROVENANCE[provenance]})`;

/** The facts of an entry in the unit shown; two limits of one thing become one line. */
export function factLines(facts: readonly Fact[], unit: Unit): readonly { name: string; text: string }[] {
  return facts.flatMap((fact, i) => {
    if ('text' in fact) return [{ name: fact.name, text: fact.text }];
    const deviation = fact.name.endsWith('deviation');
    const own = deviation ? signed(fact.length, unit) : written(fact.length, unit);
    const name = fact.name.replace(/, (least|most)$/, '');
    const [before, after] = [facts[i - 1], facts[i + 1]];
    if (name === fact.name) return [{ name, text: `${own} ${unit}` }];
    if (after && 'length' in after && after.name === `${name}, most`) {
      return [{ name, text: `${between(fact.length, after.length, unit)} ${unit}` }];
    }
    return before?.name === `${name}, least` ? [] : [{ name: fact.name, text: `${own} ${unit}` }];
  });
}
