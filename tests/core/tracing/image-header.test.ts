import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { headOfDataUrl } from '../../../src/core/tracing/data-url.ts';
import { isPdf, readImageHeader } from '../../../src/core/tracing/image-header.ts';

const bytes = (...parts: (string | number | readonly number[])[]): Uint8Array =>
  new Uint8Array(
    parts.flatMap((part) =>
      typeof part === 'string'
        ? [...part].map((c) => c.charCodeAt(0))
        : typeof part === 'number'
          ? [part]
          : part,
    ),
  );
const zeros = (count: number) => Array.from({ length: count }, () => 0);

// Put together by hand after PNG (ISO/IEC 15948), JPEG (ITU-T T.81) and WebP (RFC 9649); layouts from memory.
const png = (width: readonly number[], height: readonly number[]) =>
  bytes(0x89, 'PNG\r\n', 0x1a, 0x0a, [0, 0, 0, 13], 'IHDR', width, height, [8, 6, 0, 0, 0]);
const frame = [0xff, 0xc0, 0x00, 0x11, 8, 0x03, 0x20, 0x04, 0xb0, 3];
const app = [0xff, 0xe0, 0x00, 0x04, 1, 2];
const webp = (kind: string, body: readonly number[]) =>
  bytes('RIFF', [0, 0, 0, 0], 'WEBP', kind, [0, 0, 0, 0], body);

describe('the size of a picture from its header', () => {
  test.each([
    ['PNG', png([0, 0, 0x04, 0xb0], [0, 0, 0x03, 0x20]), 'png'],
    ['JPEG', bytes([0xff, 0xd8], app, frame), 'jpeg'],
    [
      'JPEG with filling before a mark, and tables before the frame',
      bytes([0xff, 0xd8], app, [0xff, 0xff, 0xc4, 0, 3, 7], frame),
      'jpeg',
    ],
    ['JPEG, progressive', bytes([0xff, 0xd8], [0xff, 0xc2, ...frame.slice(2)]), 'jpeg'],
    ['WebP, lossy', webp('VP8 ', [0, 0, 0, 0x9d, 0x01, 0x2a, 0xb0, 0x04, 0x20, 0x03]), 'webp'],
    // 1199 and 799 in 14 bits each: 1199 + 799 * 16384 = 0x00c7c4af.
    ['WebP, lossless', webp('VP8L', [0x2f, 0xaf, 0xc4, 0xc7, 0x00]), 'webp'],
    ['WebP, extended', webp('VP8X', [0, 0, 0, 0, 0xaf, 0x04, 0, 0x1f, 0x03, 0]), 'webp'],
  ])('%s', (_name, file, type) => {
    expect(readImageHeader(file)).toEqual({ ok: true, type, width: 1200, height: 800 });
  });

  test('a size that no memory holds is read, not believed: it is for the caller to refuse', () => {
    expect(readImageHeader(png([0x7f, 0xff, 0xff, 0xff], [0x7f, 0xff, 0xff, 0xff]))).toMatchObject({
      width: 2 ** 31 - 1,
    });
  });
});

describe('refused, with the reason', () => {
  test.each([
    ['SVG', bytes('<svg xmlns="http://www.w3.org/2000/svg"/>'), 'an SVG drawing'],
    ['SVG behind a declaration', bytes('<?xml version="1.0"?>\n<svg/>'), 'an SVG drawing'],
    ['HTML', bytes('<!doctype html><script>'), 'a text with markup'],
    ['GIF', bytes('GIF89a'), 'a GIF'],
    ['TIFF', bytes('II*\0'), 'a TIFF'],
    ['HEIC', bytes(zeros(4), 'ftypheic'), 'an HEIC photograph'],
    ['nothing', bytes(), 'empty'],
    ['a program', bytes('MZ', zeros(60)), 'no picture'],
    ['PNG that breaks off', png([0, 0, 0, 1], []).subarray(0, 20), 'broken off or damaged'],
    ['PNG without its first chunk', bytes(0x89, 'PNG\r\n', 0x1a, 0x0a, zeros(30)), 'broken off or damaged'],
    ['PNG of no width', png(zeros(4), [0, 0, 0, 1]), 'no size'],
    ['JPEG without a frame', bytes([0xff, 0xd8], app, [0xff, 0xd9]), 'broken off or damaged'],
    [
      'JPEG whose pieces point past its end',
      bytes([0xff, 0xd8, 0xff, 0xe0, 0xff, 0xff]),
      'broken off or damaged',
    ],
    ['WebP that breaks off', webp('VP8X', [0, 0]), 'broken off or damaged'],
  ])('%s', (_name, file, why) => {
    const header = readImageHeader(file);
    expect(header.ok ? 'read' : header.why).toContain(why);
  });
});

test('a PDF is known by its mark, also with a little before it', () => {
  expect(isPdf(bytes('%PDF-1.7'))).toBe(true);
  expect(isPdf(bytes('\n\n%PDF-1.4'))).toBe(true);
  expect(isPdf(bytes('PDF'))).toBe(false);
});

test('a data URL gives the bytes that it holds', () => {
  const file = readFileSync(new URL('../../../static/icons/icon-192.png', import.meta.url));
  const head = headOfDataUrl(`data:image/png;base64,${file.toString('base64')}`);
  expect(Buffer.from(head).equals(file)).toBe(true);
  expect(readImageHeader(head)).toMatchObject({ type: 'png', width: 192, height: 192 });
});

test('base64 that breaks off in the middle gives what came before', () => {
  expect([...headOfDataUrl('data:image/png;base64,iVBO!!!!')]).toEqual([0x89, 0x50, 0x4e]);
});
