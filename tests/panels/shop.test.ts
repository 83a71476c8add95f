import { IDBFactory } from 'fake-indexeddb';
import 'fake-indexeddb/auto';
import { readFileSync } from 'node:fs';
import { beforeEach, describe, expect, test, vi } from 'vitest';
import { metricLathe } from '../../src/core/part/metric-lathe.ts';
import { writeLathe, writePart } from '../../src/core/part/write-part.ts';
import { draftReport } from '../../src/core/draft-report.ts';
import { Keeper } from '../../src/keep/autosave.ts';
import { Settings } from '../../src/keep/settings.svelte.ts';
import { Shop } from '../../src/panels/shop.svelte.ts';
import { pin } from './pin.ts';

const open = async () => {
  const shop: Shop = new Shop(
    new Settings(localStorage),
    new Keeper((state) => (shop.kept = state)),
    draftReport,
  );
  await shop.begin();
  return shop;
};

/** A visit that ends with the pin on the board. */
const leavePin = async () => {
  const shop = await open();
  shop.take({ name: 'pin.json', text: writePart(pin) });
  shop.keeper.keep(shop.work());
  await shop.keeper.settled();
  shop.keeper.close();
  return shop;
};

beforeEach(() => {
  localStorage.clear();
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal('fetch', async (url: string) => {
    const text = readFileSync(`static/examples/${url.split('/').at(-1) ?? ''}`, 'utf8');
    return { ok: true, status: 200, text: async () => text };
  });
});

describe('the shop', () => {
  test('the first visit opens the finished example and offers to start an own part', async () => {
    const shop = await open();
    expect(shop.document.part.title).toBe('Forge-blower shaft');
    expect(shop.document.undoes).toBeNull();
    expect(shop.showsExample).toBe(true);
    shop.startOwn();
    expect(shop.document.part.segments).toEqual([]);
    expect(shop.showsExample).toBe(false);
    shop.undo();
    expect(shop.document.part.title).toBe('Forge-blower shaft');
  });

  test('the next visit takes up the work', async () => {
    const shop = await leavePin();
    const again = await open();
    expect(again.document.part).toEqual(shop.document.part);
    expect(again.document.undoes).toBe('Open pin.json');
  });

  test('on a first visit the example is there before the store has answered, and nothing may be done to it', () => {
    const shop: Shop = new Shop(new Settings(localStorage), new Keeper(() => undefined), draftReport);
    void shop.begin();
    expect([shop.laid, shop.ready]).toEqual([true, false]);
    expect(shop.document.part.title).toBe('Forge-blower shaft');
  });

  test('on a later visit nothing is drawn before the work is back', async () => {
    const before = await leavePin();
    const shop: Shop = new Shop(new Settings(localStorage), new Keeper(() => undefined), draftReport);
    const begun = shop.begin();
    expect(shop.laid).toBe(false);
    await begun;
    expect(shop.document.part).toEqual(before.document.part);
  });

  test('a store that knows better than what was drawn first takes its place', async () => {
    const before = await leavePin();
    localStorage.clear();
    const again = await open();
    expect(again.document.part).toEqual(before.document.part);
    expect(again.document.undoes).toBe('Open pin.json');
  });

  test.each([
    ['not JSON', '{"shaftwright": 1,,'],
    ['another kind of file', '{"hello": "world"}'],
    ['a newer version', '{"shaftwright": 99}'],
    ['a bad field', JSON.stringify({ ...pin, unit: 'furlong' })],
    ['a bad lathe', '{"shaftwright_lathe": 1, "name": 3}'],
    ['an array', '[1,2,3]'],
    ['nothing', ''],
  ])('%s is refused in one line that names the file; the part is untouched', async (_kind, text) => {
    const shop = await open();
    const before = shop.document.part;
    shop.take({ name: 'wrong.json', text });
    expect(shop.notice?.wrong).toBe(true);
    expect(shop.notice?.say).toContain('wrong.json');
    expect(shop.notice?.say).not.toContain('\n');
    expect(shop.document.part).toBe(before);
    expect(shop.document.undoes).toBeNull();
  });

  test('a lathe file is taken as the lathe, and holds at the next visit', async () => {
    const shop = await open();
    const own = { ...metricLathe, name: 'own lathe' };
    const before = shop.document.part;
    shop.take({ name: 'own.json', text: writeLathe(own) });
    expect(shop.lathe).toEqual(own);
    expect(shop.document.part).toBe(before);
    expect((await open()).lathe.name).toBe('own lathe');
  });

  test('a plan counts only for the very part and lathe it was made for', async () => {
    const shop = await open();
    const { part } = shop.document;
    const report = draftReport(part);
    expect(shop.plan.pending).toBe(true);
    shop.plan.planned = { part, lathe: shop.lathe, report };
    expect(shop.plan.pending).toBe(false);
    expect(shop.report).toBe(report);
    shop.chooseLathe(metricLathe);
    expect(shop.plan.pending).toBe(true);
    expect(shop.report).not.toBe(report);
  });

  test('the unit shown follows the part until one is chosen; what is written stays', async () => {
    const shop = await open();
    const before = shop.document.part;
    expect(shop.unit).toBe('in');
    shop.settings.choose({ unit: 'mm' });
    expect(shop.unit).toBe('mm');
    expect(shop.document.part).toBe(before);
  });
});
