import { idsOf } from './edit.ts';
import type { Part } from './types.ts';

/** Letters of faces; I and O are left out as they read as figures (common practice, no source). */
const LETTERS = 'ABCDEFGHJKLMNPQRSTUVWXYZ';

/** The letters of a count: A to Z, then AA, AB and so on. */
function lettersOf(count: number): string {
  const letter = LETTERS[count % LETTERS.length] ?? 'A';
  return count < LETTERS.length ? letter : lettersOf(Math.floor(count / LETTERS.length) - 1) + letter;
}

function firstFree(part: Part, nameOf: (count: number) => string): string {
  const taken = idsOf(part);
  for (let count = 0; ; count += 1) {
    const name = nameOf(count);
    if (!taken.has(name)) return name;
  }
}

/** The next letter that nothing in the part is called by. */
export const freshFaceId = (part: Part): string => firstFree(part, lettersOf);

/** Beginnings of ids: `s1` a segment, `L1` a length, `P1` a point, `R1` a requirement. */
export type IdPrefix = 's' | 'P' | 'L' | 'e' | 'h' | 'x' | 'R';

/** The next number behind `prefix` that is free. */
export const freshId = (part: Part, prefix: IdPrefix): string => firstFree(part, (n) => `${prefix}${n + 1}`);
