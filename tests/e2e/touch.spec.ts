import { expect, test, type Page } from '@playwright/test';
import { startOwn, withoutFilePickers } from './app.ts';
import { boardBox, savedPart, stationsOnBoard, surface, type Spot } from './board.ts';

test.use({ hasTouch: true, viewport: { width: 1024, height: 768 } });

test.beforeEach(async ({ page }) => withoutFilePickers(page));

/** A finger drawn from one place to another. */
async function draw(page: Page, from: Spot, to: Spot, steps = 8): Promise<void> {
  const cdp = await page.context().newCDPSession(page);
  const send = (type: 'touchStart' | 'touchMove' | 'touchEnd', ...touchPoints: (Spot & { id: number })[]) =>
    cdp.send('Input.dispatchTouchEvent', { type, touchPoints });
  await send('touchStart', { ...from, id: 1 });
  for (let i = 1; i <= steps; i += 1)
    await send('touchMove', {
      x: from.x + ((to.x - from.x) * i) / steps,
      y: from.y + ((to.y - from.y) * i) / steps,
      id: 1,
    });
  // Lifted in full flight it would be a flick, and the browser takes the tap after that for its end.
  await page.waitForTimeout(250);
  await send('touchEnd');
}

/** Three lands by a finger and the keys that a screen has: figures, but no Tab. */
async function threeLands(page: Page): Promise<void> {
  await startOwn(page);
  await page.getByRole('button', { name: 'Add land' }).tap();
  const { x, y, width, height } = await boardBox(page);
  const next = page.getByRole('button', { name: 'next', exact: true });
  for (const [i, size] of ['1/2', '3/4', '1/2'].entries()) {
    await page.touchscreen.tap(x + width * (0.3 + 0.2 * i), y + height * 0.35);
    await page.keyboard.type(size);
    await next.tap();
    await page.keyboard.type('1');
  }
  await page.getByRole('button', { name: 'Choose', exact: true }).tap();
}

test('lands are sized one after another without a Tab key', async ({ page }) => {
  await page.goto('/');
  await threeLands(page);
  const part = await savedPart(page);
  expect(part.segments.map((s) => s.form === 'cylinder' && s.diameter)).toEqual(['1/2', '3/4', '1/2']);
  expect(part.lengths.map(({ size }) => size)).toEqual(['1', '1', '1']);
});

test('several things are chosen by taps and by a box, without Shift', async ({ page }) => {
  await page.goto('/');
  await threeLands(page);
  const at = await stationsOnBoard(page);
  const deeds = page.getByRole('group', { name: 'What can be done to what is chosen' });
  const several = page.getByRole('button', { name: 'Several', exact: true });
  await several.tap();
  for (const [left, right] of [
    ['A', 'B'],
    ['B', 'C'],
  ] as const)
    await page.touchscreen.tap((at(left).x + at(right).x) / 2, at('A').y + 12);
  await expect(deeds).toContainText('2 chosen');
  // One more tap takes it away again.
  await page.waitForTimeout(500);
  await page.touchscreen.tap((at('B').x + at('C').x) / 2, at('A').y + 12);
  await expect(deeds).not.toContainText('chosen');
  const { x, y, width, height } = await boardBox(page);
  await draw(page, { x: x + 6, y: y + 6 }, { x: x + width - 6, y: y + height - 6 });
  await expect(deeds).toContainText(/\d+ chosen/);
  await page.getByRole('button', { name: 'Choose', exact: true }).tap();
  await expect(several).toHaveAttribute('aria-pressed', 'false');
  await page.waitForTimeout(500);
  await page.touchscreen.tap((at('B').x + at('C').x) / 2, at('A').y + 12);
  await expect(deeds).not.toContainText('chosen');
});

test('a finger that rolls is a tap, and one beside a face means the face', async ({ page }) => {
  await page.goto('/');
  await threeLands(page);
  const at = await stationsOnBoard(page);
  const b = at('B');
  await draw(page, { x: b.x + 3, y: b.y }, { x: b.x + 9, y: b.y + 4 });
  await expect(surface(page)).toHaveAttribute('aria-label', /face B/);
  await page.waitForTimeout(500);
  const c = at('C');
  await page.touchscreen.tap(c.x + 10, c.y);
  await expect(surface(page)).toHaveAttribute('aria-label', /face C/);
  // Nothing was moved, and no field opened.
  expect((await savedPart(page)).lengths.map(({ size }) => size)).toEqual(['1', '1', '1']);
});

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
