import { expect, test } from '@playwright/test';
import { surface } from './board.ts';

test.use({ hasTouch: true, viewport: { width: 1024, height: 768 } });

test('what is tapped is as large as a fingertip', async ({ page }) => {
  await page.goto('/');
  for (const place of ['Draw', 'Cut']) {
    await page.getByRole('navigation', { name: 'Places' }).getByRole('button', { name: place }).tap();
    await expect(surface(page)).toBeVisible();
    if (place === 'Cut') await expect(page.getByRole('button', { name: /Face/ }).first()).toBeVisible();
    const small = await page.getByRole('button').evaluateAll((all) =>
      all.flatMap((button) => {
        const { width, height } = button.getBoundingClientRect();
        const seen = width > 0 && height > 0;
        return seen && (width < 43.5 || height < 43.5)
          ? [`${button.getAttribute('aria-label') ?? button.textContent} ${width} × ${height}`]
          : [];
      }),
    );
    expect(small).toEqual([]);
  }
});
