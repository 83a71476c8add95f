import { fromMm, PM_PER, type Unit } from '../core/lengths/length.ts';
import { writeFraction, writeShort } from '../core/lengths/write.ts';

/** A place or a size that a drag fell into, and why, in a few words. */
export type Snap = { readonly mm: number; readonly say: string | null };

/** What a drag may fall into: places or sizes with words of their own, and a grid measured from `from`. */
export type Catches = {
  readonly unit: Unit;
  /** Px per mm. */
  readonly scale: number;
  /** Where a grid begins, mm, and what is written before its figure ("C–D"). */
  readonly from: number;
  readonly of: string;
  readonly marks: readonly { readonly mm: number; readonly say: string }[];
};

/** How near a mark must be to catch, and how far apart a grid's steps stand at least, px. */
const REACH = 6;
const STEP = 7;
/** Fractions of an inch as they stand on a rule, and round millimetres. */
const STEPS: Readonly<Record<Unit, readonly number[]>> = {
  in: [1 / 64, 1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1].map((inch) => inch * 25.4),
  mm: [0.1, 0.5, 1, 2, 5, 10, 20, 50],
};

/** The step of a rule that can be told apart at this zoom, mm. */
export const ruleStep = (unit: Unit, scale: number): number =>
  STEPS[unit].find((step) => step * scale >= STEP) ?? STEPS[unit].at(-1) ?? 1;

/** Lets a place fall into the nearest mark within reach, else onto the rule. */
export function snapTo(mm: number, { unit, scale, from, of, marks }: Catches): Snap {
  const near = marks
    .map((mark) => ({ ...mark, far: Math.abs(mark.mm - mm) * scale }))
    .filter(({ far }) => far <= REACH)
    .sort((a, b) => a.far - b.far)[0];
  const size = (place: number) => `${of} ${written(place - from, unit)}`.trim();
  if (near) return { mm: near.mm, say: `${size(near.mm)}, ${near.say}` };
  const step = ruleStep(unit, scale);
  const onRule = from + Math.round((mm - from) / step) * step;
  return { mm: onRule, say: size(onRule) };
}

/** A free size beside the pointer, as fine as it is ever sketched. */
export function freeAt(mm: number, { unit, from, of }: Omit<Catches, 'marks'>): Snap {
  const fine = ((unit === 'in' ? 0.001 : 0.01) * PM_PER[unit]) / PM_PER.mm;
  const place = from + Math.round((mm - from) / fine) * fine;
  return { mm: place, say: `${of} ${written(place - from, unit)}`.trim() };
}

/** A fraction where the rule has it, else decimals. */
function written(mm: number, unit: Unit): string {
  const length = fromMm(Math.abs(mm));
  return (unit === 'in' ? writeFraction(length, 64) : null) ?? writeShort(length, unit);
}
