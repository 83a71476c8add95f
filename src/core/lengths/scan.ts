import type { Unit } from './length.ts';

/** A unit as typed: picometres in one, the unit it counts as, and how many decimals of that unit it stands below. */
export type TypedUnit = { readonly unit: Unit; readonly pm: bigint; readonly finer: number };

type Place = { readonly at: number; readonly end: number };

/** A piece of a written size, with its place in the text (`end` is one past its last character). */
export type Token = Place &
  (
    | {
        readonly kind: 'number';
        readonly digits: string;
        readonly decimals: number;
        readonly marked: boolean;
      }
    | { readonly kind: 'vulgar'; readonly over: readonly [bigint, bigint] }
    | { readonly kind: 'unit'; readonly typed: TypedUnit }
    | { readonly kind: 'fit'; readonly fit: string }
    | { readonly kind: 'plus' | 'dash' | 'plus-minus' | 'solidus' | 'diameter' | 'end' }
    | { readonly kind: 'stray'; readonly why: StrayReason }
  );

export type StrayReason = 'stray' | 'marks' | 'no-digits' | 'feet' | 'unknown-word' | 'bracket';

const INCH: TypedUnit = { unit: 'in', pm: 25_400_000_000n, finer: 0 };
const THOU: TypedUnit = { unit: 'in', pm: 25_400_000n, finer: 3 };
const MM: TypedUnit = { unit: 'mm', pm: 1_000_000_000n, finer: 0 };
const MICRON: TypedUnit = { unit: 'mm', pm: 1_000_000n, finer: 3 };

/** What a bare number in `unit` counts as. */
export const typedUnit = (unit: Unit): TypedUnit => (unit === 'in' ? INCH : MM);

const unitWords: ReadonlyMap<string, TypedUnit> = new Map([
  ['"', INCH],
  ["''", INCH],
  ['in', INCH],
  ['inch', INCH],
  ['inches', INCH],
  ['thou', THOU],
  ['mm', MM],
  ['µm', MICRON],
  ['um', MICRON],
]);

const vulgars: ReadonlyMap<string, readonly [bigint, bigint]> = new Map([
  ['½', [1n, 2n]],
  ['⅓', [1n, 3n]],
  ['⅔', [2n, 3n]],
  ['¼', [1n, 4n]],
  ['¾', [3n, 4n]],
  ['⅕', [1n, 5n]],
  ['⅖', [2n, 5n]],
  ['⅗', [3n, 5n]],
  ['⅘', [4n, 5n]],
  ['⅙', [1n, 6n]],
  ['⅚', [5n, 6n]],
  ['⅐', [1n, 7n]],
  ['⅛', [1n, 8n]],
  ['⅜', [3n, 8n]],
  ['⅝', [5n, 8n]],
  ['⅞', [7n, 8n]],
  ['⅑', [1n, 9n]],
  ['⅒', [1n, 10n]],
]);

// Every sign that people, keyboards and copied drawings use for the same thing. One character each way, so that a
// place in the plain text is the same place in what was typed.
const alike: readonly (readonly [string, string])[] = [
  ['-', '‐‑‒–—―−﹣－'],
  ['+', '＋﹢'],
  ['/', '⁄∕／'],
  ['.', ',·．，'],
  ['"', '″”“„‟＂〃'],
  ["'", '′’‘´`＇'],
  ['Ø', 'ø⌀∅φΦϕ'],
  ['µ', 'μ'],
  ['°', 'º˚'],
];
const plainOf = new Map(
  alike.flatMap(([plain, others]) => [...others].map((other) => [other, plain] as const)),
);

/** `text` with every look-alike sign put in its plain form, character for character. */
export function plainSigns(text: string): string {
  let plain = '';
  for (let i = 0; i < text.length; i += 1) {
    const sign = text.charAt(i);
    plain += /\s/.test(sign) ? ' ' : (plainOf.get(sign) ?? sign);
  }
  return plain;
}

const signs: ReadonlyMap<string, 'plus' | 'dash' | 'plus-minus' | 'solidus' | 'diameter'> = new Map([
  ['+', 'plus'],
  ['-', 'dash'],
  ['±', 'plus-minus'],
  ['/', 'solidus'],
  ['Ø', 'diameter'],
]);

// ISO 286-1 letters: no i, l, o, q, w; pairs as listed there. Grades 01, 0, 1 to 18.
const fitText =
  /^(?:cd|ef|fg|js|z[abc]|[a-hjkmnprstuvxyz]|CD|EF|FG|JS|Z[ABC]|[A-HJKMNPRSTUVXYZ])(?:01|0|1[0-8]|[1-9])$/;

/** Cuts a written size into tokens; always ends with one of kind `end`. Never throws: what is no token is `stray`. */
export function scan(text: string): Token[] {
  const plain = plainSigns(text);
  const tokens: Token[] = [];
  let at = 0;
  while (at < plain.length) {
    if (plain.charAt(at) === ' ') {
      at += 1;
      continue;
    }
    const token = tokenAt(plain, at);
    tokens.push(token);
    at = token.end;
  }
  tokens.push({ kind: 'end', at: plain.length, end: plain.length });
  return tokens;
}

function tokenAt(plain: string, at: number): Token {
  const sign = plain.charAt(at);
  if (/[0-9.]/.test(sign)) return numberAt(plain, at);
  if (/[A-Za-zµ]/.test(sign)) return wordAt(plain, at);
  const vulgar = vulgars.get(sign);
  if (vulgar) return { kind: 'vulgar', over: vulgar, at, end: at + 1 };
  const kind = signs.get(sign);
  if (kind) return { kind, at, end: at + 1 };
  if (sign === '"') return { kind: 'unit', typed: INCH, at, end: at + 1 };
  if (plain.startsWith("''", at)) return { kind: 'unit', typed: INCH, at, end: at + 2 };
  if (sign === "'") return { kind: 'stray', why: 'feet', at, end: at + 1 };
  if (/[()[\]]/.test(sign)) return { kind: 'stray', why: 'bracket', at, end: at + 1 };
  return {
    kind: 'stray',
    why: 'stray',
    at,
    end: at + String.fromCodePoint(plain.codePointAt(at) ?? 0).length,
  };
}

function numberAt(plain: string, at: number): Token {
  const figures = /^[0-9.]+/.exec(plain.slice(at))?.[0] ?? '';
  const end = at + figures.length;
  const [whole = '', decimals, ...more] = figures.split('.');
  if (more.length > 0) return { kind: 'stray', why: 'marks', at, end };
  const digits = whole + (decimals ?? '');
  if (digits === '') return { kind: 'stray', why: 'no-digits', at, end };
  return { kind: 'number', digits, decimals: decimals?.length ?? 0, marked: decimals !== undefined, at, end };
}

function wordAt(plain: string, at: number): Token {
  const [, letters = '', figures = '', stop = ''] = /^([A-Za-zµ]+)([0-9]*)(\.?)/.exec(plain.slice(at)) ?? [];
  const end = at + letters.length;
  const endWithStop = figures === '' ? end + stop.length : end;
  const typed = unitWords.get(letters.toLowerCase());
  if (typed) return { kind: 'unit', typed, at, end: endWithStop };
  if (letters.toLowerCase() === 'dia') return { kind: 'diameter', at, end: endWithStop };
  if (fitText.test(letters + figures))
    return { kind: 'fit', fit: letters + figures, at, end: end + figures.length };
  return { kind: 'stray', why: 'unknown-word', at, end: end + figures.length };
}
