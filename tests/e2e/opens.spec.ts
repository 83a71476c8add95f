import { expect, test } from '@playwright/test';
import { goTo, placeNames } from './app.ts';

test('the app opens with the finished example, quietly, and asks nobody outside for anything', async ({
  page,
  baseURL,
}) => {
  const complaints: string[] = [];
  const outside: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('requestfailed', (request) => {
    // The browser's own PDF viewer breaks off its own requests when its place is left.
    if (!request.url().startsWith('chrome')) complaints.push(`failed: ${request.url()}`);
  });
  page.on('request', (request) => {
    // chrome: is the browser's own PDF viewer, out of the browser itself.
    const here = ['data:', 'blob:', 'chrome:', 'chrome-extension:', baseURL ?? 'none'].some((start) =>
      request.url().startsWith(start),
    );
    if (!here) outside.push(request.url());
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
