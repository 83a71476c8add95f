import { expect, test, type Page } from '@playwright/test';
import { downloadOf, goTo, startOwn, withoutFilePickers } from './app.ts';

test.beforeEach(({ page }) => withoutFilePickers(page));

/** A field by its label; one that completes from the tables is a combobox. */
const field = (page: Page, name: string) =>
  page.getByRole('textbox', { name, exact: true }).or(page.getByRole('combobox', { name, exact: true }));

async function typeOver(page: Page, name: string, text: string) {
  await field(page, name).click();
  await page.keyboard.press('Control+a');
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
}

test('a new three-step shaft, drawn with the pointer and sized with the keyboard, becomes a sheet and a file', async ({
  page,
}) => {
  await page.goto('/');
  await startOwn(page);
  await page.getByRole('button', { name: 'Add land' }).click();
  const board = await page.getByLabel(/^Drawing board/).boundingBox();
  if (!board) throw new Error('the board is not on the page');
  for (const [x, y] of [
    [0.35, 0.4],
    [0.55, 0.3],
    [0.7, 0.4],
  ] as const) {
    await page.mouse.click(board.x + board.width * x, board.y + board.height * y);
  }
  await expect(page.getByRole('rowheader')).toHaveCount(4);

  await goTo(page, 'Check');
  await expect(page.getByRole('heading', { name: /^Three lengths short/ })).toBeVisible();
  await goTo(page, 'Draw');
  await typeOver(page, 'Diameter to the right of A', '3/8');
  await typeOver(page, 'Diameter to the right of B', '.5000');
  await typeOver(page, 'Diameter to the right of C', '3/8');
  // What is missing is offered first, so that typing size after size closes the chain.
  await page.getByLabel('Size of the new length').click();
  for (const size of ['1/2', '1 1/4', '3/4']) {
    await page.keyboard.type(size);
    await page.keyboard.press('Enter');
  }
  await typeOver(page, 'Title', 'Three-step pin');

  await goTo(page, 'Check');
  await expect(page.getByRole('heading', { name: /^Every size closes: 4 stations placed/ })).toBeVisible();
  await goTo(page, 'Hold');
  await expect(
    page.getByRole('heading', { name: /^Bar to order: 1\/2 in bar|^Bar to order: 5\/8 in bar/ }),
  ).toBeVisible();
  await goTo(page, 'Cut');
  await expect(page.getByRole('navigation', { name: 'All cuts' }).getByRole('button').first()).toBeVisible();

  await goTo(page, 'Print');
  const pdf = await downloadOf(page, () => page.getByRole('button', { name: 'Download the PDF' }).click());
  expect(pdf.name).toBe('three-step-pin.pdf');
  expect(pdf.bytes.subarray(0, 5).toString()).toBe('%PDF-');

  const file = await downloadOf(page, () => page.getByRole('button', { name: 'Save', exact: true }).click());
  expect(file.name).toBe('three-step-pin.json');
  expect(JSON.parse(file.bytes.toString())).toMatchObject({
    shaftwright: 1,
    title: 'Three-step pin',
    lengths: [{ size: '1/2' }, { size: '1 1/4' }, { size: '3/4' }],
  });

  await startOwn(page);
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Untitled shaft');
  const chooser = page.waitForEvent('filechooser');
  await page.keyboard.press('Control+o');
  await (await chooser).setFiles({ name: file.name, mimeType: 'application/json', buffer: file.bytes });
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Three-step pin');
  await expect(field(page, 'Diameter to the right of B')).toHaveValue('.5000');
});

test('the same by the keyboard alone, from the empty board to the sheet', async ({ page }) => {
  await page.goto('/');
  await startOwn(page);
  await expect(field(page, 'Diameter of the next segment')).toBeFocused();
  for (const [size, length] of [
    ['3/8', '1/2'],
    ['.500', '1 1/4'],
    ['3/8', '3/4'],
  ] as const) {
    await page.keyboard.type(size);
    await page.keyboard.press('Tab');
    await page.keyboard.type(length);
    await page.keyboard.press('Enter');
  }
  await page.keyboard.press('Control+p');
  const pdf = await downloadOf(page, async () => {
    const button = page.getByRole('button', { name: 'Download the PDF' });
    await expect(button).toBeVisible();
    for (let presses = 0; presses < 40; presses += 1) {
      if (await button.evaluate((element) => element === document.activeElement)) break;
      await page.keyboard.press('Tab');
    }
    await page.keyboard.press('Enter');
  });
  expect(pdf.bytes.subarray(0, 5).toString()).toBe('%PDF-');
});

test('a loop that clashes is put right with one click, and one undo brings it back', async ({ page }) => {
  await page.goto('/');
  await page.getByLabel('Examples').selectOption({ label: 'Winch spindle: sizes clash' });
  await goTo(page, 'Check');
  await expect(page.getByRole('heading', { level: 2, name: /not close/ })).toBeVisible();
  await page
    .getByRole('button', { name: /^Make L/ })
    .first()
    .click();
  await expect(page.getByRole('heading', { level: 2, name: /not close/ })).toBeHidden();
  await page.keyboard.press('Control+z');
  await expect(page.getByRole('heading', { level: 2, name: /not close/ })).toBeVisible();
});

test('inches and millimetres switch without touching what is written', async ({ page }) => {
  await page.goto('/');
  const place = page
    .getByRole('row', { name: /^B left bearing stop/ })
    .getByRole('cell')
    .first();
  await expect(place).toHaveText('.3543');
  await page.getByRole('button', { name: 'mm', exact: true }).click();
  await expect(place).toHaveText('9.000');
  await expect(field(page, 'Diameter to the right of B')).toHaveValue('1/2');
  await expect(page.getByRole('button', { name: /^Undo/ })).toBeDisabled();
});

test('another lathe means another plan, at once', async ({ page }) => {
  await page.goto('/');
  await goTo(page, 'Hold');
  await expect(page.getByRole('heading', { name: /^Bar to order: 3\/4 in bar/ })).toBeVisible();
  await page.getByRole('button', { name: 'boathouse lathe (mm)' }).click();
  await expect(page.getByRole('heading', { name: /^Bar to order: 20 mm bar/ })).toBeVisible();
  await expect(page.getByRole('button', { name: 'boathouse lathe (mm)' })).toBeFocused();
  await page.reload();
  await goTo(page, 'Hold');
  await expect(page.getByRole('heading', { name: /^Bar to order: 20 mm bar/ })).toBeVisible();
});

test('what is gone over in a table is lit on the board, what is chosen there opens in the table', async ({
  page,
}) => {
  await page.goto('/');
  await page.getByRole('button', { name: 'More about station D' }).click();
  await expect(page.getByRole('button', { name: 'Delete', exact: true }).first()).toBeEnabled();
  await page.keyboard.press('Escape');
  await expect(page.getByRole('button', { name: 'More about station D' })).toBeVisible();
});
