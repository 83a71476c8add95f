import pako from 'pako';
import { PDFName } from 'pdf-lib';
import type { PDFContext, PDFRawStream } from 'pdf-lib';

/** Level 3 takes half the time of the usual 6, for a sixth more bytes; pages are short, and want no large window. */
const HOW = { level: 3, windowBits: 14, memLevel: 7 } as const;

/** A stream of these bytes, or of a text whose characters are bytes, packed (ISO 32000-1, 7.4.4). */
export function packed(context: PDFContext, contents: Uint8Array | string): PDFRawStream {
  const stream = context.stream(pako.deflate(bytesOf(contents), HOW));
  stream.dict.set(PDFName.of('Filter'), PDFName.of('FlateDecode'));
  return stream;
}

function bytesOf(contents: Uint8Array | string): Uint8Array {
  if (typeof contents !== 'string') return contents;
  const bytes = new Uint8Array(contents.length);
  for (let i = 0; i < contents.length; i++) bytes[i] = contents.charCodeAt(i);
  return bytes;
}
