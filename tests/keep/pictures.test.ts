import { IDBFactory } from 'fake-indexeddb';
import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, test } from 'vitest';
import { newPart } from '../../src/core/part/new-part.ts';
import type { Part } from '../../src/core/part/types.ts';
import type { Scan } from '../../src/core/tracing/scan.ts';
import { writeEntry } from '../../src/keep/entry.ts';
import { Pictures } from '../../src/keep/picture/pictures.ts';
import { freshCard, openStore, type Db } from '../../src/keep/store.ts';

/** A PNG of one pixel. */
const dot =
  'data:image/png;base64,iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==';
const other = dot.replace('ErkJggg', 'ErkJgg0');
const LATER = Date.now() + 2 * 24 * 60 * 60 * 1000;
const scan = (image: string): Scan => ({ image, width: 1, height: 1, scale: 1, angle: 0, origin: [0, 0] });
const withPicture = (image: string): Part => ({ ...newPart('mm', 'pin'), scan: scan(image) });
const imageOf = (part: Part) => (part.scan as Scan).image;

let db: Db;
beforeEach(async () => {
  globalThis.indexedDB = new IDBFactory();
  db = await openStore(() => undefined);
});

/** What another window, or the next visit, finds. */
const afresh = () => new Pictures(() => db);
const settled = async () => void (await db.count('pictures'));

describe('a picture is kept beside the part', () => {
  test('the part names it by a key, and a part that goes out has it again', async () => {
    const taken = afresh().taken(withPicture(dot));
    expect(imageOf(taken)).toMatch(/^kept:/);
    expect(JSON.stringify(taken).length).toBeLessThan(400);
    await settled();
    expect(await afresh().given(taken)).toEqual({ part: withPicture(dot), lost: false });
  });

  test('the same picture is kept once, whoever brings it', async () => {
    const keys = [afresh().hold(dot), afresh().hold(dot), afresh().hold(other)];
    await settled();
    expect(new Set(keys).size).toBe(2);
    expect(await db.count('pictures')).toBe(2);
  });

  test('one that is damaged in the store is not shown for what it was', async () => {
    const key = afresh().hold(dot);
    await settled();
    await db.put('pictures', { url: other, at: 0 }, key);
    expect(await afresh().find(key)).toBeNull();
  });

  test('one that another browser keeps is lost here: the part goes out as it is, and it is said', async () => {
    const elsewhere = withPicture('kept:0123456789abcdef-zz');
    expect(await afresh().given(elsewhere)).toEqual({ part: elsewhere, lost: true });
  });

  test.each([
    ['an SVG', 'data:image/svg+xml;base64,PHN2Zy8+'],
    ['what says that it is a PNG', 'data:image/png;base64,PHN2Zy8+'],
    ['an address', 'https://example.test/a.png'],
  ])('%s is not taken in; it stays in the part as it came', async (_name, image) => {
    expect(afresh().taken(withPicture(image))).toEqual(withPicture(image));
    await settled();
    expect(await db.count('pictures')).toBe(0);
  });

  test('without a store it lasts as long as the page', async () => {
    const pictures = new Pictures(() => null);
    expect(await pictures.find(pictures.hold(dot))).toBe(dot);
  });
});

describe('tidying', () => {
  test('what no part names goes, a day after it was kept; what one names stays', async () => {
    const pictures = afresh();
    const part = pictures.taken(withPicture(dot));
    pictures.hold(other);
    await settled();
    await writeEntry(db, freshCard('own', null), { part, steps: [], position: 0, fileCopy: null }, []);
    await pictures.tidy(Date.now());
    expect(await db.count('pictures')).toBe(2);
    await pictures.tidy(LATER);
    expect(await db.getAllKeys('pictures')).toEqual([imageOf(part)]);
  });

  test('a picture that was taken away stays as long as undo can bring it back', async () => {
    const pictures = afresh();
    const key = pictures.hold(dot);
    await settled();
    const edits = [{ kind: 'set', field: 'scan', was: scan(key), now: null }] as const;
    const step = { kind: 'change', at: 0, did: 'Picture taken away', edits } as const;
    const work = { part: newPart('mm', 'pin'), steps: [step], position: 1, fileCopy: null };
    await writeEntry(db, freshCard('own', null), work, []);
    await pictures.tidy(LATER);
    expect(await db.count('pictures')).toBe(1);
  });
});
