import { decodePDFRawStream, PDFDocument, PDFRawStream } from 'pdf-lib';
import { expect, test } from 'vitest';
import { openTypeface } from '../../src/sheet/typeface.ts';
import { fontBytes } from './sheet-fixtures.ts';

/** What a font that is written into a file says its glyphs mean (ISO 32000-1, 9.10.3). */
async function meanings(bytes: Uint8Array, text: string): Promise<string> {
  const { context } = await PDFDocument.create();
  const typeface = openTypeface(bytes, 'F', 'Drawing');
  typeface.shape(text, 'ltr');
  typeface.embed(context);
  const streams = context
    .enumerateIndirectObjects()
    .flatMap(([, object]) => (object instanceof PDFRawStream ? [decodePDFRawStream(object).decode()] : []))
    .map((decoded) => new TextDecoder('latin1').decode(decoded));
  return streams.find((stream) => stream.includes('beginbfchar')) ?? '';
}

test.each([
  ['ή', 'η', '03B7'],
  ['Ά', 'Α', '0391'],
  ['й', 'и', '0438'],
  ['é', 'e', '0065'],
])(
  'after a sheet with %s, of which %s is a piece, the next says what the piece means',
  async (whole, piece, hex) => {
    const bytes = fontBytes('drawing.ttf'); // read anew: no other test has opened these
    expect(await meanings(bytes, whole)).not.toContain(`<${hex}>`);
    expect(await meanings(bytes, piece)).toContain(`<${hex}>`);
  },
);
