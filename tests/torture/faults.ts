import { join } from 'node:path';
import type { Page } from 'playwright';
import { serve } from '../../src/tools/serve.mjs';
import { kill, keptAgain, place, ready, start, status, title, type } from './session.ts';
import { spoiltBuild, type spoils } from './spoilt-build.ts';

/** Where the trials write, and where the sound build is served. */
type Ground = { readonly folder: string; readonly address: string };

/** One fault in a fresh browser, judged by what the page shows. */
async function trial({ folder, address }: Ground, name: string, judge: (page: Page) => Promise<boolean>) {
  const session = await start(join(folder, name.replace(/\W+/g, '-')));
  try {
    await session.page.goto(address);
    await ready(session.page);
    return (await judge(session.page)) ? 'survived' : 'NOT SURVIVED';
  } catch (why) {
    return `NOT SURVIVED: ${why instanceof Error ? why.message.split('\n')[0] : String(why)}`;
  } finally {
    await kill(session);
  }
}

/** The same against a build with a spoilt worker. */
async function spoiltTrial(
  { folder }: Ground,
  worker: keyof typeof spoils,
  judge: (page: Page) => Promise<boolean>,
) {
  const { address, close } = await serve(await spoiltBuild(folder, worker), null);
  try {
    return await trial({ folder, address }, `spoilt-${worker}`, judge);
  } finally {
    void close();
  }
}

/**
 * The store is full while the work goes on. Chromium asks after the room only now and then (it took about 30 s to
 * notice), so that typing goes on until it does.
 */
const full = (ground: Ground) =>
  trial(ground, 'full', async (page) => {
    await keptAgain(page);
    const { origin } = new URL(ground.address);
    const cdp = await page.context().newCDPSession(page);
    await cdp.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1 });
    const offer = status(page).getByRole('button', { name: 'Save a file' });
    for (let n = 0; n < 120 && (await offer.count()) === 0; n += 1) {
      await type(page, `No room ${n}`);
      await page.waitForTimeout(1000);
    }
    await offer.waitFor({ timeout: 1000 });
    await type(page, 'Work goes on');
    await offer.waitFor();
    await cdp.send('Storage.overrideQuotaForOrigin', { origin });
    await keptAgain(page);
    await page.reload();
    await ready(page);
    return (await title(page).textContent()) === 'Work goes on';
  });

const plannerDies = (ground: Ground) =>
  spoiltTrial(ground, 'planner', async (page) => {
    await type(page, 'Without a plan');
    await keptAgain(page);
    await place(page, 'Hold');
    await page
      .getByText(/No plan could be worked out/)
      .first()
      .waitFor();
    await page.reload();
    await ready(page);
    return (await title(page).textContent()) === 'Without a plan';
  });

const sheetFails = (ground: Ground) =>
  spoiltTrial(ground, 'sheet', async (page) => {
    await type(page, 'Printed later');
    await keptAgain(page);
    await place(page, 'Print');
    await page.getByRole('alert').filter({ hasText: 'half way' }).waitFor({ timeout: 40_000 });
    await place(page, 'Draw');
    await type(page, 'Printed later still');
    await keptAgain(page);
    await page.reload();
    await ready(page);
    return (await title(page).textContent()) === 'Printed later still';
  });

const clockGoesBack = (ground: Ground) =>
  trial(ground, 'clock', async (page) => {
    await type(page, 'Before');
    await keptAgain(page);
    await page.addInitScript(() => {
      const real = Date.now.bind(Date);
      Date.now = () => real() - 400 * 86_400_000;
    });
    await page.reload();
    await ready(page);
    await type(page, 'After');
    await keptAgain(page);
    await page.reload();
    await ready(page);
    const after = await title(page).textContent();
    await page.keyboard.press('Control+z');
    return after === 'After' && (await title(page).textContent()) === 'Before';
  });

/** Writes nonsense over the newest record in the store. */
const spoilNewest = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<void>((resolve) => {
        const request = indexedDB.open('shaftwright');
        request.onsuccess = () => {
          const tx = request.result.transaction('heads', 'readwrite');
          const heads = tx.objectStore('heads');
          const all = heads.getAll();
          const keys = heads.getAllKeys();
          keys.onsuccess = () => {
            const rounds = all.result.map(({ round }: { round: number }) => round);
            const at = rounds.indexOf(Math.max(...rounds));
            heads.put({ ...all.result[at], part: { text: '{"x":', sum: 1 } }, keys.result[at]);
          };
          tx.oncomplete = () => (request.result.close(), resolve());
        };
      }),
  );

const recordDamaged = (ground: Ground) =>
  trial(ground, 'record', async (page) => {
    await type(page, 'Good');
    await keptAgain(page);
    await page.waitForTimeout(900);
    await type(page, 'Newest');
    await keptAgain(page);
    await spoilNewest(page);
    await page.reload();
    await ready(page);
    await page.getByText(/last good version is on the board/).waitFor();
    return (await title(page).textContent()) === 'Good';
  });

/** The faults by name, in the order they are tried. */
export const faults: readonly (readonly [name: string, run: (ground: Ground) => Promise<string>])[] = [
  ['no room left', full],
  ['the planner dies', plannerDies],
  ['a record is damaged', recordDamaged],
  ['the clock goes back', clockGoesBack],
  ['the PDF fails half way', sheetFails],
];
