import { render, screen, waitFor } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import 'fake-indexeddb/auto';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { draftReport } from '../../src/core/draft-report.ts';
import { writePart } from '../../src/core/part/write-part.ts';
import { Keeper } from '../../src/keep/autosave.ts';
import { Settings } from '../../src/keep/settings.svelte.ts';
import type { PlaceId } from '../../src/panels/places.ts';
import { Carrier } from '../../src/panels/carry/carrier.svelte.ts';
import PlaceView from '../../src/panels/PlaceView.svelte';
import { Shop } from '../../src/panels/shop.svelte.ts';
import { pin } from './pin.ts';

/** In the place of each component stands one that throws what its test says. */
const failing = vi.hoisted(() => ({ what: '' }));
vi.mock('../../src/board/Board.svelte', () => ({ default: () => ({}) }));
vi.mock('../../src/panels/rooms.ts', () => {
  const broken = {
    now: {
      default: () => {
        throw new Error(`the gear of ${failing.what} is stripped`);
      },
      pictureAt: () => null,
    },
  };
  const names = ['draw', 'check', 'hold', 'cut', 'print', 'turn', 'tables', 'bars'];
  const rooms = { ...Object.fromEntries(names.map((name) => [name, broken])), actuals: { now: null } };
  return { rooms, fetchRooms: async () => undefined };
});

let saved: Blob[] = [];
beforeEach(() => {
  saved = [];
  vi.stubGlobal('matchMedia', () => ({ matches: false, addEventListener: () => undefined }));
  URL.createObjectURL = (blob) => {
    saved.push(blob as Blob);
    return 'blob:x';
  };
  HTMLAnchorElement.prototype.click = () => undefined;
});
afterEach(() => vi.unstubAllGlobals());

const textOf = (blob: Blob | undefined): Promise<string> =>
  new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result));
    reader.onerror = () => reject(reader.error);
    reader.readAsText(blob ?? new Blob());
  });

function shopWith(place: PlaceId): Shop {
  const shop: Shop = new Shop(new Settings(null), new Keeper(() => undefined), draftReport);
  shop.take({ name: 'pin.json', text: writePart(pin) });
  shop.plan.planned = { part: shop.plan.drawing, lathe: shop.lathe, report: draftReport(pin) };
  shop.laid = true;
  shop.settled = true;
  shop.place = place;
  return shop;
}

const places: [name: string, place: PlaceId, tablesShown: boolean][] = [
  ['Draw', 'draw', false],
  ['Check', 'check', false],
  ['Hold', 'hold', false],
  ['Cut', 'cut', false],
  ['Print', 'print', false],
  ['Turn', 'turn', false],
  ['Tables', 'draw', true],
];

describe('a place whose program fails', () => {
  test.each(places)(
    '%s: says so in a sentence, keeps the part, saves a file for a report',
    async (name, place, tablesShown) => {
      failing.what = name;
      const shop = shopWith(place);
      const part = shop.document.part;
      render(PlaceView, { shop, carrier: new Carrier(shop), tablesShown, onleavetables: () => undefined });
      await waitFor(() =>
        expect(screen.getByRole('alert').textContent).toContain(`the gear of ${name} is stripped`),
      );
      expect(shop.document.part).toBe(part);
      await userEvent.click(screen.getByRole('button', { name: 'Save a file for a bug report' }));
      const report = JSON.parse(await textOf(saved[0])) as Record<string, unknown>;
      expect(report).toMatchObject({ shaftwright_bug: 1, where: name, part: { title: pin.title } });
      expect(String(report['what'])).toContain(name);
    },
  );
});
