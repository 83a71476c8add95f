/** A stretch of text in one direction, as it is stored. */
export type DirectedText = { readonly text: string; readonly direction: 'ltr' | 'rtl' };

type Strong = 'L' | 'R' | 'number' | 'neutral';

/** A letter of a script that runs from right to left. */
export const RIGHT_TO_LEFT =
  /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufeff\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]/u;
const DIGIT = /[0-9\u0660-\u0669\u06f0-\u06f9]/u;
const LETTER = /[\p{L}\p{M}]/u;
const MIRROR: Readonly<Record<string, string>> = {
  '(': ')',
  ')': '(',
  '[': ']',
  ']': '[',
  '<': '>',
  '>': '<',
};

function kindOf(character: string): Strong {
  if (DIGIT.test(character)) return 'number';
  if (RIGHT_TO_LEFT.test(character)) return 'R';
  return LETTER.test(character) ? 'L' : 'neutral';
}

/**
 * A line cut into stretches, in the order in which they stand on paper from left to right. The line as a whole runs the
 * way of its first letter. A plain form of the rules of Unicode Standard Annex 9 (W7, N0, N1, N2, L2, L4) without embeddings,
 * which names and titles do not need.
 */
export function visualOrder(line: string): readonly DirectedText[] {
  if (!RIGHT_TO_LEFT.test(line)) return [{ text: line, direction: 'ltr' }];
  const characters = [...line];
  const levels = levelsOf(withBrackets(characters, characters.map(kindOf)));
  const runs: { text: string; level: number }[] = [];
  characters.forEach((character, i) => {
    const level = levels[i] ?? 0;
    const shown = level % 2 === 1 ? (MIRROR[character] ?? character) : character;
    const last = runs.at(-1);
    if (last?.level === level) last.text += shown;
    else runs.push({ text: shown, level });
  });
  return reordered(runs).map(({ text, level }) => ({ text, direction: level % 2 === 1 ? 'rtl' : 'ltr' }));
}

const baseOf = (kinds: readonly Strong[]): 'L' | 'R' =>
  kinds.find((kind) => kind === 'L' || kind === 'R') === 'R' ? 'R' : 'L';

/** Rule N0: a pair of brackets runs the way of what it holds, or of the line where that is in doubt. */
function withBrackets(characters: readonly string[], kinds: readonly Strong[]): Strong[] {
  const base = baseOf(kinds);
  const out = [...kinds];
  const open: number[] = [];
  characters.forEach((character, end) => {
    if ('([<'.includes(character)) open.push(end);
    if (!')]>'.includes(character)) return;
    const start = open.findLast((i) => MIRROR[characters[i] ?? ''] === character);
    if (start === undefined) return;
    open.length = open.indexOf(start);
    const held = new Set(kinds.slice(start + 1, end).map((kind) => (kind === 'number' ? 'R' : kind)));
    if (!held.has('L') && !held.has('R')) return;
    const before = out.slice(0, start).findLast((kind) => kind === 'L' || kind === 'R') ?? base;
    const other = base === 'L' ? 'R' : 'L';
    out[start] = out[end] = !held.has(base) && before === other ? other : base;
  });
  return out;
}

function levelsOf(kinds: readonly Strong[]): number[] {
  const base = baseOf(kinds) === 'R' ? 1 : 0;
  const before = (i: number): Strong =>
    kinds.slice(0, i).findLast((kind) => kind === 'L' || kind === 'R') ?? (base ? 'R' : 'L');
  const sense = (i: number): number | null => {
    const kind = kinds[i];
    if (kind === undefined || kind === 'neutral') return null;
    if (kind === 'number') return before(i) === 'L' ? 0 : 1;
    return kind === 'R' ? 1 : 0;
  };
  const edge = (from: number, step: 1 | -1): number => {
    for (let i = from; i >= 0 && i < kinds.length; i += step) {
      const found = sense(i);
      if (found !== null) return found;
    }
    return base;
  };
  return kinds.map((kind, i) => {
    if (kind === 'R') return 1;
    if (kind === 'L') return base === 1 ? 2 : 0;
    if (kind === 'number') return before(i) === 'L' && base === 0 ? 0 : 2;
    const [left, right] = [edge(i, -1), edge(i, 1)];
    const direction = left === right ? left : base;
    return direction === 1 ? 1 : base === 1 ? 2 : 0;
  });
}

/** Rule L2: from the highest level down to 1, every unbroken stretch at that level or above is turned round. */
function reordered<T extends { level: number }>(runs: readonly T[]): T[] {
  const out = [...runs];
  for (let level = Math.max(...out.map((r) => r.level)); level > 0; level--) {
    for (let i = 0; i < out.length;) {
      let end = i;
      while ((out[end]?.level ?? -1) >= level) end++;
      if (end > i) out.splice(i, end - i, ...out.slice(i, end).reverse());
      i = Math.max(end, i + 1);
    }
  }
  return out;
}
