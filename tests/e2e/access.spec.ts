import { expect, test } from '@playwright/test';
import { goTo, placeNames } from './app.ts';
import { seriousFindings } from './axe.ts';

for (const colorScheme of ['light', 'dark'] as const) {
  for (const place of placeNames) {
    test(`axe finds nothing serious in ${place}, ${colorScheme}`, async ({ page }) => {
      await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
      await page.goto('/');
      await goTo(page, place);
      if (place === 'Print')
        await expect(page.getByRole('button', { name: 'Download the PDF' })).toBeVisible();
      expect(await seriousFindings(page)).toEqual([]);
    });
  }
}

test('the digits at the lathe are at least 76 px high on a phone, the targets 64 px', async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto('/');
  await goTo(page, 'Turn');
  const digits = page.getByLabel('Readings').locator('.digits').first();
  const size = await digits.evaluate((element) => parseFloat(getComputedStyle(element).fontSize));
  expect(size).toBeGreaterThanOrEqual(76);
  for (const name of ['Back', 'Done, tick it', 'Next']) {
    const box = await page.getByRole('button', { name, exact: true }).boundingBox();
    expect(Math.min(box?.width ?? 0, box?.height ?? 0)).toBeGreaterThanOrEqual(64);
  }
});

test('nothing is wider than the window, from a phone to a desk', async ({ page }) => {
  await page.goto('/');
  for (const [width, height] of [
    [360, 740],
    [768, 1024],
    [1024, 768],
    [1440, 900],
  ] as const) {
    await page.setViewportSize({ width, height });
    for (const place of placeNames) {
      await goTo(page, place);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth);
      expect(wide, `${place} at ${width}`).toBeLessThanOrEqual(width);
    }
  }
});
