import { IDBFactory } from 'fake-indexeddb';
import 'fake-indexeddb/auto';
import jsqr from 'jsqr';
import { beforeEach, describe, expect, test } from 'vitest';
import { firstLathe } from '../../src/core/part/first-lathe.ts';
import { metricLathe } from '../../src/core/part/metric-lathe.ts';
import type { Part } from '../../src/core/part/types.ts';
import { writeLinks } from '../../src/keep/carry-code.ts';
import type { Incoming } from '../../src/keep/files.ts';
import { reachesOthers, wholeAddress } from '../../src/panels/carry/address.ts';
import { Carrier } from '../../src/panels/carry/carrier.svelte.ts';
import { codePath, QUIET } from '../../src/panels/carry/code-path.ts';
import { packParcel } from '../../src/panels/carry/parcel.ts';
import type { PlaceId } from '../../src/panels/places.ts';
import { example } from './examples.ts';

const { part } = example('blower-shaft');
const measured: Part = {
  ...part,
  scan: { image: 'data:image/png;base64,AAAA' },
  actuals: [{ what: 'diameter', of: 'left', text: '.3935', unit: 'in' }],
};

const board = () => ({
  place: 'draw' as PlaceId,
  lathe: firstLathe,
  parts: [] as unknown[],
  lathes: [] as unknown[],
  take({ text }: Incoming) {
    this.parts.push(JSON.parse(text));
  },
  takeLathe({ text }: Incoming) {
    this.lathes.push(JSON.parse(text));
  },
});
const linksOf = async (of: Part, lathe = firstLathe) =>
  (await writeLinks(packParcel(of, lathe), 'https://shop.example/')) ?? [];

beforeEach(() => void (globalThis.indexedDB = new IDBFactory()));

describe('codes are read in any order', () => {
  test('the last of them puts the same part on the board, with what was measured, and turns to the lathe', async () => {
    const links = await linksOf(measured);
    expect(links.length).toBeGreaterThan(2);
    const shop = board();
    const carrier = new Carrier(shop);
    const order = [...links].reverse();
    for (const [i, link] of order.slice(0, -1).entries()) {
      expect(await carrier.take(link)).toBe('more');
      expect(carrier.missing).toEqual(links.map((_, k) => k + 1).slice(0, links.length - 1 - i));
    }
    expect(shop.parts).toEqual([]);
    expect(await carrier.take(order.at(-1) ?? '')).toBe('opened');
    const carried = { ...measured, scan: undefined };
    expect(shop.parts).toEqual([JSON.parse(JSON.stringify(carried))]);
    expect(shop.place).toBe('turn');
    expect(shop.lathes).toEqual([]);
    expect(carrier.page).toBeNull();
  });

  test('each in a page of its own, and one of them twice: the browser keeps what was read', async () => {
    const links = await linksOf(measured, metricLathe);
    const shop = board();
    for (const link of [links[0] ?? '', ...links]) await new Carrier(shop).take(link);
    expect(shop.parts).toHaveLength(1);
    expect(shop.lathes).toEqual([metricLathe]);
  });

  test('two parts read by turns do not mix', async () => {
    const [one, two] = [await linksOf(part), await linksOf({ ...part, title: 'Other' })];
    const shop = board();
    const carrier = new Carrier(shop);
    for (const [i, link] of one.entries()) {
      await carrier.take(link);
      await carrier.take(two[i] ?? '');
    }
    for (const link of two.slice(one.length)) await carrier.take(link);
    expect(shop.parts.map((it) => (it as Part).title).toSorted()).toEqual([part.title, 'Other']);
  });
});

describe('what is refused leaves the board as it is', () => {
  const refused = async (...links: string[]) => {
    const shop = board();
    const carrier = new Carrier(shop);
    for (const link of links) await carrier.take(link);
    expect(shop.parts).toEqual([]);
    expect(shop.lathes).toEqual([]);
    return carrier.refused;
  };
  const packed = async (text: string) => (await writeLinks(text, 'https://shop.example/')) ?? [];

  test('a damaged code', async () => {
    const [link = ''] = await linksOf(part);
    expect(await refused(`${link.slice(0, -1)}${(Number(link.at(-1)) + 1) % 10}`)).toContain('damaged');
  });
  test.each([
    ['no JSON', 'hello', 'carry no part'],
    ['no parcel', '[1]', 'carry no part'],
    ['no part', '{"part":{"shaftwright":1},"lathe":{}}', 'part by code'],
    ['a newer part', '{"part":{"shaftwright":9},"lathe":{}}', 'part by code'],
    ['a lathe that is none', JSON.stringify({ part, lathe: { name: 7 } }), 'lathe by code'],
  ])('%s', async (_, text, says) => expect(await refused(...(await packed(text)))).toContain(says));
  test('a link that is none of ours', async () =>
    expect(await refused('https://example.org/')).toBe('This is no code of a part.'));
});

describe('where another device can be led', () => {
  test.each([
    ['http://localhost:4173/', false],
    ['http://127.0.0.1:4173/', false],
    ['http://[::1]/', false],
    ['http://app.localhost/', false],
    ['file:///home/a/index.html', false],
    ['http://192.168.1.20:4173/', true],
    ['https://shop.example/app/', true],
  ])('%s: %s', (address, reaches) => expect(reachesOthers(address)).toBe(reaches));

  test.each([
    ['192.168.1.20:4173', 'http://192.168.1.20:4173/'],
    [' https://shop.example/app/#x ', 'https://shop.example/app/'],
    ['workshop.local', 'http://workshop.local/'],
    ['localhost:4173', null],
    ['javascript:alert(1)', null],
    ['ftp://shop.example', null],
    ['', null],
    ['a b c', null],
  ])('typed %j is %s', (typed, whole) => expect(wholeAddress(typed)).toBe(whole));
});

/** The code as a camera sees it, four pixels to a module, read back by a library that did not draw it. */
async function seen(link: string): Promise<string | null> {
  const { modules, path } = await codePath(link);
  const side = (modules + 2 * QUIET) * 4;
  const pixels = new Uint8ClampedArray(side * side * 4).fill(255);
  for (const [, x = '', y = ''] of path.matchAll(/M(\d+) (\d+)h1v1h-1z/g))
    for (let i = 0; i < 16; i++) {
      const at = ((Number(y) * 4 + Math.floor(i / 4)) * side + Number(x) * 4 + (i % 4)) * 4;
      pixels.fill(0, at, at + 3);
    }
  return jsqr(pixels, side, side)?.data ?? null;
}

test('each code is its link, as another library reads it', async () => {
  for (const link of await linksOf(measured)) expect(await seen(link)).toBe(link);
  expect(await seen('https://shop.example/no-figures')).toBe('https://shop.example/no-figures');
}, 30_000);
