import { RIGHT_TO_LEFT } from './bidi.ts';
import { boundsOf, hatchLines, type Hatch } from './hatch.ts';
import { PT_PER_MM } from './paper.ts';
import { BOX_LABEL } from './type.ts';
import type { Tag } from './tags.ts';
import type { Line, Piece, Typesetter } from './type.ts';
import { utf16 } from './typeface.ts';

export type Stroke = { readonly width: number; readonly dash?: readonly number[] };
export type TextStyle = {
  readonly align?: 'start' | 'middle' | 'end';
  readonly bold?: boolean;
  /** Reads from below to above. */
  readonly upward?: boolean;
  /** The text goes on in a next line: a space after it keeps their words apart where they are read out or copied. */
  readonly goesOn?: boolean;
};

/**
 * The ink of one page, as PDF operators (ISO 32000-1, annex A). Places are mm from the top left corner of the page, y
 * downward; everything is black, as a workshop's printer has no other colour.
 */
export class Ink {
  readonly height: number;
  readonly type: Typesetter;
  readonly fonts: Set<string>;
  /** Which tag each stretch of ink belongs to, by its number. */
  readonly marks: Tag[];
  readonly #page: number;
  readonly #out: string[];
  #stroke: string;
  #font: string;
  #mode: 0 | 2;
  /** What is being drawn is part of this; null for what only adorns the page. */
  #tag: Tag | null;
  /** What the stretch that is open in the output belongs to; undefined before the first one. */
  #open: Tag | null | undefined;

  /** `page` counts from 0. */
  constructor(page: number, height: number, type: Typesetter) {
    this.height = height;
    this.type = type;
    this.fonts = new Set();
    this.marks = [];
    this.#page = page;
    this.#out = [];
    this.#stroke = '';
    this.#font = '';
    this.#mode = 0;
    this.#tag = null;
    this.#open = undefined;
  }

  operators(): string {
    return this.#out.join('\n') + (this.#open === undefined ? '' : '\nEMC');
  }

  /** Draws something that is read out as this tag. What is drawn outside of any tag is not read out. */
  tagged(tag: Tag | null, draw: () => void): void {
    const before = this.#tag;
    this.#tag = tag;
    draw();
    this.#tag = before;
  }

  /** Draws something that is read out in these words, within the tag. */
  saying(words: string, draw: () => void): void {
    this.#put(`/Span <</Alt <FEFF${utf16(words)}>>> BDC`);
    draw();
    this.#put('EMC');
  }

  #put(operators: string): void {
    if (this.#tag !== this.#open) this.#turnTo(this.#tag);
    this.#out.push(operators);
  }

  /** Marked content: ISO 32000-1, 14.6 and 14.8.2.2 (what is no part of the matter is an artifact). */
  #turnTo(tag: Tag | null): void {
    if (this.#open !== undefined) this.#out.push('EMC');
    this.#open = tag;
    if (tag === null) {
      this.#out.push('/Artifact BMC');
      return;
    }
    const id = this.marks.push(tag) - 1;
    tag.parts.push({ page: this.#page, id });
    this.#out.push(`/${tag.role}<</MCID ${id}>>BDC`);
  }

  #x(mm: number): string {
    return figure(mm * PT_PER_MM);
  }

  #y(mm: number): string {
    return figure((this.height - mm) * PT_PER_MM);
  }

  #path(points: readonly number[]): string {
    const steps: string[] = [];
    for (let i = 0; i + 1 < points.length; i += 2)
      steps.push(`${this.#x(points[i] ?? 0)} ${this.#y(points[i + 1] ?? 0)} ${i === 0 ? 'm' : 'l'}`);
    return steps.join(' ');
  }

  #use({ width, dash }: Stroke): void {
    const set = `${this.#x(width)} w [${(dash ?? []).map((d) => this.#x(d)).join(' ')}] 0 d`;
    if (set !== this.#stroke) this.#put(set);
    this.#stroke = set;
  }

  /** A run of straight lines through points x, y, x, y, … */
  line(points: readonly number[], stroke: Stroke): void {
    this.#use(stroke);
    this.#put(`${this.#path(points)} S`);
  }

  rectangle(x: number, y: number, width: number, height: number, stroke: Stroke): void {
    this.#use(stroke);
    this.#put(`${this.#path([x, y, x + width, y, x + width, y + height, x, y + height])} s`);
  }

  /** A filled area; `paper` wipes what lies under it. */
  area(points: readonly number[], fill: 'black' | 'paper'): void {
    const wipe = fill === 'paper';
    this.#put(`${wipe ? '1 g ' : ''}${this.#path(points)} f${wipe ? ' 0 g' : ''}`);
  }

  hatch(points: readonly number[], { apart, width, degrees }: Hatch): void {
    const box = boundsOf(points);
    if (!box) return;
    this.#use({ width });
    this.#put(`q ${this.#path(points)} W n`);
    for (const angle of degrees)
      for (const ends of hatchLines(box, apart, angle)) this.#put(`${this.#path(ends)} S`);
    this.#put('Q');
  }

  /** A text on paper wiped clean: lines that were drawn before stop short of it. */
  clearText(text: string, x: number, y: number, size: number): void {
    const em = size / PT_PER_MM;
    const [from, to] = [x - 0.4, x + this.type.width(text, size) + 0.4];
    const [top, foot] = [y - 0.82 * em, y + 0.24 * em];
    this.area([from, top, to, top, to, foot, from, foot], 'paper');
    this.text(text, x, y, size);
  }

  /** One line of text; y is its base line. Gives its width in mm. */
  text(text: string, x: number, y: number, size: number, style: TextStyle = {}): number {
    const line = this.type.line(text);
    const width = (line.width * size) / 1000 / PT_PER_MM;
    const back = style.align === 'end' ? width : style.align === 'middle' ? width / 2 : 0;
    const [x0, y0] = style.upward ? [x, y + back] : [x - back, y];
    const goesOn = style.goesOn ?? this.#tag?.role === 'Figure';
    const spaced = goesOn && !RIGHT_TO_LEFT.test(text) ? this.type.line(`${text} `) : line;
    this.#setLine(spaced, x0, y0, size, style);
    return width;
  }

  #setLine(line: Line, x: number, y: number, size: number, { bold, upward }: TextStyle): void {
    const at = (along: number, up: number): string =>
      upward
        ? `0 1 -1 0 ${this.#x(x - up / PT_PER_MM)} ${this.#y(y - along / PT_PER_MM)} Tm`
        : `${this.#x(x + along / PT_PER_MM)} ${this.#y(y - up / PT_PER_MM)} Td`;
    let along = 0;
    for (const piece of line.pieces) {
      this.fonts.add(piece.face.key);
      if (piece.kind === 'box') this.#box(piece, along, x, y, size, upward ?? false, at);
      else this.#glyphs(piece, along, this.#lettering(piece.face.key, size, bold ?? false), size, at);
      along += (piece.width * size) / 1000;
    }
  }

  /** Font, size and weight, where they are not those of the text before. */
  #lettering(key: string, size: number, bold: boolean): string {
    const font = `/${key} ${figure(size)} Tf `;
    const mode = bold ? 2 : 0;
    const set = (font === this.#font ? '' : font) + (mode === this.#mode ? '' : `${mode} Tr `);
    this.#font = font;
    this.#mode = mode;
    if (!bold) return set;
    // The weight is a line round each letter: the next stroke sets its own thickness again.
    this.#stroke = '';
    return `${set}${figure(size * 0.028)} w `;
  }

  #glyphs(
    piece: Extract<Piece, { kind: 'glyphs' }>,
    start: number,
    font: string,
    size: number,
    at: (along: number, up: number) => string,
  ): void {
    if (!piece.shaped) {
      this.#put(`BT ${font}${at(start, 0)} ${glyphString(piece.glyphs)} Tj ET`);
      return;
    }
    const set: string[] = [];
    let along = start;
    for (const glyph of piece.glyphs) {
      const place = at(along + (glyph.dx * size) / 1000, (glyph.dy * size) / 1000);
      set.push(`BT ${set.length === 0 ? font : ''}${place} ${glyphString([glyph])} Tj ET`);
      along += (glyph.advance * size) / 1000;
    }
    const shown = set.join(' ');
    if (piece.says === null) this.#put(shown);
    else this.#put(`/Span <</ActualText <FEFF${utf16(piece.says)}>>> BDC ${shown} EMC`);
  }

  /** The frame and the code point that stand for a character which no font of ours has. */
  #box(
    piece: Extract<Piece, { kind: 'box' }>,
    start: number,
    x: number,
    y: number,
    size: number,
    upward: boolean,
    at: (along: number, up: number) => string,
  ): void {
    const em = size / PT_PER_MM;
    const from = start / PT_PER_MM + 0.03 * em;
    const to = from + (piece.width / 1000 - 0.06) * em;
    const corner = (along: number, up: number): number[] =>
      upward ? [x - up, y - along] : [x + along, y - up];
    const [low, high] = [-0.12 * em, 0.72 * em];
    const ring = [
      ...corner(from, low),
      ...corner(to, low),
      ...corner(to, high),
      ...corner(from, high),
      ...corner(from, low),
    ];
    this.line(ring, { width: 0.18 });
    const label = glyphString(piece.label);
    const font = this.#lettering(piece.face.key, size * BOX_LABEL, false);
    this.#put(`BT ${font}${at(start + 0.11 * size, 0.12 * size)} ${label} Tj ET`);
  }
}

const ESCAPED: Readonly<Record<string, string>> = {
  '(': '\\(',
  ')': '\\)',
  '\\': '\\\\',
  '\r': '\\r',
  '\n': '\\n',
};
const byte = (code: number): string => {
  const character = String.fromCharCode(code);
  return ESCAPED[character] ?? character;
};
const CODES: string[] = [];

/** Numbers of glyphs as a literal string of two bytes each (ISO 32000-1, 7.3.4.2): half of what hexadecimal digits take. */
function glyphString(glyphs: readonly { readonly id: number }[]): string {
  let codes = '';
  for (const { id } of glyphs) codes += CODES[id] ??= byte(id >> 8) + byte(id & 0xff);
  return `(${codes})`;
}

/** A figure to 1/1000 pt (0.4 µm), without needless zeros. */
export function figure(n: number): string {
  const rounded = Math.round(n * 1e3) / 1e3;
  return Object.is(rounded, -0) ? '0' : String(rounded);
}
