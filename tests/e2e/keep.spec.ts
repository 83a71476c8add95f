import { expect, test, type Page } from '@playwright/test';
import { dropFile, goTo, startOwn } from './app.ts';

const title = (page: Page) => page.getByRole('heading', { level: 1 });
const kept = (page: Page) => page.getByText('Kept in this browser', { exact: true });

async function typeTitle(page: Page, text: string) {
  await page.getByRole('textbox', { name: 'Title' }).fill(text);
  await page.keyboard.press('Enter');
  await expect(title(page)).toHaveText(text);
}

test('a reload brings the part back with its steps', async ({ page }) => {
  await page.goto('/');
  await typeTitle(page, 'Changed once');
  await page.waitForTimeout(1000); // entries closer than that are one typing
  await typeTitle(page, 'Changed twice');
  await expect(kept(page)).toBeVisible();
  await page.reload();
  await expect(title(page)).toHaveText('Changed twice');
  await page.keyboard.press('Control+z');
  await expect(title(page)).toHaveText('Changed once');
  await page.keyboard.press('Control+z');
  await expect(title(page)).toHaveText('Forge-blower shaft');
  await page.keyboard.press('Control+y');
  await expect(title(page)).toHaveText('Changed once');
});

test('undo and redo say what they would do', async ({ page }) => {
  await page.goto('/');
  await expect(page.getByRole('button', { name: /^Undo/ })).toBeDisabled();
  await page.getByRole('textbox', { name: 'Length B to C' }).fill('1/8');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Undo: Length B–C to 1/8' }).click();
  await expect(page.getByRole('textbox', { name: 'Length B to C' })).toHaveValue('3/32');
  await page.getByRole('button', { name: 'Redo: Length B–C to 1/8' }).click();
  await expect(page.getByRole('textbox', { name: 'Length B to C' })).toHaveValue('1/8');
});

test('Ctrl+S counts what is being typed as typed', async ({ page }) => {
  await page.addInitScript(() => Reflect.deleteProperty(window, 'showSaveFilePicker'));
  await page.goto('/');
  await page.getByRole('textbox', { name: 'Title' }).fill('Not entered yet');
  const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Control+s')]);
  expect(download.suggestedFilename()).toBe('not-entered-yet.json');
});

test('where the browser keeps nothing it is said, and the work goes on', async ({ page }) => {
  await page.addInitScript(() => {
    IDBFactory.prototype.open = () => {
      throw new DOMException('no', 'SecurityError');
    };
  });
  await page.goto('/');
  await expect(page.getByText(/save a file before you close this window/)).toBeVisible();
  await typeTitle(page, 'Still works');
  await page.keyboard.press('Control+z');
  await expect(title(page)).toHaveText('Forge-blower shaft');
});

test.describe('files that are none', () => {
  const bad: [kind: string, name: string, text: string][] = [
    ['broken JSON', 'torn.json', '{"shaftwright": 1, "title": "x"'],
    ['no part', 'letter.json', '{"dear": "reader"}'],
    ['a newer version', 'future.json', '{"shaftwright": 7}'],
    [
      'a bad field',
      'odd.json',
      '{"shaftwright":1,"title":"x","unit":"ell","faces":[{"id":"A","sketched":0}],"segments":[]}',
    ],
    ['a picture', 'photo.json', '\u0089PNG\r\n'],
  ];
  for (const [kind, name, text] of bad) {
    test(`${kind}: refused in one line that names the file, the part untouched`, async ({ page }) => {
      await page.goto('/');
      await expect(title(page)).toHaveText('Forge-blower shaft');
      await dropFile(page, name, text);
      await expect(page.getByRole('alert').filter({ hasText: name })).toHaveText(/^Refused\. /);
      await expect(title(page)).toHaveText('Forge-blower shaft');
      await expect(page.getByRole('button', { name: /^Undo/ })).toBeDisabled();
    });
  }
});

test('a dropped file opens anywhere, and undo brings back what was there', async ({ page }) => {
  await page.goto('/');
  await goTo(page, 'Cut');
  const part = {
    shaftwright: 1,
    title: 'Dropped pin',
    unit: 'mm',
    faces: [{ id: 'A' }, { id: 'B' }],
    segments: [{ id: 's1', form: 'cylinder', diameter: '8' }],
    lengths: [{ id: 'L1', from: 'A', to: 'B', size: '30' }],
  };
  await dropFile(page, 'pin.json', JSON.stringify(part));
  await expect(title(page)).toHaveText('Dropped pin');
  await page.keyboard.press('Control+z');
  await expect(title(page)).toHaveText('Forge-blower shaft');
});

test('the bench remembers where the work stopped', async ({ page }) => {
  await page.goto('/');
  await goTo(page, 'Turn');
  for (let cut = 0; cut < 3; cut += 1) await page.getByRole('button', { name: 'Done, tick it' }).click();
  await expect(page.getByText('3 ticked')).toBeVisible();
  await expect(page.getByRole('button', { name: /^Cut 4 of/ })).toBeVisible();
  await page.reload();
  await goTo(page, 'Turn');
  await expect(page.getByText('3 ticked')).toBeVisible();
  await expect(page.getByRole('button', { name: /^Cut 4 of/ })).toBeVisible();
});

test('a newcomer looks around the example, steps through its cuts, prints it, and starts an own part', async ({
  page,
}) => {
  await page.goto('/');
  await goTo(page, 'Cut');
  const heading = page.getByRole('heading', { level: 2 });
  await expect(heading).toHaveText(/^1\. /);
  await page.keyboard.press('ArrowRight');
  await expect(heading).toHaveText(/^2\. /);
  await page.getByRole('button', { name: 'Next' }).click();
  await expect(heading).toHaveText(/^3\. /);
  await goTo(page, 'Print');
  await expect(page.getByRole('button', { name: 'Download the PDF' })).toBeVisible();
  await startOwn(page);
  await expect(title(page)).toHaveText('Untitled shaft');
  await expect(page.getByText(/Type the diameter and the length of the first step/)).toBeVisible();
});

test('what is done while the app still opens is not lost to the work of the last visit', async ({ page }) => {
  await page.goto('/');
  await typeTitle(page, 'Kept part');
  await expect(kept(page)).toBeVisible();
  await page.addInitScript(() => {
    // A slow disk: the store answers half a second late.
    const open = IDBFactory.prototype.open;
    let late = false;
    IDBFactory.prototype.open = function (...given) {
      const request = open.apply(this, given);
      if (late) return request;
      late = true;
      const dispatch = request.dispatchEvent.bind(request);
      request.addEventListener(
        'success',
        (event) => {
          event.stopImmediatePropagation();
          setTimeout(() => dispatch(new Event('success')), 500);
        },
        { once: true },
      );
      return request;
    };
  });
  await page.reload();
  await startOwn(page);
  await expect(title(page)).toHaveText('Untitled shaft');
  await page.waitForTimeout(800);
  await expect(title(page)).toHaveText('Untitled shaft');
  await page.getByRole('button', { name: 'Undo: Start your own' }).click();
  await expect(title(page)).toHaveText('Kept part');
});

test('the browser is asked, once and at the first edit, not to clear the store by itself', async ({
  page,
}) => {
  await page.addInitScript(() => {
    let asked = 0;
    navigator.storage.persist = () =>
      Promise.resolve((document.documentElement.dataset['asked'] = `${++asked}`) !== '');
  });
  await page.goto('/');
  await expect(kept(page)).toBeVisible();
  const asked = page.locator('html');
  await expect(asked).not.toHaveAttribute('data-asked');
  await typeTitle(page, 'Changed once');
  await typeTitle(page, 'Changed twice');
  await expect(asked).toHaveAttribute('data-asked', '1');
});

test('an edit followed at once by closing the tab is kept, or the browser asks before it closes', async ({
  page,
  context,
}) => {
  await page.goto('/');
  await expect(kept(page)).toBeVisible();
  const asked = new Promise<'asked'>((resolve) => {
    page.once('dialog', (dialog) => {
      resolve('asked');
      void dialog.dismiss();
    });
  });
  const closed = new Promise<'closed'>((resolve) => page.once('close', () => resolve('closed')));
  await typeTitle(page, 'Changed and closed');
  await page.close({ runBeforeUnload: true });
  if ((await Promise.race([asked, closed])) === 'asked') {
    await expect(kept(page)).toBeVisible();
    await page.close({ runBeforeUnload: true });
    await closed;
  }
  const later = await context.newPage();
  await later.goto('/');
  await expect(title(later)).toHaveText('Changed and closed');
});
