import { expect, test } from '@playwright/test';
import { downloadOf, goTo } from './app.ts';

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
