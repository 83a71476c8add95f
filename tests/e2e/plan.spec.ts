import { expect, test, type Page } from '@playwright/test';
import { downloadOf, dropFile, goTo, withoutFilePickers } from './app.ts';
import { seriousFindings } from './axe.ts';

const panel = (page: Page) => page.getByRole('region', { name: 'Hold', exact: true });
const settled = (page: Page) => panel(page).getByRole('region', { name: 'Settle something' });

test('a way that was left is planned when asked for, let go again, and each is one step of undo', async ({
  page,
}) => {
  await page.goto('/');
  await goTo(page, 'Hold');
  await expect(panel(page).getByRole('button', { name: /^H3 in the collet/ })).toBeVisible();
  await panel(page)
    .getByRole('button', { name: /^Plan it this way.*between centres, end A/ })
    .click();
  await expect(settled(page).getByText('Way of holding: between centres.', { exact: true })).toBeVisible();
  await expect(panel(page).getByRole('button', { name: /^H3 between centres/ })).toBeVisible();
  await settled(page).getByRole('button', { name: 'Let the planner choose everything' }).click();
  await expect(panel(page).getByRole('button', { name: /^H3 in the collet/ })).toBeVisible();
  await page.keyboard.press('Control+z');
  await expect(panel(page).getByRole('button', { name: /^H3 between centres/ })).toBeVisible();
});

test('settled so that no plan is possible, the reason is said and the way back offered, by the keyboard', async ({
  page,
}) => {
  await page.goto('/');
  await goTo(page, 'Hold');
  const bar = settled(page).getByRole('combobox', { name: 'Bar, in' });
  await bar.focus();
  await page.keyboard.type('1/4');
  await expect(panel(page).getByRole('heading', { name: 'No plan yet' })).toBeVisible();
  await expect(panel(page).getByText(/is smaller than the largest diameter/)).toBeVisible();
  const back = panel(page).getByRole('button', { name: 'Let the planner choose again' });
  await back.focus();
  await page.keyboard.press('Enter');
  await expect(panel(page).getByRole('heading', { name: /^Bar to order: 3\/4 in/ })).toBeVisible();
});

test('the grip is dragged in the picture and by the keyboard, each one step of undo', async ({ page }) => {
  await page.goto('/');
  await goTo(page, 'Hold');
  await panel(page)
    .getByRole('button', { name: /^H2 in the collet/ })
    .click();
  const grip = page.getByRole('slider', { name: 'Grip of H2' });
  const words = await grip.getAttribute('aria-valuetext');
  const box = await grip.boundingBox();
  if (!box) throw new Error('the grip has no place');
  // Toward the headstock, which is at the left: the bar stands out further.
  await page.mouse.move(box.x + box.width / 2, box.y + box.height - 9);
  await page.mouse.down();
  await page.mouse.move(box.x - 60, box.y + box.height - 9, { steps: 4 });
  await expect(grip).not.toHaveAttribute('aria-valuetext', words ?? '');
  await page.mouse.up();
  await expect(
    settled(page)
      .getByText(/^Grip of H2: begins .* from the end/)
      .first(),
  ).toBeVisible();
  const dragged = page.getByRole('slider', { name: 'Grip of H2, settled' });
  await expect(dragged).toBeVisible();
  await page.keyboard.press('Control+z');
  await expect(page.getByRole('slider', { name: 'Grip of H2', exact: true })).toHaveAttribute(
    'aria-valuetext',
    words ?? '',
  );

  await grip.focus();
  await page.keyboard.press('Shift+ArrowLeft');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('slider', { name: 'Grip of H2, settled' })).toBeFocused();
  // Where it would be cut the grip cannot stand: the reason is said, and a button lets it go.
  for (let i = 0; i < 20; i += 1) await page.keyboard.press('Shift+ArrowRight');
  await page.keyboard.press('Enter');
  await expect(panel(page).getByText(/grip of H2 cannot stand/)).toBeVisible();
  await panel(page)
    .getByRole('button', { name: /^Let go of “Grip of H2/ })
    .click();
  await expect(panel(page).getByRole('heading', { name: /^Bar to order: 3\/4 in/ })).toBeVisible();
});

test('the split between two holdings is dragged to another face', async ({ page }) => {
  await page.goto('/');
  await goTo(page, 'Hold');
  await settled(page)
    .getByRole('combobox', { name: 'Way of holding' })
    .selectOption({ label: 'from both ends' });
  const split = page.getByRole('slider', { name: /^Split between holdings/ });
  await expect(split).toBeVisible();
  const words = (await split.getAttribute('aria-valuetext')) ?? '';
  await split.focus();
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('Enter');
  await expect(settled(page).getByText(/^From both ends, split at face: /)).toBeVisible();
  await expect(split).not.toHaveAttribute('aria-valuetext', words);
});

test('a length that is not held is mended with one click and one undo', async ({ page }) => {
  await page.goto('/');
  await goTo(page, 'Hold');
  const shaft = await page.evaluate(
    async () => (await fetch('examples/blower-shaft.json')).json() as Promise<unknown>,
  );
  const text = JSON.stringify(shaft).replace(
    /("id":"L2"[^}]*?"size":"[^"]*")(,"tol":"[^"]*")?/,
    '$1,"tol":"±.001"',
  );
  await dropFile(page, 'tight.json', text);
  await expect(panel(page).getByRole('heading', { name: 'Tolerance chart: L2 not held' })).toBeVisible();
  await panel(page)
    .getByRole('button', { name: /^Ask for wider limits on L2/ })
    .click();
  const held = panel(page).getByRole('heading', { name: 'Tolerance chart: every drawing length is held' });
  await expect(held).toBeVisible();
  await page.keyboard.press('Control+z');
  await expect(panel(page).getByRole('heading', { name: 'Tolerance chart: L2 not held' })).toBeVisible();
});

test('an own lathe is made, kept over a reload, saved as a file, forgotten, and opened again', async ({
  page,
}) => {
  await withoutFilePickers(page);
  await page.goto('/');
  await goTo(page, 'Hold');
  await page.getByRole('button', { name: 'Make a copy to change' }).click();
  await page.getByRole('textbox', { name: 'Name', exact: true }).first().fill('shed lathe');
  await page.getByRole('textbox', { name: 'Spindle bore' }).fill('1');
  await page.getByRole('button', { name: 'Keep this lathe' }).click();
  await expect(page.getByRole('heading', { name: 'Lathe: shed lathe' })).toBeVisible();

  await page.reload();
  await goTo(page, 'Hold');
  await expect(page.getByRole('heading', { name: 'Lathe: shed lathe' })).toBeVisible();
  await page.getByRole('button', { name: 'bench lathe (inch)' }).click();
  await expect(page.getByText(/spindle bore 13\/16/)).toBeVisible();
  await page.getByRole('button', { name: 'shed lathe (inch)' }).click();
  const file = await downloadOf(page, () => page.getByRole('button', { name: 'Save as a file' }).click());
  expect(file.name).toBe('shed-lathe.json');

  await page.getByRole('button', { name: 'Forget it' }).click();
  await expect(page.getByRole('button', { name: 'shed lathe (inch)' })).toHaveCount(0);
  await dropFile(page, file.name, file.bytes.toString('utf8'));
  await expect(page.getByRole('heading', { name: 'Lathe: shed lathe' })).toBeVisible();
  await expect(page.getByText(/spindle bore 1\s+in/)).toBeVisible();
});

for (const colorScheme of ['light', 'dark'] as const) {
  test(`the form of a lathe, the chart and the spring are clean to axe, ${colorScheme}`, async ({ page }) => {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    await page.goto('/');
    await goTo(page, 'Hold');
    await page.getByRole('button', { name: 'Make a copy to change' }).click();
    await page.getByRole('textbox', { name: 'Spindle bore' }).fill('wide');
    expect(await seriousFindings(page)).toEqual([]);
    await goTo(page, 'Cut');
    await page
      .getByRole('navigation', { name: 'All cuts' })
      .getByRole('button', { name: /Finish seat/ })
      .last()
      .click();
    await expect(page.getByRole('heading', { name: 'How far seat springs' })).toBeVisible();
    expect(await seriousFindings(page)).toEqual([]);
  });
}
