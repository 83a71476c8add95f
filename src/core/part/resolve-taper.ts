import { PM_PER } from '../lengths/length.ts';
import { readAngle } from '../lengths/read-angle.ts';
import { readSize } from '../lengths/read-size.ts';
import type { Outcome } from '../problem.ts';
import { withFields } from './draft.ts';
import { fault, valueAt, type ResolveContext } from './resolve-context.ts';
import type { ResolvedSize, TaperAngle } from './resolved.ts';
import { isReference, resolveSize } from './resolve-size.ts';
import type { Segment, SizeText } from './types.ts';

type Taper = Extract<Segment, { form: 'taper' }>;

const ANGLE_FIELDS = ['half_angle', 'included_angle', 'ratio', 'per_foot'] as const;
type AngleField = (typeof ANGLE_FIELDS)[number];

const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));

/** Diameter change over length as a fraction in lowest terms, with the tangent of the half angle. */
function rational(num: number, den: number, text: string): TaperAngle {
  const common = gcd(num, den);
  return { tan: num / (2 * den), ratio: { num: num / common, den: den / common }, text };
}

const refused = (say: string): Outcome<never> => ({
  ok: false,
  problem: { code: 'taper-unreadable', where: '', say },
});

/** `1:10`, `7:24`, `1:19.212`: diameter change to length, exact. */
function readRatio(text: string): Outcome<TaperAngle> {
  const match = /^\s*(\d{1,6})(?:[.,](\d{1,6}))?\s*:\s*(\d{1,6})(?:[.,](\d{1,6}))?\s*$/.exec(text);
  if (!match) return refused(`“${text}” is not a taper; write it as 1:10.`);
  const [, a = '', aDecimals = '', b = '', bDecimals = ''] = match;
  const digits = Math.max(aDecimals.length, bDecimals.length);
  const num = Number(a + aDecimals.padEnd(digits, '0'));
  const den = Number(b + bDecimals.padEnd(digits, '0'));
  if (num === 0 || den === 0) return refused(`“${text}” is not a taper: neither side may be 0.`);
  return { ok: true, value: rational(num, den, text) };
}

/** Inches of diameter per foot of length, whatever the unit of the part: T = 24 tan(half angle). */
function readPerFoot(text: string): Outcome<TaperAngle> {
  const read = readSize(text, 'in');
  if (!read.ok) return read;
  if (read.value.nominal <= 0) return refused('A taper of 0 per foot is a cylinder.');
  return { ok: true, value: rational(read.value.nominal, 12 * PM_PER.in, text) };
}

function readDegrees(text: string, share: 1 | 2): Outcome<TaperAngle> {
  const read = readAngle(text);
  if (!read.ok) return read;
  const half = read.value / share;
  if (half <= 0 || half >= 90) return refused(`“${text}” is not the angle of a taper.`);
  return { ok: true, value: { tan: Math.tan((half * Math.PI) / 180), ratio: null, text } };
}

const READ: Readonly<Record<AngleField, (text: string) => Outcome<TaperAngle>>> = {
  half_angle: (text) => readDegrees(text, 1),
  included_angle: (text) => readDegrees(text, 2),
  ratio: readRatio,
  per_foot: readPerFoot,
};

type GivenAngle = { readonly angle: TaperAngle | null; readonly field: AngleField | null };

function resolveAngle(context: ResolveContext, taper: Taper, where: string): GivenAngle {
  const [field, second] = ANGLE_FIELDS.filter((name) => taper[name] !== undefined);
  if (field === undefined) return { angle: null, field: null };
  if (second !== undefined) {
    const say = `The taper's angle is given twice, as ${field} and as ${second}; keep one.`;
    fault(context, 'taper-angle-twice', `${where}.${second}`, say, { segment: taper.id });
  }
  return { angle: valueAt(context, READ[field](taper[field] ?? ''), `${where}.${field}`), field };
}

const isEmpty = (size: SizeText | undefined): boolean =>
  size !== undefined && (typeof size === 'string' ? size : size.size).trim() === '';

/** The taper without an end that nothing is written for, where it follows from the other end and an angle. */
function withoutEmptyEnd(taper: Taper): Taper {
  const { start, end } = taper;
  if (!ANGLE_FIELDS.some((name) => taper[name] !== undefined)) return taper;
  if (isEmpty(end) && !isEmpty(start)) return withFields(taper, { end: undefined });
  return isEmpty(start) && !isEmpty(end) ? withFields(taper, { start: undefined }) : taper;
}

/** A bracketed diameter binds nothing, so the taper is worked out as if it were not there. */
function resolveEnd(context: ResolveContext, size: SizeText | undefined, where: string): ResolvedSize | null {
  return size === undefined || isReference(size) ? null : resolveSize(context, size, where, 'shaft');
}

const wants = (size: SizeText | undefined): boolean => size !== undefined && !isReference(size);

function checkSufficient(
  context: ResolveContext,
  taper: Taper,
  where: string,
  field: AngleField | null,
): void {
  const diameters = Number(wants(taper.start)) + Number(wants(taper.end));
  if (diameters === 2 || (diameters === 1 && field !== null)) return;
  const say =
    diameters === 0
      ? 'A taper needs the diameter of one end at least.'
      : 'A taper with one diameter needs an angle, a ratio or a taper per foot as well.';
  fault(context, 'taper-insufficient', where, say, { segment: taper.id });
}

type Ends = { readonly start: ResolvedSize | null; readonly end: ResolvedSize | null };

/** Which end is the large one: by the diameters where both are given, else as said, else the given one. */
function largeEnd(
  context: ResolveContext,
  taper: Taper,
  { start, end }: Ends,
  angle: TaperAngle | null,
  where: string,
): 'start' | 'end' | null {
  if (!start || !end) return taper.large ?? (start ? 'start' : end ? 'end' : null);
  if (start.nominal === end.nominal) {
    if (angle) fault(context, 'taper-without-change', where, 'The taper has an angle, but equal diameters.');
    return taper.large ?? null;
  }
  const larger = start.nominal > end.nominal ? 'start' : 'end';
  if (taper.large !== undefined && taper.large !== larger) {
    const say = `The taper says its ${taper.large} is large, but its diameters say its ${larger} is.`;
    fault(context, 'taper-large-contradicts', `${where}.large`, say, { segment: taper.id });
  }
  return larger;
}

/**
 * Reads a taper: its diameters, its angle and which end is large. A diameter that follows from the other, the angle
 * and a length is left to the chains. `D - d = 2 L tan(half angle)`.
 *
 * Errors: `taper-insufficient` where no length can ever settle it, `taper-angle-twice`, `taper-without-change`,
 * `taper-large-contradicts`, and texts that cannot be read.
 */
export function resolveTaper(context: ResolveContext, written: Taper, where: string) {
  const taper = withoutEmptyEnd(written);
  const start = resolveEnd(context, taper.start, `${where}.start`);
  const end = resolveEnd(context, taper.end, `${where}.end`);
  const { angle, field } = resolveAngle(context, taper, where);
  checkSufficient(context, taper, where, field);
  return { start, end, angle, large: largeEnd(context, taper, { start, end }, angle, where) };
}
