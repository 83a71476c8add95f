import { fromMm, toMm } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import type { Outcome } from '../problem.ts';
import type { Provenance } from './origin.ts';
import { refuse } from './refuse.ts';
import { oneOf } from './suggestions.ts';

export type UndercutForm = 'E' | 'F' | 'G' | 'H';
export type UndercutLoad = 'usual' | 'alternating';

/** An undercut of DIN 509. E relieves the diameter, F the face as well; G and H are for hard or high-stressed work. */
export type Undercut = {
  readonly designation: string;
  readonly form: UndercutForm;
  readonly radius: Length;
  /** Depth below the diameter, radial. */
  readonly depth: Length;
  /** Width along the axis from the face. */
  readonly width: Length;
  /** Depth into the face; null for form E. */
  readonly faceDepth: Length | null;
  /** Height of the relief in the face; null for form E. */
  readonly faceHeight: Length | null;
  readonly load: UndercutLoad;
  /** Diameters it is meant for: over, up to and including (null: no end). */
  readonly over: Length;
  readonly upTo: Length | null;
  readonly provenance: Provenance;
};

export const undercutSource =
  'DIN 509, as printed in one published extract; height in the face re-derived from the 8° geometry; G and H by their place in the extract';

type Row = readonly [
  forms: 'EF' | 'G' | 'H',
  radius: number,
  depth: number,
  width: number,
  faceHeight: number,
  faceDepth: number,
  load: UndercutLoad,
  over: number,
  upTo: number | null,
  from: Provenance,
];

const P = 'published';

/** mm. The extract prints 2.4 for the face height of 0.8 x 0.3; the geometry of all other rows gives 2.3. */
const ROWS: readonly Row[] = [
  ['EF', 0.2, 0.1, 1, 0.9, 0.1, 'usual', 1.6, 3, P],
  ['EF', 0.4, 0.2, 2, 1.1, 0.1, 'usual', 3, 18, P],
  ['EF', 0.6, 0.2, 2, 1.4, 0.1, 'usual', 10, 18, P],
  ['EF', 0.6, 0.3, 2.5, 2.1, 0.2, 'usual', 18, 80, P],
  ['EF', 0.8, 0.3, 2.5, 2.3, 0.2, 'usual', 18, 80, 'rule'],
  ['EF', 1, 0.2, 2.5, 1.8, 0.1, 'alternating', 18, 50, P],
  ['EF', 1, 0.4, 4, 3.2, 0.3, 'usual', 80, null, P],
  ['EF', 1.2, 0.2, 2.5, 2, 0.1, 'alternating', 18, 50, P],
  ['EF', 1.2, 0.4, 4, 3.4, 0.3, 'usual', 80, null, P],
  ['EF', 1.6, 0.3, 4, 3.1, 0.2, 'alternating', 50, 80, P],
  ['EF', 2.5, 0.4, 5, 4.8, 0.3, 'alternating', 80, 125, P],
  ['EF', 4, 0.5, 7, 6.4, 0.3, 'alternating', 125, null, P],
  ['G', 0.4, 0.2, 1, 1.2, 0.2, 'usual', 3, 18, P],
  ['H', 0.8, 0.3, 2, 1.1, 0.05, 'usual', 18, 80, P],
  ['H', 1.2, 0.3, 2.5, 1.5, 0.05, 'alternating', 18, 50, P],
];

const formOf = (letter: string): UndercutForm =>
  letter === 'F' || letter === 'G' || letter === 'H' ? letter : 'E';

export const undercuts: readonly Undercut[] = ROWS.flatMap(
  ([forms, radius, depth, width, faceHeight, faceDepth, load, over, upTo, provenance]) =>
    [...forms].map((letter) => ({
      designation: `${letter}${radius}x${depth}`,
      form: formOf(letter),
      radius: fromMm(radius),
      depth: fromMm(depth),
      width: fromMm(width),
      faceDepth: letter === 'E' ? null : fromMm(faceDepth),
      faceHeight: letter === 'E' ? null : fromMm(faceHeight),
      load,
      over: fromMm(over),
      upTo: upTo === null ? null : fromMm(upTo),
      provenance,
    })),
);

/** The undercuts meant for a diameter, smallest first; none where the table has none, as at 1.6 mm and under. */
export function undercutsFor(
  diameter: Length,
  form: UndercutForm,
  load: UndercutLoad = 'usual',
): readonly Undercut[] {
  return undercuts.filter(
    (u) => u.form === form && u.load === load && diameter > u.over && (u.upTo === null || diameter <= u.upTo),
  );
}

/** Reads `F0.8x0.3`, `E 0,4 × 0,2`, `DIN 509-F0.6x0.3`. Reports `undercut-unknown` with the sizes of the form. */
export function readUndercut(text: string): Outcome<Undercut> {
  const tidy = text.slice(0, 40).replace(/,/g, '.').replace(/\s+/g, '').replace(/[×*]/g, 'x');
  const match = /^(?:DIN509[-:]?)?([EFGH])(\d+(?:\.\d+)?)x(\d+(?:\.\d+)?)$/i.exec(tidy);
  const letter = match?.[1]?.toUpperCase();
  const own = undercuts.filter(({ form }) => form === letter);
  const found = own.find(({ radius, depth }) => {
    return toMm(radius) === Number(match?.[2]) && toMm(depth) === Number(match?.[3]);
  });
  if (found) return { ok: true, value: found };
  const near = own.map(({ designation }) => designation);
  const say = `“${text.trim()}” is not an undercut in the table; ${near.length > 0 ? `form ${letter} has ${oneOf(near)}` : 'write F0.6x0.3'}.`;
  return refuse('undercut-unknown', say, { text, near });
}
