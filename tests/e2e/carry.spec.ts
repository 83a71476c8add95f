import { expect, test, type Browser, type Page } from '@playwright/test';
import { chromium } from '@playwright/test';
import jsqr from 'jsqr';
import { findChromium } from '../../src/tools/find-chromium.mjs';
import { downloadOf, goTo, withoutFilePickers } from './app.ts';

const title = (page: Page) => page.getByRole('heading', { level: 1 });
const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true } as const;

/** Pixels of a screenshot, undone from its PNG by the browser itself. */
async function pixelsOf(page: Page, png: Buffer): Promise<ImageData> {
  const { width, height, base64 } = await page.evaluate(
    async (source) => {
      const image = new Image();
      image.src = source;
      await image.decode();
      const canvas = new OffscreenCanvas(image.width, image.height);
      const context = canvas.getContext('2d');
      context?.drawImage(image, 0, 0);
      const data = context?.getImageData(0, 0, image.width, image.height).data ?? [];
      let text = '';
      for (const byte of data) text += String.fromCharCode(byte);
      return { width: image.width, height: image.height, base64: btoa(text) };
    },
    `data:image/png;base64,${png.toString('base64')}`,
  );
  return { width, height, data: new Uint8ClampedArray(Buffer.from(base64, 'base64')) } as ImageData;
}

/** The links of all codes that a page shows, each read off its screenshot. */
async function linksOn(page: Page): Promise<string[]> {
  const links: string[] = [];
  const count = Number(/of (\d+)/.exec((await page.locator('.count').textContent()) ?? '')?.[1]);
  for (let n = 1; n <= count; n += 1) {
    const code = page.getByRole('img', { name: `Code ${n} of ${count}` });
    await expect(code).toBeVisible();
    const { data, width, height } = await pixelsOf(page, await code.screenshot());
    const read = jsqr(data, width, height)?.data ?? '';
    expect(read).toBe(await code.getAttribute('data-link'));
    links.push(read);
    await page.getByRole('button', { name: 'Next', exact: true }).click();
  }
  return links;
}

async function fileOf(page: Page): Promise<unknown> {
  const save = page.getByRole('button', { name: 'Save', exact: true });
  if (!(await save.isVisible())) await page.getByRole('button', { name: 'Part…' }).click();
  const { bytes } = await downloadOf(page, () => save.click());
  return JSON.parse(bytes.toString('utf8'));
}

/** On the desk: one cut ticked, the codes shown for a phone that reaches the app at `address`. */
async function showCodes(page: Page, address: string) {
  await withoutFilePickers(page);
  await page.goto('/');
  await goTo(page, 'Turn');
  await page.getByRole('button', { name: 'Done, tick it' }).click();
  await page.getByRole('button', { name: 'To a phone' }).click();
  await expect(page.getByText('which only this machine reaches')).toBeVisible();
  await page.getByRole('textbox', { name: 'Address for the phone' }).fill(address);
}

test('codes are their links, and opened in any order they are the same part on a phone', async ({
  page,
  browser,
  baseURL,
}) => {
  await showCodes(page, 'workshop.example/app/');
  const links = await linksOn(page);
  expect(links.length).toBeGreaterThan(1);
  for (const link of links) expect(link).toMatch(/^http:\/\/workshop\.example\/app\/#t1\./);

  const phone = await browser.newContext({ ...PHONE, ...(baseURL ? { baseURL } : {}) });
  const order = [...links.slice(1).reverse(), ...links.slice(0, 1)];
  for (const [i, link] of order.slice(0, -1).entries()) {
    const tab = await phone.newPage(); // a camera opens each link as a page of its own
    await tab.goto(`/${new URL(link).hash}`);
    await expect(tab.getByText(`${i + 1} of ${links.length} read`)).toBeVisible();
    expect(new URL(tab.url()).hash).toBe('');
  }
  const last = await phone.newPage();
  await withoutFilePickers(last);
  await last.goto(`/${new URL(order.at(-1) ?? '').hash}`);
  await expect(last.getByRole('button', { name: /^Cut 2 of/ })).toBeVisible({ timeout: 20_000 });
  await expect(last.getByText('1 ticked')).toBeVisible();
  expect(await fileOf(last)).toEqual(await fileOf(page));
  await phone.close();
});

test('a spoilt link is refused in a sentence, and what is on the board stays', async ({ page, baseURL }) => {
  await showCodes(page, 'workshop.example');
  const link = (await page.getByRole('img', { name: /^Code 1 of/ }).getAttribute('data-link')) ?? '';
  const { hash } = new URL(link);
  const spoilt = `${hash.slice(0, -1)}${(Number(hash.at(-1)) + 1) % 10}`;
  for (const fragment of [spoilt, '#t1.<img src=x onerror=alert(1)>', '#t9.1']) {
    await page.goto('about:blank');
    await page.goto(`${baseURL}${fragment}`);
    await expect(page.getByRole('alert').filter({ hasText: 'Refused.' })).toBeVisible();
    await expect(title(page)).toHaveText('Forge-blower shaft');
  }
  await goTo(page, 'Turn');
  await expect(page.getByText('1 ticked')).toBeVisible();
});

/** A browser for which this machine has a name that is not its own: plain http, as on a home network. */
const onHomeNetwork = (): Promise<Browser> =>
  chromium.launch({
    executablePath: findChromium() ?? '',
    args: ['--host-resolver-rules=MAP workshop.test 127.0.0.1'],
  });

test('over plain http the app works, keeps the work, and says what it cannot do there', async ({
  baseURL,
}) => {
  const browser = await onHomeNetwork();
  const context = await browser.newContext(PHONE);
  const page = await context.newPage();
  const home = (baseURL ?? '').replace('127.0.0.1', 'workshop.test');
  await page.goto(home);
  expect(await page.evaluate(() => [isSecureContext, 'serviceWorker' in navigator])).toEqual([false, false]);
  await goTo(page, 'Turn');
  await expect(page.getByText(/plain http: it works, but it cannot be installed/)).toBeVisible();
  await page.getByRole('button', { name: 'Done, tick it' }).tap();
  await expect(page.getByText('Kept in this browser', { exact: true })).toBeVisible();
  await page.reload();
  await goTo(page, 'Turn');
  await expect(page.getByText('1 ticked')).toBeVisible();
  await page.getByRole('button', { name: 'Part…' }).tap();
  await page.getByRole('button', { name: 'Parts', exact: true }).tap();
  await page.getByRole('button', { name: 'Carry by code' }).tap();
  await expect(page.getByRole('img', { name: /^Code 1 of/ })).toBeVisible();
  expect(await page.getByRole('img', { name: /^Code 1 of/ }).getAttribute('data-link')).toContain(home);
  await page.getByRole('button', { name: 'Read a part' }).tap();
  await expect(page.getByText(/only over https/)).toBeVisible();
  await browser.close();
});

test('a camera of the app itself is used where the browser reads codes', async ({ page }) => {
  // No camera and no reader in this Chromium: what they give stands in for them here.
  await showCodes(page, 'workshop.example');
  const links = await linksOn(page);
  await page.addInitScript((codes) => {
    let next = 0;
    Object.assign(globalThis, {
      BarcodeDetector: class {
        static getSupportedFormats(): Promise<string[]> {
          return Promise.resolve(['qr_code']);
        }
        detect = () => Promise.resolve([{ rawValue: codes[next++ % codes.length] }]);
      },
    });
    navigator.mediaDevices.getUserMedia = () =>
      Promise.resolve(document.createElement('canvas').captureStream());
    HTMLMediaElement.prototype.play = () => Promise.resolve();
  }, links);
  await page.reload();
  await page.getByRole('button', { name: 'Parts', exact: true }).click();
  await page.getByRole('button', { name: 'Carry by code' }).click();
  await page.getByRole('button', { name: 'Read a part' }).click();
  await page.getByRole('button', { name: 'Read with this camera' }).click();
  await expect(page.getByText('part by code is on the board')).toBeVisible({ timeout: 20_000 });
  await expect(page.getByRole('button', { name: /^Cut 2 of/ })).toBeVisible({ timeout: 20_000 });
});
