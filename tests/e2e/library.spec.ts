import { expect, test, type Page } from '@playwright/test';
import { downloadOf, dropFile } from './app.ts';

const title = (page: Page) => page.getByRole('heading', { level: 1 });
const shelf = (page: Page) => page.getByRole('complementary', { name: 'Parts' });
const openShelf = (page: Page) => page.getByRole('button', { name: 'Parts', exact: true }).click();
const entry = (page: Page, name: string) =>
  shelf(page)
    .locator('ul > li')
    .filter({ has: page.getByRole('heading', { name, exact: true }) });

const part = (name: string) =>
  JSON.stringify({
    shaftwright: 1,
    title: name,
    unit: 'mm',
    faces: [{ id: 'A' }, { id: 'B' }],
    segments: [{ id: 's1', form: 'cylinder', diameter: '8' }],
    lengths: [{ id: 'L1', from: 'A', to: 'B', size: '30' }],
  });

async function withTwo(page: Page) {
  await page.goto('/');
  await dropFile(page, 'pin.json', part('Pin'));
  await expect(title(page)).toHaveText('Pin');
  await dropFile(page, 'axle.json', part('Axle'));
  await expect(title(page)).toHaveText('Axle');
  await openShelf(page);
}

test('parts are listed with pictures, found, opened, renamed, doubled, thrown away and taken back', async ({
  page,
}) => {
  await withTwo(page);
  await expect(entry(page, 'Pin').getByRole('img')).toBeVisible();
  await shelf(page).getByRole('searchbox').fill('axl');
  await expect(entry(page, 'Pin')).toHaveCount(0);
  await shelf(page).getByRole('searchbox').fill('');

  await entry(page, 'Pin').getByRole('button', { name: 'Duplicate' }).click();
  await expect(entry(page, 'Pin (copy)')).toBeVisible();
  await entry(page, 'Pin (copy)').getByRole('button', { name: 'Rename' }).click();
  await page.getByRole('textbox', { name: 'New title of Pin (copy)' }).fill('Longer pin');
  await page.keyboard.press('Enter');
  await entry(page, 'Longer pin').getByRole('button', { name: 'Into the trash' }).click();
  await expect(entry(page, 'Longer pin')).toHaveCount(0);
  await shelf(page).getByRole('button', { name: 'Trash (1)' }).click();
  await entry(page, 'Longer pin').getByRole('button', { name: 'Take back' }).click();
  await shelf(page).getByRole('button', { name: 'Back to the parts' }).click();
  await entry(page, 'Longer pin').getByRole('button', { name: 'Open' }).click();
  await expect(title(page)).toHaveText('Longer pin');
  await page.getByRole('button', { name: 'Undo: Title to Longer pin' }).click();
  await expect(title(page)).toHaveText('Pin (copy)');
});

test('every part keeps its own steps, also over a reload', async ({ page }) => {
  await withTwo(page);
  await page.getByRole('textbox', { name: 'Title' }).fill('Axle, changed');
  await page.keyboard.press('Enter');
  await entry(page, 'Pin').getByRole('button', { name: 'Open' }).click();
  await expect(title(page)).toHaveText('Pin');
  await page.reload();
  await expect(title(page)).toHaveText('Pin');
  await openShelf(page);
  await entry(page, 'Axle, changed').getByRole('button', { name: 'Open' }).click();
  await page.getByRole('button', { name: 'Undo: Title to Axle, changed' }).click();
  await expect(title(page)).toHaveText('Axle');
});

test('a version is kept by name, and going back to it can be undone', async ({ page }) => {
  await withTwo(page);
  await shelf(page).getByRole('textbox', { name: 'Name of the version' }).fill('as drawn');
  await shelf(page).getByRole('button', { name: 'Keep as it is now' }).click();
  await expect(shelf(page).getByText('as drawn')).toBeVisible();
  await page.getByRole('textbox', { name: 'Title' }).fill('Spoilt');
  await page.keyboard.press('Enter');
  await shelf(page)
    .getByRole('listitem')
    .filter({ hasText: 'as drawn' })
    .getByRole('button', { name: 'Go back to it' })
    .click();
  await expect(title(page)).toHaveText('Axle');
  await page.getByRole('button', { name: 'Undo: Go back to as drawn' }).click();
  await expect(title(page)).toHaveText('Spoilt');
});

test('everything goes into one file, and comes out of it in another browser', async ({ page, browser }) => {
  await withTwo(page);
  const file = await downloadOf(page, () =>
    shelf(page).getByRole('button', { name: 'Save all to a file' }).click(),
  );
  expect(file.name).toMatch(/^shaftwright-parts-\d{4}-\d\d-\d\d\.json$/);
  const other = await (await browser.newContext()).newPage();
  await other.goto('/');
  await expect(title(other)).toHaveText('Forge-blower shaft');
  await dropFile(other, file.name, file.bytes.toString());
  await expect(other.getByText(/2 parts are on the shelf/)).toBeVisible();
  await openShelf(other);
  await expect(entry(other, 'Pin')).toBeVisible();
  await expect(entry(other, 'Axle')).toBeVisible();
});

test('a backup that is none is refused in one line, and changes nothing', async ({ page }) => {
  await withTwo(page);
  await dropFile(
    page,
    'bad.json',
    '{"shaftwright_backup": 1, "parts": [{"part": {"shaftwright": 1, "unit": 3}}]}',
  );
  await expect(page.getByRole('alert').filter({ hasText: 'bad.json' })).toHaveText(/^Refused\. /);
  await expect(title(page)).toHaveText('Axle');
});

test('a damaged record opens at its last good state, and harms no other part', async ({ page }) => {
  await withTwo(page);
  await page.getByRole('textbox', { name: 'Title' }).fill('Axle, changed');
  await page.keyboard.press('Enter');
  await expect(page.getByText('Kept in this browser', { exact: true })).toBeVisible();
  await page.evaluate(
    () =>
      new Promise<void>((resolve) => {
        const request = indexedDB.open('shaftwright');
        request.onsuccess = () => {
          const db = request.result;
          const tx = db.transaction(['heads', 'meta'], 'readwrite');
          const current = tx.objectStore('meta').get('current');
          current.onsuccess = () => {
            const heads = tx.objectStore('heads');
            const all = heads.getAll(IDBKeyRange.bound([current.result, 0], [current.result, 9]));
            all.onsuccess = () => {
              const newest = all.result.sort((a, b) => b.round - a.round)[0];
              newest.part.text = newest.part.text.slice(0, -20);
              heads.put(newest, [current.result, newest.round % 2]);
            };
          };
          tx.oncomplete = () => {
            db.close();
            resolve();
          };
        };
      }),
  );
  await page.reload();
  await expect(page.getByText(/damaged: its last good version is on the board/)).toBeVisible();
  await expect(title(page)).toHaveText('Axle');
  await openShelf(page);
  await entry(page, 'Pin').getByRole('button', { name: 'Open' }).click();
  await expect(title(page)).toHaveText('Pin');
});
