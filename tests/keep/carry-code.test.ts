import fc from 'fast-check';
import { deflateRawSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import {
  crc32,
  joinPieces,
  readDigits,
  readPiece,
  writeDigits,
  writeLinks,
  type Piece,
} from '../../src/keep/carry-code.ts';

const ADDRESS = 'https://shop.example/app/';
/** A text that does not shrink much, of so many bytes. */
const noise = (length: number) => {
  let state = 1;
  const next = () => (state = (state * 48271) % 2147483647); // Park and Miller's generator
  return Array.from({ length }, () => String.fromCharCode(33 + (next() % 90))).join('');
};

async function linksOf(text: string): Promise<readonly string[]> {
  const links = await writeLinks(text, ADDRESS);
  if (!links) throw new Error('too long');
  return links;
}
function pieceOf(link: string): Piece {
  const read = readPiece(link);
  if (!read?.ok) throw new Error('no piece');
  return read.value;
}
const shuffled = <T>(list: readonly T[]): T[] => [...list].sort((a, b) => (String(a) < String(b) ? 1 : -1));

describe('checksums', () => {
  // The check value of the 32-bit CRC of ISO/IEC/IEEE 8802-3 over the figures 1 to 9; from memory, and as zip writes it.
  test('123456789 has cbf43926', () => {
    expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
    expect(crc32(new TextEncoder().encode('6789'), '12345')).toBe(0xcbf43926);
  });
});

describe('bytes as figures', () => {
  // By hand: 7 bytes of 255 are 2^56 − 1; one byte takes three figures, two take five.
  test.each([
    [[255, 255, 255, 255, 255, 255, 255], '72057594037927935'],
    [[0], '000'],
    [[1, 0], '00256'],
    [[0, 0, 0, 0, 0, 0, 1, 255], '00000000000000001255'],
  ])('%j is %s', (bytes, digits) => {
    expect(writeDigits(Uint8Array.from(bytes))).toBe(digits);
    expect([...(readDigits(digits) ?? [])]).toEqual(bytes);
  });

  test('whatever the bytes, they come back', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 60 }), (bytes) => {
        expect([...(readDigits(writeDigits(bytes)) ?? [])]).toEqual([...bytes]);
      }),
    );
  });

  test.each(['256', '1', '99999999999999999', '72057594037927936', 'abc'])('%s are no bytes', (digits) =>
    expect(readDigits(digits)).toBeNull(),
  );
});

describe('a text in links', () => {
  test('every link leads to the app, with the piece behind the # only, in figures', async () => {
    for (const link of await linksOf(noise(2000))) {
      const { origin, pathname, search, hash } = new URL(link);
      expect(`${origin}${pathname}${search}`).toBe(ADDRESS);
      expect(hash).toMatch(/^#t1\.\d+\.\d+\.\d+\.\d+$/);
      expect(link.length).toBeLessThan(1100);
    }
  });

  test('whatever the text, its pieces in any order are it again', async () => {
    await fc.assert(
      fc.asyncProperty(fc.string({ unit: 'grapheme', maxLength: 3000 }), async (text) => {
        const pieces = shuffled(await linksOf(text)).map(pieceOf);
        expect(await joinPieces(pieces)).toEqual({ ok: true, value: text });
      }),
      { numRuns: 40 },
    );
  });

  test('each piece says which it is of how many', async () => {
    const pieces = (await linksOf(noise(3000))).map(pieceOf);
    expect(pieces.length).toBeGreaterThan(3);
    expect(pieces.map(({ number, count }) => `${number} of ${count}`)).toEqual(
      pieces.map((_, i) => `${i + 1} of ${pieces.length}`),
    );
  });

  test('what would take too many codes is refused before any is shown', async () =>
    expect(await writeLinks(noise(60_000), ADDRESS)).toBeNull());
});

describe('what is not sound is refused in words', () => {
  test('no piece at all is none of ours', () => {
    expect(readPiece('https://shop.example/app/')).toBeNull();
    expect(readPiece('https://shop.example/app/#print')).toBeNull();
    expect(readPiece('')).toBeNull();
  });

  test.each([
    '#t1.',
    '#t1.1.1.1.',
    '#t1.1.1.1.12345',
    '#t1.1.1.1.<script>',
    `#t1.1.1.1.${'9'.repeat(500)}`,
    `#t1.${'1'.repeat(400_000)}`,
    '#t1.4294967295.9.2.00000000000000000',
    '#t1.1.0.1.00000000000000000',
    '#t1.-1.1.1.00000000000000000',
  ])('%.40s', (fragment) =>
    expect(readPiece(fragment)).toEqual({ ok: false, say: 'This code is damaged: read it again.' }),
  );

  test('a code of a newer version says so', () =>
    expect(readPiece('#t2.anything')).toMatchObject({ ok: false, say: expect.stringContaining('newer') }));

  test('one figure changed anywhere is seen', async () => {
    const [link = ''] = await linksOf(noise(300));
    const start = link.indexOf('#t1.') + 4;
    for (let at = start; at < link.length; at++) {
      const figure = link[at];
      if (figure === undefined || !/\d/.test(figure)) continue;
      const spoilt = `${link.slice(0, at)}${(Number(figure) + 1) % 10}${link.slice(at + 1)}`;
      expect(readPiece(spoilt)?.ok, `figure ${at}`).toBe(false);
    }
  });

  test('pieces of two texts do not make a third, nor do some of one', async () => {
    const one = (await linksOf(noise(3000))).map(pieceOf);
    const [other] = (await linksOf(`${noise(2999)}x`)).map(pieceOf);
    expect((await joinPieces(one.slice(1))).ok).toBe(false);
    expect((await joinPieces([])).ok).toBe(false);
    if (other) expect((await joinPieces([other, ...one.slice(1)])).ok).toBe(false);
  });

  test('a text that swells beyond any part file is stopped, and what is no deflate stream is refused', async () => {
    const piece = (bytes: Uint8Array): Piece => ({
      whole: 'w',
      sum: crc32(bytes),
      count: 1,
      number: 1,
      bytes,
    });
    const bomb = new Uint8Array(deflateRawSync(Buffer.alloc(40_000_000), { level: 9 }));
    expect(bomb.length).toBeLessThan(60_000);
    expect((await joinPieces([piece(bomb)])).ok).toBe(false);
    expect((await joinPieces([piece(new Uint8Array([7, 7, 7, 7, 7]))])).ok).toBe(false);
    const latin = new Uint8Array(deflateRawSync(Buffer.from([0xff, 0xfe, 0x80])));
    expect((await joinPieces([piece(latin)])).ok).toBe(false);
  });
});
