import { expect, test } from '@playwright/test';

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

test.describe('without the service worker, as a control', () => {
  test.use({ serviceWorkers: 'block' });
  test('the same reload fails', async ({ page, context }) => {
    await page.goto('/');
    await context.setOffline(true);
    await expect(page.reload()).rejects.toThrow(/ERR_INTERNET_DISCONNECTED/);
  });
});
