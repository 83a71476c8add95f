import AxeBuilder from '@axe-core/playwright';
import { expect, test, type Page } from '@playwright/test';
import { downloadOf, dropFile, goTo, withoutFilePickers } from './app.ts';

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
  await expect(settled(page).getByText('Way of holding: between centres.')).toBeVisible();
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
  await expect(panel(page).getByText(/No bar in the lathe file/)).toBeVisible();
  const back = panel(page).getByRole('button', { name: 'Let the planner choose again' });
  await back.focus();
  await page.keyboard.press('Enter');
  await expect(panel(page).getByRole('heading', { name: /^Bar to order: 3\/4 in/ })).toBeVisible();
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
    await page.getByText('Working dimensions:').click();
    await page.getByRole('button', { name: 'Make a copy to change' }).click();
    await page.getByRole('textbox', { name: 'Spindle bore' }).fill('wide');
    await expectClean(page);
    await goTo(page, 'Cut');
    await page
      .getByRole('navigation', { name: 'All cuts' })
      .getByRole('button', { name: /Finish seat/ })
      .last()
      .click();
    await expect(page.getByRole('heading', { name: 'How far seat springs' })).toBeVisible();
    await expectClean(page);
  });
}

async function expectClean(page: Page): Promise<void> {
  const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
  const { violations } = await new AxeBuilder({ page }).withTags(tags).analyze();
  const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical');
  expect(serious.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' | ')}`)).toEqual([]);
}
