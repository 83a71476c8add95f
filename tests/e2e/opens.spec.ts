import { expect, test, type BrowserContext } from '@playwright/test';
import { dropFile, goTo, placeNames } from './app.ts';

// With all that goes on in the background at a first visit.
test.use({ serviceWorkers: 'allow' });

/** Every request of every page and worker that goes anywhere but to the app itself; grows as they are made. */
function requestsOutside(context: BrowserContext, baseURL = 'none'): string[] {
  const outside: string[] = [];
  context.on('request', (request) => {
    // chrome: is the browser's own PDF viewer, out of the browser itself.
    const here = ['data:', 'blob:', 'chrome:', 'chrome-extension:', baseURL].some((start) =>
      request.url().startsWith(start),
    );
    if (!here) outside.push(request.url());
  });
  return outside;
}

test('the app opens with the finished example, quietly, and asks nobody outside for anything', async ({
  page,
  context,
  baseURL,
}) => {
  const complaints: string[] = [];
  const outside = requestsOutside(context, baseURL);
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('requestfailed', (request) => {
    // The browser's own PDF viewer breaks off its own requests when its place is left, and that of the sheet.
    const why = request.failure()?.errorText ?? '';
    const left = request.url().startsWith('blob:') && why === 'net::ERR_ABORTED';
    if (!request.url().startsWith('chrome') && !left) complaints.push(`failed: ${request.url()} (${why})`);
  });

  await page.goto('/');
  await expect(page).toHaveTitle(/Shaftwright/);
  await expect(page.getByText('Forge-blower shaft').first()).toBeVisible();
  for (const place of placeNames) {
    await goTo(page, place);
    if (place === 'Print') await expect(page.getByRole('button', { name: 'Download the PDF' })).toBeVisible();
  }
  await page.waitForTimeout(500); // what is fetched late is fetched by then; the PDF viewer never lets the network fall idle

  expect(complaints).toEqual([]);
  expect(outside).toEqual([]);
});

test('a part whose texts are script and addresses runs nothing and asks nobody', async ({
  page,
  context,
  baseURL,
}) => {
  const outside = requestsOutside(context, baseURL);
  const dialogs: string[] = [];
  page.on('dialog', (dialog) => {
    dialogs.push(dialog.message());
    void dialog.dismiss();
  });
  const bad = '<img src="https://outside.test/a.png" onerror="alert(1)"><svg onload=alert(2)>';
  const part = {
    ...{ shaftwright: 1, title: bad, drawing: 'https://outside.test/b', material: bad, unit: 'mm' },
    faces: [{ id: 'A', name: bad }, { id: '__proto__' }],
    segments: [{ id: 'javascript:alert(3)', form: 'cylinder', diameter: '8' }],
    lengths: [{ id: bad, from: 'A', to: '__proto__', size: '30' }],
    requirements: [{ id: 'R', from: 'A', to: '__proto__', min: '29', max: '31', why: bad }],
    scan: { image: 'https://outside.test/c.png', scale: 1, angle: 0, origin: [0, 0] },
  };
  await page.goto('/');
  await dropFile(page, 'bad.json', JSON.stringify(part));
  await expect(page.getByText(/is on the board|^Refused/).first()).toBeVisible();
  for (const place of placeNames) await goTo(page, place);
  await goTo(page, 'Draw');
  await page.getByRole('button', { name: 'Parts', exact: true }).click();
  await expect(page.getByRole('complementary', { name: 'Parts' })).toBeVisible();
  await page.waitForTimeout(300);
  expect(dialogs).toEqual([]);
  expect(outside).toEqual([]);
});

test('the page takes no text as HTML or as script, and no script from elsewhere', async ({ page }) => {
  await page.goto('/');
  await expect(page.getByText('Forge-blower shaft').first()).toBeVisible();
  const refused = await page.evaluate(async () => {
    const attempt = (act: () => unknown) => {
      try {
        act();
        return 'taken';
      } catch (fault) {
        return fault instanceof TypeError || fault instanceof EvalError ? 'refused' : String(fault);
      }
    };
    const box = document.createElement('div');
    const script = document.createElement('script');
    return {
      html: attempt(() => (box.innerHTML = '<b>x</b>')),
      script: attempt(() => (script.text = 'window.ran = 1')),
      address: attempt(() => (script.src = 'https://outside.test/x.js')),
      worker: attempt(() => new Worker('https://outside.test/x.js')),
    };
  });
  expect(refused).toEqual({ html: 'refused', script: 'refused', address: 'refused', worker: 'refused' });
});
