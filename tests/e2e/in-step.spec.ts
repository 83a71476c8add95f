import { expect, test, type Page } from '@playwright/test';

const title = (page: Page) => page.getByRole('heading', { level: 1 });
const foot = (page: Page) => page.getByRole('contentinfo');

/** The picker cannot be driven: it answers with a file of the browser's own, which is written and remembered alike. */
async function withFile(page: Page, asksAgain = false) {
  await page.addInitScript((asks) => {
    const chosen = async () =>
      (await navigator.storage.getDirectory()).getFileHandle('shaft.json', { create: true });
    Object.assign(window, { showSaveFilePicker: chosen });
    if (!asks) return;
    let allowed = false;
    Object.assign(FileSystemHandle.prototype, {
      queryPermission: async () => (allowed ? 'granted' : 'prompt'),
      requestPermission: async () => ((allowed = true), 'granted'),
    });
  }, asksAgain);
}
const fileText = (page: Page) =>
  page.evaluate(async () => {
    const folder = await navigator.storage.getDirectory();
    // A file that is written over between being taken and being read cannot be read: it is taken again.
    for (let tries = 1; ; tries++)
      try {
        return await (await (await folder.getFileHandle('shaft.json')).getFile()).text();
      } catch (fault) {
        if (tries === 5) throw fault;
      }
  });
const writeAside = (page: Page, text: string) =>
  page.evaluate(async (content) => {
    const folder = await navigator.storage.getDirectory();
    const out = await (await folder.getFileHandle('shaft.json')).createWritable();
    await out.write(content);
    await out.close();
  }, text);

async function typeTitle(page: Page, text: string) {
  const field = page.getByRole('textbox', { name: 'Title' });
  await field.fill(text);
  await field.press('Enter');
  await expect(title(page)).toHaveText(text);
}

test('a chosen file follows every edit, is taken up at the next visit, and is not written over when it was changed', async ({
  page,
}) => {
  await withFile(page);
  await page.goto('/');
  await expect(foot(page)).toContainText('No file copy yet');
  await foot(page).getByRole('button', { name: 'Keep a file in step' }).click();
  await expect(foot(page)).toContainText('In step with shaft.json');
  await typeTitle(page, 'Followed');
  await expect.poll(() => fileText(page)).toContain('"title": "Followed"');
  await expect(foot(page)).toContainText('Kept in this browser');

  await page.reload();
  await expect(foot(page)).toContainText('In step with shaft.json');
  const theirs = (await fileText(page)).replace('"Followed"', '"Theirs"');
  await writeAside(page, theirs);
  await typeTitle(page, 'Mine');
  await expect(foot(page)).toContainText('Something else changed shaft.json');
  expect(await fileText(page)).toBe(theirs);
  await foot(page).getByRole('button', { name: 'Open that one' }).click();
  await expect(title(page)).toHaveText('Theirs');
  await expect(foot(page)).toContainText('In step with shaft.json');
  await page.getByRole('button', { name: /^Undo: Open shaft.json/ }).click();
  await expect(title(page)).toHaveText('Mine');
  expect(await fileText(page)).toBe(theirs);
});

test('where the browser asks again, the file waits for a click', async ({ page }) => {
  await withFile(page);
  await page.goto('/');
  await foot(page).getByRole('button', { name: 'Keep a file in step' }).click();
  await expect(foot(page)).toContainText('In step with shaft.json');
  await withFile(page, true);
  await page.reload();
  await expect(foot(page)).toContainText('the browser wants to ask you again');
  await typeTitle(page, 'Waiting');
  expect(await fileText(page)).not.toContain('Waiting');
  await foot(page).getByRole('button', { name: 'Go on with it' }).click();
  await expect.poll(() => fileText(page)).toContain('Waiting');
});

test('a browser without such files offers none, and says when the last copy was made', async ({ page }) => {
  await page.addInitScript(() => Reflect.deleteProperty(window, 'showSaveFilePicker'));
  await page.clock.install();
  await page.goto('/');
  await typeTitle(page, 'Copied');
  await expect(foot(page).getByRole('button', { name: 'Keep a file in step' })).toHaveCount(0);
  await page.keyboard.press('Control+s');
  await expect(foot(page)).toContainText('Last file copy: copied.json, just now');
  await page.clock.fastForward(72 * 3_600_000 + 60_000);
  await expect(foot(page)).toContainText('Last file copy: copied.json, 3 days ago');
  await expect(foot(page)).toContainText('Kept in this browser');
});
