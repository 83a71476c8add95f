import { fromInches } from '../lengths/length.ts';
import type { Length } from '../lengths/length.ts';
import type { Outcome } from '../problem.ts';
import { refuse } from './refuse.ts';
import { inchTapers } from './taper-table.ts';
import type { Provenance } from './origin.ts';

/** A named taper. `ratio`: change of diameter over length, as whole numbers where it is rational. */
export type Taper = {
  readonly name: string;
  readonly ratio: { readonly num: number; readonly den: number };
  /** Tangent of the half angle. */
  readonly tan: number;
  readonly includedDeg: number;
  /** The angle from the axis, to which a compound slide is set. */
  readonly halfDeg: number;
  /** Inches of diameter per foot of length. */
  readonly perFoot: number;
  /** Diameters and length of a plug by the named standard; null for a mere ratio. */
  readonly plug: { readonly large: Length; readonly small: Length; readonly length: Length } | null;
  readonly provenance: Provenance;
  readonly source: string;
};

const degrees = (radians: number): number => (radians * 180) / Math.PI;

function taperOf(
  name: string,
  num: number,
  den: number,
  plug: Taper['plug'],
  provenance: Provenance,
  source: string,
): Taper {
  const half = degrees(Math.atan2(num, 2 * den));
  return {
    name,
    ratio: { num, den },
    tan: num / (2 * den),
    includedDeg: 2 * half,
    halfDeg: half,
    perFoot: (12 * num) / den,
    plug,
    provenance,
    source,
  };
}

const PER_FOOT_STEPS = 100_000;

/** Morse 0 to 7 and Brown & Sharpe 1 to 13. */
export const namedTapers: readonly Taper[] = inchTapers.map(
  ({ name, perFoot, large, small, length, source }) => {
    const num = Math.round(perFoot * PER_FOOT_STEPS);
    const plug = { large: fromInches(large), small: fromInches(small), length: fromInches(length) };
    return taperOf(name, num, 12 * PER_FOOT_STEPS, plug, 'published', source);
  },
);

const JARNO_LAST = 20;

/**
 * Reads a taper by name or ratio: `MT2`, `Morse 2`, `No. 2 Morse`, `B&S 7`, `Jarno 5`, `1:10`, `7/24`, `7:24`.
 * Reports `taper-unknown` where the name is not in the table or the ratio is not two whole numbers.
 */
export function readTaper(text: string): Outcome<Taper> {
  const tidy = text.trim().replace(/\s+/g, ' ');
  const found = byName(tidy) ?? byRatio(tidy);
  if (found) return { ok: true, value: found };
  const say = `“${text.trim()}” is not a taper in the table; write MT0 to MT7, B&S 1 to 13, Jarno, 7/24 or a ratio such as 1:10.`;
  return refuse('taper-unknown', say, { text });
}

function byName(tidy: string): Taper | undefined {
  const number = '(?:no\\.? ?|#)?(\\d{1,2}(?:\\.5)?)';
  const families: readonly (readonly [string, string])[] = [
    ['Morse', 'morse|m\\.?t\\.?|mk'],
    ['Brown & Sharpe', 'brown ?(?:&|and) ?sharpe|b\\.? ?& ?s\\.?|bs'],
  ];
  for (const [family, pattern] of families) {
    const match =
      new RegExp(`^(?:${pattern}) ?(?:taper )?${number}$`, 'i').exec(tidy) ??
      new RegExp(`^${number} ?(?:${pattern})(?: taper)?$`, 'i').exec(tidy);
    if (match) return namedTapers.find(({ name }) => name === `${family} ${Number(match[1])}`);
  }
  const jarno = /^jarno(?: (?:no\.? ?|#)?(\d{1,2}))?$/i.exec(tidy);
  if (jarno && Number(jarno[1] ?? 1) >= 1 && Number(jarno[1] ?? 1) <= JARNO_LAST) {
    return taperOf('Jarno', 1, 20, null, 'published', '0.600 in per foot for all sizes, published');
  }
  return undefined;
}

function byRatio(tidy: string): Taper | undefined {
  const match = /^(\d{1,4}) ?[:/] ?(\d{1,4})$/.exec(tidy);
  if (!match) return undefined;
  const [num, den] = [Number(match[1]), Number(match[2])];
  if (num === 0 || den === 0) return undefined;
  return taperOf(`${num}:${den}`, num, den, null, 'rule', 'change of diameter over length');
}
