import { expect, test } from '@playwright/test';
import { seriousFindings } from './axe.ts';

for (const [width, height, colorScheme] of [
  [1280, 800, 'light'],
  [390, 844, 'dark'],
] as const) {
  test(`the tables open with a key and close with Esc, ${width} wide, ${colorScheme}`, async ({ page }) => {
    await page.setViewportSize({ width, height });
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    await page.goto('/');
    await page.getByText('Forge-blower shaft').first().waitFor();
    await page.keyboard.press('t');
    await page.getByRole('searchbox', { name: 'Look up' }).fill('5/16-24');
    await expect(page.getByRole('heading', { name: /5\/16-24 UNF/ })).toBeVisible();
    await page.getByRole('searchbox', { name: 'Look up' }).fill('shafts');
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(wide).toBeLessThanOrEqual(width);
    expect(await seriousFindings(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await expect(page.getByRole('searchbox')).toHaveCount(0);
    await expect(page.getByRole('heading', { name: /Stations/ })).toBeVisible();
  });
}
