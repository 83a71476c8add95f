import { visualOrder } from './bidi.ts';
import { fileFor } from './font-files.ts';
import { PT_PER_MM } from './paper.ts';
import type { SetGlyph, Typeface } from './typeface.ts';

/** A stretch of a line that is ready to be put down; widths in thousandths of the size. */
export type Piece =
  | {
      readonly kind: 'glyphs';
      readonly face: Typeface;
      readonly glyphs: readonly SetGlyph[];
      readonly width: number;
      /** Set glyph by glyph, as marks and joined letters have offsets. */
      readonly shaped: boolean;
      /** What it says, where the glyphs alone may not give it back; null in the drawing font, and from right to left,
       * where readers of the file put the glyphs' own letters in order themselves. */
      readonly says: string | null;
    }
  | {
      readonly kind: 'box';
      readonly label: readonly SetGlyph[];
      readonly face: Typeface;
      readonly width: number;
    };

export type Line = {
  readonly pieces: readonly Piece[];
  readonly width: number;
  /** Room above and below the base line, in parts of the size. */
  readonly up: number;
  readonly down: number;
};

/** The size of the code point inside the box of a character that no font has, against the size of the line. */
export const BOX_LABEL = 0.5;
const BOX_PAD = 110;
/** Paper between two lines, in parts of the size. */
const AIR = 0.045;

/** Measures and breaks lines. All sizes are in points, all widths in mm. */
export type Typesetter = {
  line(text: string): Line;
  width(text: string, size: number): number;
  /** Lines that fit the width; words break only where one alone is too wide. Never empty. */
  wrap(text: string, size: number, width: number): string[];
  /** The largest size, not above `size` nor below `least`, at which the text fits; then it is cut with an ellipsis. */
  fit(text: string, size: number, least: number, width: number): { text: string; size: number };
  /** Height of one line, and how deep its base line lies under its top, in mm. */
  leading(text: string, size: number): { step: number; base: number };
};

const UNSEEN = /\p{Variation_Selector}|[\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\u00ad]/gu;
const JOINERS = /\u200c|\u200d/u;
const MARK = /\p{M}/u;
const BREAKS_ANYWHERE = /[\u2e80-\u9fff\uf900-\ufaff\uff00-\uffef\u{20000}-\u{3ffff}]/u;

/** Letters that stand alone, each as wide as it is: nearly every text, which needs none of the care below. */
const PLAIN = /^[\x20-\x7e\xa1-\xac\xae-\xff\u2010-\u2015\u2018-\u201e\u2026\u2032\u2033]*$/;
const LAST_PLAIN = 0x2033;

const PLAIN_LETTERS = Array.from({ length: LAST_PLAIN + 1 }, (_, i) => i).filter((i) =>
  PLAIN.test(String.fromCharCode(i)),
);

/** A text as it can be set: composed, on one line, without characters that only steer. */
function cleaned(text: string): string {
  if (PLAIN.test(text)) return text;
  return text
    .normalize('NFC')
    .replace(/[\p{Cc}\u2028\u2029]+/gu, ' ')
    .replace(UNSEEN, (c) => (JOINERS.test(c) ? c : ''))
    .replace(/\p{Cs}/gu, '\ufffd');
}

/** A typesetter over the main font and whatever further fonts were loaded, by file name. */
export function typesetter(main: Typeface, more: ReadonlyMap<string, Typeface>): Typesetter {
  const lines = new Map<string, Line>();
  const letters = new Map<string, readonly SetGlyph[]>();

  const advances = new Float64Array(LAST_PLAIN + 1).fill(NaN);
  /** Does the main font have every letter that passes for plain? */
  const plainIsMain = PLAIN_LETTERS.every((codePoint) => main.has(codePoint));
  const isPlain = (text: string): boolean => plainIsMain && PLAIN.test(text);

  const letter = (character: string): readonly SetGlyph[] => {
    const known = letters.get(character);
    if (known) return known;
    const glyphs = isPlain(character) ? [main.letter(character)] : main.shape(character, 'ltr');
    letters.set(character, glyphs);
    return glyphs;
  };
  const faceFor = (codePoint: number): Typeface | null => {
    if (main.has(codePoint)) return main;
    const face = more.get(fileFor(codePoint) ?? '');
    return face?.has(codePoint) ? face : null;
  };
  const boxFor = (codePoint: number): Piece => {
    const label = [...`U+${codePoint.toString(16).toUpperCase().padStart(4, '0')}`].flatMap(letter);
    return { kind: 'box', label, face: main, width: widthOf(label) * BOX_LABEL + 2 * BOX_PAD };
  };
  const mainPiece = (characters: Iterable<string>): Piece => {
    const glyphs: SetGlyph[] = [];
    for (const character of characters) glyphs.push(...letter(character));
    return { kind: 'glyphs', face: main, glyphs, width: widthOf(glyphs), shaped: false, says: null };
  };
  const pieceOf = (text: string, face: Typeface, direction: 'ltr' | 'rtl'): Piece => {
    if (face === main) return mainPiece(direction === 'rtl' ? [...text].reverse() : text);
    const glyphs = face.shape(text, direction);
    return {
      kind: 'glyphs',
      face,
      glyphs,
      width: widthOf(glyphs),
      shaped: true,
      says: direction === 'ltr' ? text : null,
    };
  };
  const pieces = (text: string, direction: 'ltr' | 'rtl'): Piece[] => {
    const out = stretches(text, faceFor).map(({ text: run, face }) =>
      face === null ? boxFor(run.codePointAt(0) ?? 0) : pieceOf(run, face, direction),
    );
    return direction === 'rtl' ? out.reverse() : out;
  };
  const plainHeight = { up: main.up + AIR, down: main.down + AIR / 2 };
  const line = (text: string): Line => {
    const known = lines.get(text);
    if (known) return known;
    const all = isPlain(text)
      ? [mainPiece(text)]
      : visualOrder(cleaned(text)).flatMap((run) => pieces(run.text, run.direction));
    const made: Line = {
      pieces: all,
      width: all.reduce((sum, piece) => sum + piece.width, 0),
      up: Math.max(plainHeight.up, ...all.map(({ face }) => face.up + AIR)),
      down: Math.max(plainHeight.down, ...all.map(({ face }) => face.down + AIR / 2)),
    };
    lines.set(text, made);
    return made;
  };
  /** Widths are asked for far more often than lines are set. */
  const plainWidth = (text: string): number => {
    let sum = 0;
    for (let i = 0; i < text.length; i++) {
      const code = text.charCodeAt(i);
      const known = advances[code] ?? NaN;
      const wide = Number.isNaN(known) ? widthOf(letter(String.fromCharCode(code))) : known;
      advances[code] = wide;
      sum += wide;
    }
    return sum;
  };
  const width = (text: string, size: number): number =>
    ((isPlain(text) ? plainWidth(text) : line(text).width) * size) / 1000 / PT_PER_MM;
  return {
    line,
    width,
    wrap: (text, size, room) => wrapped(cleaned(text), (t) => width(t, size), room + 1e-6),
    fit: (text, size, least, room) => fitted(cleaned(text), size, least, room, width),
    leading: (text, size) => {
      const { up, down } = isPlain(text) ? plainHeight : line(text);
      return { step: ((up + down) * size) / PT_PER_MM, base: (up * size) / PT_PER_MM };
    },
  };
}

/** A text cut where its font changes; each character without a font is a stretch of its own. */
function stretches(
  text: string,
  faceFor: (codePoint: number) => Typeface | null,
): { text: string; face: Typeface | null }[] {
  const out: { text: string; face: Typeface | null }[] = [];
  for (const character of text) {
    const codePoint = character.codePointAt(0) ?? 0;
    const last = out.at(-1);
    const clings = MARK.test(character) || character === ' ' || JOINERS.test(character);
    const face = clings && last?.face?.has(codePoint) ? last.face : faceFor(codePoint);
    if (face === null && JOINERS.test(character)) continue;
    if (last && face !== null && last.face === face) last.text += character;
    else out.push({ text: character, face });
  }
  return out;
}

const widthOf = (glyphs: readonly SetGlyph[]): number =>
  glyphs.reduce((sum, glyph) => sum + glyph.advance, 0);

const SEGMENTER = new Intl.Segmenter('en', { granularity: 'grapheme' });
const graphemes = (text: string): string[] =>
  PLAIN.test(text) ? [...text] : [...SEGMENTER.segment(text)].map(({ segment }) => segment);

/** Words, each with what stands between it and the one before: a space, or nothing where a script breaks anywhere. */
function words(text: string): { word: string; glue: string }[] {
  return text
    .split(/ +/)
    .filter((word) => word !== '')
    .flatMap((word) => {
      if (PLAIN.test(word)) return [{ word, glue: ' ' }];
      const parts: string[] = [];
      for (const g of graphemes(word)) {
        const last = parts.at(-1);
        if (last === undefined || BREAKS_ANYWHERE.test(g) || BREAKS_ANYWHERE.test(last)) parts.push(g);
        else parts[parts.length - 1] = last + g;
      }
      return parts.map((part, i) => ({ word: part, glue: i === 0 ? ' ' : '' }));
    });
}

function wrapped(text: string, width: (text: string) => number, room: number): string[] {
  // Plain letters add up; those of other scripts may join, so that their lines are measured whole.
  const adds = PLAIN.test(text);
  const out: string[] = [];
  let line = '';
  let long = 0;
  const begin = (next: string): void => {
    line = next;
    long = width(next);
  };
  for (const { word, glue } of words(text)) {
    const longer = line === '' ? word : line + glue + word;
    const wide = adds && line !== '' ? long + width(glue) + width(word) : width(longer);
    if (wide <= room) {
      line = longer;
      long = wide;
      continue;
    }
    if (line !== '') out.push(line);
    begin(word);
    if (long <= room) continue;
    begin('');
    for (const g of graphemes(word)) {
      if (line !== '' && width(line + g) > room) {
        out.push(line);
        line = '';
      }
      begin(line + g);
    }
  }
  return line === '' && out.length > 0 ? out : [...out, line];
}

function fitted(
  text: string,
  size: number,
  least: number,
  room: number,
  width: (text: string, size: number) => number,
): { text: string; size: number } {
  const full = width(text, size);
  if (full <= room) return { text, size };
  const shrunk = Math.floor(((size * room) / full) * 10) / 10;
  if (shrunk >= least) return { text, size: shrunk };
  const all = graphemes(text);
  let [low, high] = [0, all.length];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (width(`${all.slice(0, middle).join('')}…`, least) <= room) low = middle;
    else high = middle - 1;
  }
  return { text: `${all.slice(0, low).join('').trimEnd()}…`, size: least };
}
