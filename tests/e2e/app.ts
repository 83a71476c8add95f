import { expect, type Page } from '@playwright/test';
import { readFile } from 'node:fs/promises';

/** The six places by name. */
export const placeNames = ['Draw', 'Check', 'Hold', 'Cut', 'Print', 'Turn'] as const;

export async function goTo(page: Page, place: (typeof placeNames)[number]): Promise<void> {
  const tab = page.getByRole('navigation', { name: 'Places' }).getByRole('button', { name: place });
  await tab.click();
  await expect(tab).toHaveAttribute('aria-current', 'page');
}

export async function startOwn(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Start your own' }).first().click();
}

/** A browser whose own file pickers cannot be driven saves by download and opens by a file input. */
export async function withoutFilePickers(page: Page): Promise<void> {
  await page.addInitScript(() => {
    Reflect.deleteProperty(window, 'showOpenFilePicker');
    Reflect.deleteProperty(window, 'showSaveFilePicker');
  });
}

/** What an action downloads: its name and its bytes. */
export async function downloadOf(
  page: Page,
  act: () => Promise<void>,
): Promise<{ name: string; bytes: Buffer }> {
  const [download] = await Promise.all([page.waitForEvent('download'), act()]);
  return { name: download.suggestedFilename(), bytes: await readFile(await download.path()) };
}

/** Drops a file on the page, as from the desktop. */
export async function dropFile(page: Page, name: string, text: string): Promise<void> {
  const transfer = await page.evaluateHandle(
    ([fileName, content]) => {
      const data = new DataTransfer();
      data.items.add(new File([content ?? ''], fileName ?? '', { type: 'application/json' }));
      return data;
    },
    [name, text],
  );
  await page.dispatchEvent('body', 'drop', { dataTransfer: transfer });
}
