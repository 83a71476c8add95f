import { expect, test, type Page } from '@playwright/test';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { kill, start } from '../torture/session.ts';
import { goTo } from './app.ts';

const cut = (page: Page, n: number) => page.getByRole('button', { name: new RegExp(`^Cut ${n} of`) });
const kept = (page: Page) => page.getByText('Kept in this browser', { exact: true });
const tick = (page: Page) => page.getByRole('button', { name: 'Done, tick it' });

async function turnTo(page: Page, n: number) {
  await page.getByRole('button', { name: /^Cut \d+ of/ }).click();
  await page
    .locator('section.bench ol button')
    .nth(n - 1)
    .click();
  await expect(cut(page, n)).toBeVisible();
}

/** A page of a browser that was started bare, made a phone: its size, and a finger instead of a mouse. */
async function asPhone(page: Page) {
  const cdp = await page.context().newCDPSession(page);
  const phone = { width: 390, height: 844, deviceScaleFactor: 1, mobile: true };
  await cdp.send('Emulation.setDeviceMetricsOverride', phone);
  await cdp.send('Emulation.setTouchEmulationEnabled', { enabled: true });
}

test('killed in the middle of a step and opened again with the network off, all is where it was', async ({
  baseURL,
}) => {
  test.setTimeout(120_000);
  const profile = await mkdtemp(join(tmpdir(), 'bench-'));
  const address = baseURL ?? '';
  const first = await start(profile);
  await asPhone(first.page);
  await first.page.goto(address);
  await goTo(first.page, 'Turn');
  await turnTo(first.page, 18);
  await first.page.getByRole('textbox', { name: 'Diameter of left' }).fill('.4035');
  await first.page.getByRole('button', { name: 'Enter', exact: true }).click();
  await turnTo(first.page, 4);
  await first.page.getByRole('button', { name: 'Peck done, flutes clear' }).click();
  await expect(first.page.getByText(/Peck 2 of/)).toBeVisible();
  await expect(kept(first.page)).toBeVisible();
  await first.page.evaluate(async () => void (await navigator.serviceWorker.ready));
  await kill(first);

  const again = await start(profile);
  try {
    await asPhone(again.page);
    await again.page.context().setOffline(true);
    await again.page.goto(address);
    await goTo(again.page, 'Turn');
    await expect(cut(again.page, 4)).toBeVisible({ timeout: 30_000 });
    await expect(again.page.getByText(/Peck 2 of/)).toBeVisible();
    await turnTo(again.page, 18);
    await expect(again.page.getByText(/Diameter of left .4035/)).toBeVisible();
  } finally {
    await kill(again);
    await rm(profile, { recursive: true, force: true, maxRetries: 3 });
  }
});

test('a second window follows the cuts of the first, and ticks only once it is asked to work', async ({
  context,
}) => {
  const first = await context.newPage();
  await first.goto('/');
  await goTo(first, 'Turn');
  await tick(first).click();
  await expect(kept(first)).toBeVisible();
  const second = await context.newPage();
  await second.goto('/');
  await goTo(second, 'Turn');
  await expect(second.getByText('1 ticked')).toBeVisible({ timeout: 20_000 });
  await tick(second).click();
  await expect(second.getByText('1 ticked')).toBeVisible();
  await second.getByRole('button', { name: 'Work on it here' }).click();
  await expect(kept(second)).toBeVisible();
  await tick(second).click();
  await expect(second.getByText('2 ticked')).toBeVisible();
  await expect(first.getByText('2 ticked')).toBeVisible();
});

test('with no room left it is said, cutting goes on, and all is kept once there is room', async ({
  page,
}) => {
  await page.addInitScript(() => {
    const put = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function (...given: Parameters<typeof put>) {
      if (sessionStorage.getItem('full')) throw new DOMException('no room', 'QuotaExceededError');
      return put.apply(this, given);
    };
  });
  await page.goto('/');
  await goTo(page, 'Turn');
  await expect(cut(page, 1)).toBeVisible({ timeout: 20_000 });
  await page.evaluate(() => sessionStorage.setItem('full', 'yes'));
  await tick(page).click();
  await expect(page.getByRole('button', { name: 'Save a file' })).toBeVisible();
  await tick(page).click();
  await expect(page.getByText('2 ticked')).toBeVisible();
  await page.evaluate(() => sessionStorage.removeItem('full'));
  await tick(page).click();
  await expect(kept(page)).toBeVisible({ timeout: 20_000 });
  await page.reload();
  await goTo(page, 'Turn');
  await expect(page.getByText('3 ticked')).toBeVisible({ timeout: 20_000 });
});
