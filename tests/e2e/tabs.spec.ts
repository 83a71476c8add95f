import { expect, test, type Page } from '@playwright/test';

const title = (page: Page) => page.getByRole('heading', { level: 1 });
const kept = (page: Page) => page.getByText('Kept in this browser', { exact: true });

async function typeTitle(page: Page, text: string) {
  const field = page.getByRole('textbox', { name: 'Title' });
  await field.fill(text);
  await field.press('Enter');
}

test('a second window follows the first, and takes the work over when asked to', async ({ context }) => {
  const first = await context.newPage();
  await first.goto('/');
  await typeTitle(first, 'From the first');
  await expect(kept(first)).toBeVisible();
  const second = await context.newPage();
  await second.goto('/');
  await expect(title(second)).toHaveText('From the first');
  await expect(second.getByText('Follows the window that works on this part')).toBeVisible();

  await typeTitle(first, 'Changed in the first');
  await expect(title(second)).toHaveText('Changed in the first');
  await typeTitle(second, 'Not mine to change');
  await expect(title(second)).toHaveText('Changed in the first');

  await second.getByRole('button', { name: 'Work on it here' }).click();
  await expect(kept(second)).toBeVisible();
  await expect(first.getByText('Follows the window that works on this part')).toBeVisible();
  await typeTitle(second, 'From the second');
  await expect(title(first)).toHaveText('From the second');
});

test('where the window that worked is closed, the follower goes on with what it kept', async ({
  context,
}) => {
  const first = await context.newPage();
  await first.goto('/');
  await typeTitle(first, 'Left by the first');
  const second = await context.newPage();
  await second.goto('/');
  await expect(second.getByText('Follows the window that works on this part')).toBeVisible();
  await first.close();
  await expect(kept(second)).toBeVisible();
  await typeTitle(second, 'Gone on with');
  await expect(title(second)).toHaveText('Gone on with');
});

test('without locks nothing is overwritten: the second writer gets a part of its own', async ({
  context,
}) => {
  await context.addInitScript(() => {
    Object.defineProperty(Navigator.prototype, 'locks', { value: null });
    Reflect.deleteProperty(window, 'BroadcastChannel');
  });
  const first = await context.newPage();
  await first.goto('/');
  await typeTitle(first, 'Begun');
  await expect(kept(first)).toBeVisible();
  const second = await context.newPage();
  await second.goto('/');
  await expect(title(second)).toHaveText('Begun');
  await typeTitle(first, 'One');
  await expect(kept(first)).toBeVisible();
  await typeTitle(second, 'Two');
  await expect(title(second)).toHaveText('Two (from another window)');
  await second.getByRole('button', { name: 'Parts', exact: true }).click();
  const parts = second.getByRole('complementary', { name: 'Parts' });
  await expect(parts.getByRole('heading', { name: 'One' })).toBeVisible();
  await expect(parts.getByRole('heading', { name: /^Two \(from another window\)/ })).toBeVisible();
});
