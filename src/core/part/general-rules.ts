import { negate, plus, type Length, type Unit } from '../lengths/length.ts';
import { readTolerance } from '../lengths/read-tolerance.ts';
import type { WrittenSize, WrittenTolerance } from '../lengths/written.ts';
import type { Problem } from '../problem.ts';
import { generalClass, generalDeviation } from '../standards/iso2768.ts';
import type { GeneralRule } from './types.ts';

/** Signed deviations from a nominal. */
export type Band = { readonly lower: Length; readonly upper: Length };

/** A general rule with its texts read once. `decimals`: bands by count of decimals, most decimals first. */
export type ReadRule =
  | { readonly rule: 'none' }
  | { readonly rule: 'fixed'; readonly tolerance: WrittenTolerance }
  | { readonly rule: 'iso2768'; readonly class: string }
  | {
      readonly rule: 'decimals';
      readonly bands: readonly { readonly count: number; readonly band: Band }[];
      readonly fraction: Band | null;
    };

const NONE: ReadRule = { rule: 'none' };

/** A figure of a rule: `.005` and `±.005` say the same. */
function readFigure(text: string, unit: Unit) {
  return readTolerance(/^\s*\d|^\s*[.,]/.test(text) ? `±${text.trim()}` : text, unit);
}

function readDecimals(
  rule: Extract<GeneralRule, { rule: 'decimals' }>,
  unit: Unit,
  where: string,
  errors: Problem[],
): ReadRule {
  const bands: { count: number; band: Band }[] = [];
  let fraction: Band | null = null;
  for (const [key, text] of Object.entries(rule)) {
    if (key !== 'fraction' && !/^\d{1,2}$/.test(key)) continue;
    const read = readFigure(typeof text === 'string' ? text : JSON.stringify(text), unit);
    if (!read.ok) errors.push({ ...read.problem, where: `${where}.${key}` });
    else if (read.value.kind === 'fit') {
      errors.push({
        code: 'rule-wants-figures',
        where: `${where}.${key}`,
        say: `A rule by decimals wants figures such as ".005", not the class ${read.value.fit}.`,
      });
    } else if (key === 'fraction') fraction = read.value;
    else bands.push({ count: Number(key), band: read.value });
  }
  return { rule: 'decimals', bands: bands.sort((a, b) => b.count - a.count), fraction };
}

/** Reads a general rule; what cannot be read is pushed to `errors` and does not apply. */
export function readRule(
  rule: GeneralRule | undefined,
  unit: Unit,
  where: string,
  errors: Problem[],
): ReadRule {
  if (!rule) return NONE;
  if (rule.rule === 'decimals') return readDecimals(rule, unit, where, errors);
  if (rule.rule === 'iso2768') {
    if (generalClass(rule.class) !== null) return { rule: 'iso2768', class: rule.class };
    errors.push({
      code: 'unknown-general-class',
      where: `${where}.class`,
      say: `“${rule.class}” is no class of ISO 2768; there are f, m, c and v.`,
    });
    return NONE;
  }
  const read = readFigure(rule.tol, unit);
  if (read.ok) return { rule: 'fixed', tolerance: read.value };
  errors.push({ ...read.problem, where: `${where}.tol` });
  return NONE;
}

/**
 * The deviations that a general rule gives a size that carries none: a class where the rule is one, null where it
 * gives nothing.
 *
 * By decimals, the count that the draughtsman wrote decides, whatever unit the size was written in: a size of
 * `9.00 mm` on an inch drawing has two decimals and takes the figure for two, which is in inches. A count that is
 * not named takes the next coarser named one, then `fraction`; a fraction takes `fraction` alone.
 */
export function generalTolerance(
  rule: ReadRule,
  size: Pick<WrittenSize, 'nominal' | 'decimals' | 'fraction'>,
  table: 'linear' | 'edge',
): WrittenTolerance | null {
  if (rule.rule === 'none') return null;
  if (rule.rule === 'fixed') return rule.tolerance;
  if (rule.rule === 'iso2768') {
    const half = generalDeviation(size.nominal, rule.class, table);
    return half === null ? null : symmetric(half);
  }
  const count = size.decimals ?? 0;
  const named = size.fraction ? undefined : rule.bands.find((band) => band.count <= count);
  const band = named?.band ?? rule.fraction;
  return band && { kind: 'deviations', ...band };
}

function symmetric(half: Length): WrittenTolerance {
  return { kind: 'deviations', lower: negate(half), upper: half };
}

/** A nominal with deviations applied. */
export const bandAround = (nominal: Length, { lower, upper }: Band) => ({
  min: plus(nominal, lower),
  max: plus(nominal, upper),
});
