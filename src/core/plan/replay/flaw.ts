import { toMm } from '../../lengths/length.ts';
import type { Length } from '../../lengths/length.ts';
import type { Problem } from '../../problem.ts';

/** A rule that a plan breaks: its code, the holding or cut where, and the sentence. */
export function flaw(code: string, where: string, say: string, facts?: Problem['facts']): Problem {
  return facts ? { code, where, say, facts } : { code, where, say };
}

/** A length for a sentence: millimetres, at most four decimals. */
export const inMm = (length: Length | number): string => `${Number(toMm(length as Length).toFixed(4))} mm`;
