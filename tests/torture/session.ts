import { spawn, type ChildProcess } from 'node:child_process';
import { readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { chromium, type Browser, type Page } from 'playwright';
import { findChromium, noChromium } from '../../src/tools/find-chromium.mjs';

/** A browser of our own with its store in a folder, so that it can be killed in one moment. */
export type Session = { readonly browser: Browser; readonly page: Page; readonly process: ChildProcess };

const headless = [
  '--headless=new',
  '--no-sandbox',
  '--no-first-run',
  '--remote-debugging-port=0',
  '--disable-gpu',
  // What a browser does besides showing a page, at every start anew.
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-default-apps',
  '--disable-extensions',
  '--disable-sync',
];

/** Starts Chromium with its store at `profile`. Throws where there is none, or it does not start in 30 s. */
export async function start(profile: string): Promise<Session> {
  const executable = findChromium();
  if (executable === null) throw new Error(noChromium);
  const portFile = join(profile, 'DevToolsActivePort');
  await rm(portFile, { force: true });
  // A group of its own: all its processes die in the same moment.
  const child = spawn(executable, [...headless, `--user-data-dir=${profile}`, 'about:blank'], {
    ...{ stdio: 'ignore', detached: true },
  });
  for (let tries = 0; tries < 300; tries += 1) {
    const port = await readFile(portFile, 'utf8').then(
      (text) => text.split('\n')[0],
      () => null,
    );
    const browser = port ? await chromium.connectOverCDP(`http://127.0.0.1:${port}`).catch(() => null) : null;
    const page = browser?.contexts()[0]?.pages()[0];
    if (browser && page) return { browser, page, process: child };
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error('The browser did not start.');
}

export async function kill({ browser, process: child }: Session): Promise<void> {
  const gone = new Promise((resolve) => child.once('exit', resolve));
  if (child.pid) process.kill(-child.pid, 'SIGKILL');
  await gone;
  // A connection to the dead may take its time to notice; nothing waits for it.
  void browser.close().catch(() => undefined);
}

export const title = (page: Page) => page.locator('h1');
export const status = (page: Page) => page.locator('footer [role=status]');
export const ready = (page: Page) => page.locator('.shop:not([inert])').waitFor();
export const place = (page: Page, name: string) =>
  page.getByRole('navigation', { name: 'Places' }).getByRole('button', { name }).click();

/** Types a title and waits until it is on the board. */
export async function type(page: Page, text: string): Promise<void> {
  const field = page.getByRole('textbox', { name: 'Title' });
  await field.fill(text);
  await field.press('Enter');
  await page.waitForFunction((wanted) => document.querySelector('h1')?.textContent === wanted, text);
}

/** Waits until the foot says that what is on the board is on the disk. */
export const keptAgain = (page: Page) =>
  status(page)
    .filter({ hasText: /^\s*Kept in this browser\s*$/ })
    .waitFor({ timeout: 15_000 });
