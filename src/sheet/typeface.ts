import { create } from '@cantoo/fontkit';
import type { Font, Glyph, Subset } from '@cantoo/fontkit';
import { PDFString } from 'pdf-lib';
import type { PDFContext, PDFRef } from 'pdf-lib';
import { packed } from './packed.ts';

/** A glyph where it is to be set: its number in the subset, and its offset and advance in thousandths of the size. */
export type SetGlyph = {
  readonly id: number;
  readonly dx: number;
  readonly dy: number;
  readonly advance: number;
};

/**
 * One open font: measures, shapes, and collects the glyphs that were used, so that only these go into the file.
 * pdf-lib's own embedding is not used: it forgets the offsets that marks of many scripts need, and wants an older font kit.
 */
export type Typeface = {
  /** Name of the font among a page's resources. */
  readonly key: string;
  /** How far letters reach above and below the base line, in parts of the size. */
  readonly up: number;
  readonly down: number;
  has(codePoint: number): boolean;
  /** The glyph of a letter that stands alone and is among those it `has`. */
  letter(character: string): SetGlyph;
  /** Glyphs from left to right; `direction` is that of the writing. */
  shape(text: string, direction: 'ltr' | 'rtl'): readonly SetGlyph[];
  /** Has anything been set in it? */
  used(): boolean;
  /** Writes the font with the glyphs used so far. To be called once, when all pages are done. */
  embed(context: PDFContext): PDFRef;
};

type Opened = {
  readonly font: Font;
  readonly known: ReadonlySet<number>;
  /** What each glyph that stands for a single letter means, by its number. */
  readonly letters: () => ReadonlyMap<number, number>;
};
type Kept = { readonly width: number; readonly means: readonly number[] };

/** Fonts that were read before: their bytes are kept from sheet to sheet, and reading them takes as long as a page. */
const fonts = new WeakMap<Uint8Array, Opened>();

function opened(bytes: Uint8Array, name: string): Opened {
  const known = fonts.get(bytes);
  if (known) return known;
  const font = create(bytes);
  if (!('layout' in font) || !('createSubset' in font) || font.type !== 'TTF')
    throw new RangeError(`openTypeface: ${name} is no TrueType font`);
  let letters: Map<number, number> | null = null;
  const made: Opened = {
    font,
    known: new Set(font.characterSet),
    letters: () => (letters ??= lettersOf(font)),
  };
  fonts.set(bytes, made);
  return made;
}

function lettersOf(font: Font): Map<number, number> {
  const letters = new Map<number, number>();
  for (const codePoint of font.characterSet) {
    const glyph = font.glyphForCodePoint(codePoint);
    if (glyph && !letters.has(glyph.id)) letters.set(glyph.id, codePoint);
  }
  return letters;
}

/**
 * Opens a raw TrueType font. Throws RangeError where the bytes are none (a web font format prints blank, see
 * static/fonts/README.md): the caller's bug.
 */
export function openTypeface(bytes: Uint8Array, key: string, name: string): Typeface {
  const { font, known, letters } = opened(bytes, name);
  const scale = 1000 / font.unitsPerEm;
  const subset = font.createSubset();
  const kept = new Map<number, Kept>();
  const keep = (glyph: Glyph): number => {
    const id = subset.includeGlyph(glyph);
    if (!kept.has(id)) kept.set(id, { width: glyph.advanceWidth * scale, means: meansOf(glyph) });
    return id;
  };
  /** A glyph that an earlier sheet met only as a piece of another (η in ή) has forgotten which letter it is. */
  const meansOf = ({ id, codePoints }: Glyph): readonly number[] => {
    const letter = codePoints.length === 0 ? letters().get(id) : undefined;
    return letter === undefined ? codePoints : [letter];
  };
  const shape = (text: string, direction: 'ltr' | 'rtl'): SetGlyph[] => {
    const run = font.layout(text, null, null, null, direction);
    return run.glyphs.map((glyph, i) => {
      const at = run.positions?.[i];
      const advance = (at?.xAdvance ?? glyph.advanceWidth) * scale;
      return { id: keep(glyph), dx: (at?.xOffset ?? 0) * scale, dy: (at?.yOffset ?? 0) * scale, advance };
    });
  };
  return {
    key,
    up: font.ascent / font.unitsPerEm,
    down: -font.descent / font.unitsPerEm,
    has: (codePoint) => known.has(codePoint),
    letter: (character) => {
      const glyph = font.glyphForCodePoint(character.codePointAt(0) ?? 0);
      if (!glyph) throw new RangeError(`letter: ${name} has no ${character}`);
      return { id: keep(glyph), dx: 0, dy: 0, advance: glyph.advanceWidth * scale };
    },
    shape,
    used: () => kept.size > 0,
    embed: (context) => embedFont(context, font, subset, kept, name),
  };
}

/** A composite font with Identity-H encoding: ISO 32000-1, 9.7.4 (CIDFonts), 9.8 (descriptors), 9.10.3 (ToUnicode). */
function embedFont(
  context: PDFContext,
  font: Font,
  subset: Subset,
  kept: ReadonlyMap<number, Kept>,
  name: string,
): PDFRef {
  const scale = 1000 / font.unitsPerEm;
  const round = (n: number): number => Math.round(n * scale);
  const baseFont = `AAAAAA+${name}`;
  const { minX, minY, maxX, maxY } = font.bbox;
  const descriptor = context.register(
    context.obj({
      Type: 'FontDescriptor',
      FontName: baseFont,
      Flags: 4,
      FontBBox: [round(minX), round(minY), round(maxX), round(maxY)],
      ItalicAngle: 0,
      Ascent: round(font.ascent),
      Descent: round(font.descent),
      CapHeight: round(font.capHeight || font.ascent),
      StemV: 80,
      FontFile2: context.register(packed(context, subset.encode())),
    }),
  );
  const byId = [...kept].sort(([a], [b]) => a - b);
  const descendant = context.register(
    context.obj({
      Type: 'Font',
      Subtype: 'CIDFontType2',
      CIDToGIDMap: 'Identity',
      BaseFont: baseFont,
      CIDSystemInfo: context.obj({
        Registry: PDFString.of('Adobe'),
        Ordering: PDFString.of('Identity'),
        Supplement: 0,
      }),
      FontDescriptor: descriptor,
      W: byId.flatMap(([id, { width }]) => [id, [Math.round(width * 100) / 100]]),
    }),
  );
  return context.register(
    context.obj({
      Type: 'Font',
      Subtype: 'Type0',
      BaseFont: baseFont,
      Encoding: 'Identity-H',
      DescendantFonts: [descendant],
      ToUnicode: context.register(packed(context, unicodeMap(byId))),
    }),
  );
}

const hex = (n: number, digits: number): string => n.toString(16).toUpperCase().padStart(digits, '0');

/** A text in UTF-16BE, as PDF wants it between angle brackets. */
export const utf16 = (text: string): string =>
  Array.from({ length: text.length }, (_, i) => hex(text.charCodeAt(i), 4)).join('');

function unicodeMap(byId: readonly (readonly [number, Kept])[]): string {
  const rows = byId
    .filter(([, { means }]) => means.length > 0)
    .map(([id, { means }]) => `<${hex(id, 4)}> <${utf16(String.fromCodePoint(...means))}>`);
  const blocks: string[] = [];
  for (let i = 0; i < rows.length; i += 100) {
    const block = rows.slice(i, i + 100);
    blocks.push(`${block.length} beginbfchar\n${block.join('\n')}\nendbfchar`);
  }
  return [
    '/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap',
    '/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def',
    '/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def',
    '1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange',
    ...blocks,
    'endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend',
  ].join('\n');
}
