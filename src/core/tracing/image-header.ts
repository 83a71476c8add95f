/** What the first bytes of a file say it is; `why` continues “it cannot be traced: …”. */
export type ImageHeader =
  | {
      readonly ok: true;
      readonly type: 'png' | 'jpeg' | 'webp';
      readonly width: number;
      readonly height: number;
    }
  | { readonly ok: false; readonly why: string };

type Bytes = Uint8Array;

const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/**
 * Reads the size of a picture from its header, so that a picture of absurd size is refused before anything decodes it.
 *
 * @param bytes - The file, or its beginning.
 * @returns Kind and size in pixels; else why not: another kind of file (named where it is known), or a header that
 *   breaks off or gives no size.
 *
 * Sources, from memory: PNG (ISO/IEC 15948) 5.2 and 11.2.2; JPEG (ITU-T T.81) B.2.2; WebP (RFC 9649) 2.5 to 2.7.
 */
export function readImageHeader(bytes: Bytes): ImageHeader {
  if (PNG.every((byte, i) => bytes[i] === byte)) return sized('png', pngSize(bytes));
  if (bytes[0] === 0xff && bytes[1] === 0xd8) return sized('jpeg', jpegSize(bytes));
  if (ascii(bytes, 0, 4) === 'RIFF' && ascii(bytes, 8, 12) === 'WEBP') return sized('webp', webpSize(bytes));
  return {
    ok: false,
    why: `it is ${nameOf(bytes)}, and pictures to trace are PNG, JPEG, WebP or a page of a PDF`,
  };
}

/** Whether the first bytes are those of a PDF; some programs put a little before the mark. */
export const isPdf = (bytes: Bytes): boolean => ascii(bytes, 0, 1024).includes('%PDF-');

type Size = readonly [width: number, height: number] | null;

function sized(type: 'png' | 'jpeg' | 'webp', size: Size): ImageHeader {
  if (size === null) return { ok: false, why: `its ${type.toUpperCase()} header is broken off or damaged` };
  const [width, height] = size;
  if (width < 1 || height < 1) return { ok: false, why: 'its header gives it no size' };
  return { ok: true, type, width, height };
}

const ascii = (bytes: Bytes, from: number, to: number): string =>
  String.fromCharCode(...bytes.subarray(from, to));

/** The unsigned number of `count` bytes at `at`, or null where the bytes break off. */
function number(bytes: Bytes, at: number, count: number, order: 'big' | 'little'): number | null {
  if (at + count > bytes.length) return null;
  const part = [...bytes.subarray(at, at + count)];
  return (order === 'big' ? part : part.reverse()).reduce((sum, byte) => sum * 256 + byte, 0);
}

const pair = (width: number | null, height: number | null): Size =>
  width === null || height === null ? null : [width, height];

function pngSize(bytes: Bytes): Size {
  if (ascii(bytes, 12, 16) !== 'IHDR') return null;
  return pair(number(bytes, 16, 4, 'big'), number(bytes, 20, 4, 'big'));
}

/** Frame headers are C0 to CF, but for C4, C8 and CC, which are tables and the like. */
const isFrame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
/** Markers that stand alone, without a length behind them. */
const isBare = (marker: number): boolean => marker === 0x01 || (marker >= 0xd0 && marker <= 0xd8);

function jpegSize(bytes: Bytes): Size {
  let at = 2;
  while (at + 1 < bytes.length) {
    if (bytes[at] !== 0xff) return null;
    const marker = bytes[at + 1] ?? 0;
    if (marker === 0xff) at += 1;
    else if (isBare(marker)) at += 2;
    else if (marker === 0xd9 || marker === 0xda) return null;
    else if (isFrame(marker)) return pair(number(bytes, at + 7, 2, 'big'), number(bytes, at + 5, 2, 'big'));
    else at += 2 + Math.max(2, number(bytes, at + 2, 2, 'big') ?? bytes.length);
  }
  return null;
}

function webpSize(bytes: Bytes): Size {
  const kind = ascii(bytes, 12, 16);
  const little = (at: number, count: number) => number(bytes, at, count, 'little');
  if (kind === 'VP8X') {
    const [width, height] = [little(24, 3), little(27, 3)];
    return pair(width === null ? null : width + 1, height === null ? null : height + 1);
  }
  if (kind === 'VP8L') {
    const bits = bytes[20] === 0x2f ? little(21, 4) : null;
    return bits === null ? null : [(bits % 0x4000) + 1, (Math.floor(bits / 0x4000) % 0x4000) + 1];
  }
  if (kind !== 'VP8 ' || bytes[23] !== 0x9d || bytes[24] !== 0x01 || bytes[25] !== 0x2a) return null;
  const [width, height] = [little(26, 2), little(28, 2)];
  return pair(width === null ? null : width % 0x4000, height === null ? null : height % 0x4000);
}

/** What else people drop on a page, in words; by the first bytes. */
function nameOf(bytes: Bytes): string {
  if (bytes.length === 0) return 'empty';
  const head = ascii(bytes, 0, 512);
  if (/^(?:\xef\xbb\xbf)?\s*</.test(head))
    return head.includes('<svg') ? 'an SVG drawing' : 'a text with markup';
  if (head.startsWith('GIF8')) return 'a GIF';
  if (head.startsWith('BM')) return 'a BMP';
  if (head.startsWith('II*\0') || head.startsWith('MM\0*')) return 'a TIFF';
  if (/^.{4}ftyp(?:heic|heix|mif1)/s.test(head)) return 'an HEIC photograph';
  if (/^.{4}ftypavif/s.test(head)) return 'an AVIF';
  return 'no picture that is known here';
}
