import { LARGEST_FILE } from '../core/part/read-json.ts';

/** One of the links that a text travels in. */
export type Piece = {
  /** Tells what belongs together: the checksum of the whole, and how many pieces it has. */
  readonly whole: string;
  readonly sum: number;
  readonly count: number;
  /** From 1. */
  readonly number: number;
  readonly bytes: Uint8Array;
};

export type Read<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly say: string };

/** What a code takes in with room to spare: a phone reads it off a screen an arm's length away. */
const PIECE_BYTES = 378;
/** More than anyone wants to hold a camera to. */
const MOST_PIECES = 60;
const SIGN = '#t1.';

/**
 * The links that carry a text to another device: compressed, cut up, and each piece in the fragment of the app's own
 * address, which a browser sends to no server. Null where it would take too many.
 *
 * A fragment reads `#t1.SUM.NUMBER.COUNT.DIGITS`. The digits are bytes as decimal figures, as a code packs figures
 * without loss: a checksum of the piece, then the piece. `SUM` is the checksum of all pieces together.
 */
export async function writeLinks(text: string, address: string): Promise<readonly string[] | null> {
  const whole = await through(new TextEncoder().encode(text), new CompressionStream('deflate-raw'), Infinity);
  const count = Math.max(1, Math.ceil(whole.length / PIECE_BYTES));
  if (count > MOST_PIECES) return null;
  const sum = crc32(whole);
  return Array.from({ length: count }, (_, i) => {
    const bytes = whole.slice(i * PIECE_BYTES, (i + 1) * PIECE_BYTES);
    const place = `${sum}.${i + 1}.${count}.`;
    const check = new Uint8Array(4);
    new DataView(check.buffer).setUint32(0, crc32(bytes, place));
    return `${address.replace(/#.*$/s, '')}${SIGN}${place}${writeDigits(join([check, bytes]))}`;
  });
}

const DAMAGED = 'This code is damaged: read it again.';

/** The piece in a link or its fragment. Null where it carries none; refused in words where it is damaged. */
export function readPiece(link: string): Read<Piece> | null {
  const fragment = link.slice(Math.max(0, link.indexOf('#')));
  const version = /^#t(\d{1,6})\./.exec(fragment)?.[1];
  if (version === undefined) return null;
  if (Number(version) !== 1)
    return { ok: false, say: 'This code was made by a newer version of the app. Use the same one here.' };
  const found = /^#t1\.(\d{1,10})\.(\d{1,2})\.(\d{1,2})\.(\d{1,2000})$/.exec(fragment);
  const [, sum = '', number = '', count = '', digits = ''] = found ?? [];
  const read = readDigits(digits);
  if (!found || !read || read.length < 5) return { ok: false, say: DAMAGED };
  const bytes = read.slice(4);
  const check = new DataView(read.buffer, read.byteOffset).getUint32(0);
  const fits = Number(number) >= 1 && Number(number) <= Number(count) && Number(count) <= MOST_PIECES;
  if (!fits || check !== crc32(bytes, `${sum}.${number}.${count}.`)) return { ok: false, say: DAMAGED };
  return {
    ok: true,
    value: {
      whole: `${sum}.${count}`,
      sum: Number(sum),
      count: Number(count),
      number: Number(number),
      bytes,
    },
  };
}

/** The text again, from all its pieces in any order. */
export async function joinPieces(pieces: readonly Piece[]): Promise<Read<string>> {
  const inOrder = [...pieces].sort((a, b) => a.number - b.number);
  const [first] = inOrder;
  const complete = inOrder.length === first?.count && inOrder.every(({ number }, i) => number === i + 1);
  if (!first || !complete) return { ok: false, say: 'Not all codes are read yet.' };
  const whole = join(inOrder.map(({ bytes }) => bytes));
  const wrong = {
    ok: false,
    say: 'The codes do not fit together: show them afresh and read them again.',
  } as const;
  if (crc32(whole) !== first.sum) return wrong;
  try {
    const text = await through(whole, new DecompressionStream('deflate-raw'), LARGEST_FILE);
    return { ok: true, value: new TextDecoder('utf-8', { fatal: true }).decode(text) };
  } catch {
    return wrong; // no deflate stream, no text, or one that swells beyond any part file
  }
}

/** Sends bytes through a stream; rejects where more than `most` come out. */
async function through(
  bytes: Uint8Array<ArrayBuffer>,
  stream: CompressionStream | DecompressionStream,
  most: number,
): Promise<Uint8Array<ArrayBuffer>> {
  const out: Uint8Array[] = [];
  let length = 0;
  const writer = stream.writable.getWriter();
  // What goes wrong in writing comes out at the reading end.
  writer
    .write(bytes)
    .then(() => writer.close())
    .catch(() => undefined);
  const reader = stream.readable.getReader();
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return join(out);
    length += value.length;
    if (length > most) {
      await reader.cancel();
      throw new RangeError(`more than ${most} bytes`);
    }
    out.push(value);
  }
}

function join(parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const all = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

/** Seven bytes are just short of seventeen figures: 2^56 is 7.2 · 10^16. */
const GROUP = 7;
const figuresFor = (bytes: number): number => Math.ceil(bytes * 8 * Math.log10(2));

/** Bytes as decimal figures, groups of seven bytes as seventeen figures. */
export function writeDigits(bytes: Uint8Array): string {
  let digits = '';
  for (let at = 0; at < bytes.length; at += GROUP) {
    const group = bytes.subarray(at, at + GROUP);
    const value = group.reduce((sum, byte) => sum * 256n + BigInt(byte), 0n);
    digits += value.toString().padStart(figuresFor(group.length), '0');
  }
  return digits;
}

/** The bytes that `writeDigits` wrote; null where no bytes are written so. */
export function readDigits(digits: string): Uint8Array<ArrayBuffer> | null {
  const bytes: number[] = [];
  for (let at = 0; at < digits.length; at += figuresFor(GROUP)) {
    const figures = digits.slice(at, at + figuresFor(GROUP));
    const length = Array.from({ length: GROUP }, (_, i) => i + 1).find(
      (n) => figuresFor(n) === figures.length,
    );
    if (length === undefined || !/^\d+$/.test(figures)) return null;
    let value = BigInt(figures);
    if (value >= 256n ** BigInt(length)) return null;
    const group: number[] = [];
    for (let i = 0; i < length; i++, value /= 256n) group.unshift(Number(value % 256n));
    bytes.push(...group);
  }
  return new Uint8Array(bytes);
}

const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let c = byte;
  for (let bit = 0; bit < 8; bit++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c;
});

/**
 * The 32-bit cyclic redundancy check of some text and bytes after one another, as zip and PNG use it.
 * Source: ISO/IEC/IEEE 8802-3, polynomial 0x04C11DB7, reflected, begun and ended with all ones.
 */
export function crc32(bytes: Uint8Array, before = ''): number {
  let c = 0xffffffff;
  for (const byte of [...new TextEncoder().encode(before), ...bytes])
    c = (TABLE[(c ^ byte) & 0xff] ?? 0) ^ (c >>> 8);
  return (c ^ 0xffffffff) >>> 0;
}
