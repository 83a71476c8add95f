import { expect, test, type Page } from '@playwright/test';
import { cp, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { workerFor } from '../../src/tools/offline.mjs';
import { serve } from '../../src/tools/serve.mjs';
import { downloadOf, goTo } from './app.ts';

test.use({ serviceWorkers: 'allow' });

async function typeTitle(page: Page, text: string) {
  const field = page.getByRole('textbox', { name: 'Title' });
  await field.fill(text);
  await field.press('Enter');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(text);
}

test('a newer build is offered and taken up without losing work, and a window with the older one works on', async ({
  context,
}) => {
  const folder = await mkdtemp(join(tmpdir(), 'shaftwright-update-'));
  await cp('dist', folder, { recursive: true });
  const site = await serve(folder, 0);
  try {
    const page = await context.newPage();
    await page.goto(site.address);
    await page.evaluate(() => navigator.serviceWorker.ready);
    await typeTitle(page, 'Before the newer build');
    const older = await context.newPage();
    await older.goto(site.address);
    await expect(older.getByText('Follows the window that works on this part')).toBeVisible();

    await writeFile(join(folder, 'news.txt'), 'a newer build');
    await writeFile(join(folder, 'sw.js'), await workerFor(folder));
    await page.evaluate(async () => (await navigator.serviceWorker.ready).update());
    await Promise.all([
      page.waitForEvent('load'),
      page.getByRole('button', { name: 'Start it now' }).click(),
    ]);
    await expect(page.getByRole('heading', { level: 1 })).toHaveText('Before the newer build');
    expect(await page.evaluate(async () => (await fetch('news.txt')).text())).toBe('a newer build');

    // Its turn came when the first one started anew.
    await expect(older.getByText('Kept in this browser', { exact: true })).toBeVisible();
    await typeTitle(older, 'In the older window');
    await expect(page.getByRole('heading', { level: 1 })).toHaveText('In the older window');
  } finally {
    await context.close();
    await site.close();
    await rm(folder, { recursive: true });
  }
});

test('it can be installed: manifest, icons and a worker', async ({ page, request }) => {
  await page.goto('/');
  const address = await page.locator('link[rel=manifest]').getAttribute('href');
  const manifest = (await (await request.get(address ?? '')).json()) as Record<string, unknown>;
  expect(manifest).toMatchObject({
    name: expect.any(String),
    display: 'standalone',
    start_url: expect.any(String),
  });
  const icons = manifest['icons'] as { src: string; sizes: string }[];
  expect(icons.map(({ sizes }) => sizes)).toEqual(expect.arrayContaining(['192x192', '512x512']));
  for (const { src } of icons) expect((await request.get(src)).ok()).toBe(true);
});

test('opened once, the app opens again with the network off', async ({ page, context }) => {
  await page.goto('/');
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    if (!navigator.serviceWorker.controller)
      await new Promise((resolve) => navigator.serviceWorker.addEventListener('controllerchange', resolve));
  });
  await context.setOffline(true);
  await page.reload();
  await expect(page.getByText('Forge-blower shaft').first()).toBeVisible();
});

test('with the network off the plan is worked out, the sheet is made and the bench works', async ({
  page,
  context,
}) => {
  await page.goto('/');
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    if (!navigator.serviceWorker.controller)
      await new Promise((resolve) => navigator.serviceWorker.addEventListener('controllerchange', resolve));
  });
  await context.setOffline(true);
  await page.reload();
  await goTo(page, 'Turn');
  await page.getByRole('button', { name: 'Done, tick it' }).click();
  await expect(page.getByText('1 ticked')).toBeVisible();
  await goTo(page, 'Print');
  await expect(page.getByRole('img', { name: /^Page 1 of/ }).locator('canvas')).toBeVisible({
    timeout: 30_000,
  });
  const pdf = await downloadOf(page, () => page.getByRole('button', { name: 'Download the PDF' }).click());
  expect(pdf.bytes.subarray(0, 5).toString()).toBe('%PDF-');
});

test.describe('without the service worker, as a control', () => {
  test.use({ serviceWorkers: 'block' });
  test('the same reload fails', async ({ page, context }) => {
    await page.goto('/');
    await context.setOffline(true);
    await expect(page.reload()).rejects.toThrow(/ERR_INTERNET_DISCONNECTED/);
  });
});
