import type { Lathe } from './lathe.ts';
import type { Part } from './types.ts';

/** Known fields of each level in the order they are written; others follow in the order they have. */
const rankOf = (...lines: string[]): ReadonlyMap<string, number> =>
  new Map(lines.flatMap((line) => line.split(' ')).map((key, rank) => [key, rank]));

const PART = rankOf(
  'shaftwright title drawing unit material general',
  'faces segments points lengths edges holes crossings requirements matched actuals stubs scan pins',
);
const LATHE = rankOf(
  'shaftwright_lathe name unit swing between_centres spindle_bore collets chucks min_grip support',
  'between_centres_drive speeds feeds readout compound_travel quill_travel tools at_hand cut bars',
);
const THING = rankOf(
  'rule fraction class jaws id kind form hand face side from at to sketched',
  'size diameter start end half_angle included_angle ratio per_foot large thread radius width width_known_to',
  'depth drill_depth through across reaches angle min max why step close',
  'tol role mate bearing bore name',
);

function entries(object: object, rank: ReadonlyMap<string, number>): [string, unknown][] {
  const place = (key: string) => rank.get(key) ?? rank.size;
  return Object.entries(object)
    .filter(([, value]) => value !== undefined)
    .sort(([a], [b]) => place(a) - place(b));
}

/** A value on one line. */
function inline(value: unknown): string {
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  if (Array.isArray(value)) return `[${value.map(inline).join(', ')}]`;
  const fields = entries(value, THING).map(([key, field]) => `${JSON.stringify(key)}: ${inline(field)}`);
  return fields.length === 0 ? '{}' : `{ ${fields.join(', ')} }`;
}

const isThing = (value: unknown): boolean => typeof value === 'object' && value !== null;

/** A list of things has one line for each. */
function topField(value: unknown): string {
  if (!Array.isArray(value) || !value.some(isThing)) return inline(value);
  return `[\n${value.map((item) => `    ${inline(item)}`).join(',\n')}\n  ]`;
}

function written(file: object, rank: ReadonlyMap<string, number>): string {
  const fields = entries(file, rank).map(([key, value]) => `  ${JSON.stringify(key)}: ${topField(value)}`);
  return `{\n${fields.join(',\n')}\n}\n`;
}

/**
 * The text of a part file: known fields in a fixed order, one line for each thing, unknown fields kept behind them.
 * `readPart(writePart(part))` gives the part again.
 */
export const writePart = (part: Part): string => written(part, PART);

/** The text of a lathe file, likewise. */
export const writeLathe = (lathe: Lathe): string => written(lathe, LATHE);
