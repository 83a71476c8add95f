// npm run pictures: makes docs/pictures from the built app (npm run build first) and from the sheet it prints.
// Wants a Chromium, and pdftoppm of poppler-utils.
import { chromium, type Browser, type Page } from 'playwright';
import { spawnSync } from 'node:child_process';
import { mkdir, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { run as plan } from '../cli/run.ts';
import { findChromium, noChromium } from './find-chromium.mjs';
import { serve } from './serve.mjs';

const top = fileURLToPath(new URL('../..', import.meta.url));
const pictures = join(top, 'docs', 'pictures');
// Pages carry a date; a fixed one keeps the pictures the same from run to run.
const DATE = '2031-04-01';

/** The board with the example that the app opens with, and the places that the docs show. */
async function board(): Promise<void> {
  const executablePath = findChromium();
  if (executablePath === null) throw new Error(noChromium);
  const { address, close } = await serve(join(top, 'dist'), 0);
  const browser = await chromium.launch({ executablePath });
  try {
    const page = await browser.newPage({
      viewport: { width: 1280, height: 800 },
      colorScheme: 'light',
      locale: 'en-US',
    });
    await page.goto(address);
    await page.getByText('Forge-blower shaft').first().waitFor();
    await page.evaluate(() => document.fonts.ready);
    await page.waitForLoadState('networkidle');
    const take = (name: string) =>
      page.screenshot({ path: join(pictures, `${name}.png`), animations: 'disabled' });
    await take('board');
    await page.keyboard.press('t');
    await page.getByRole('searchbox').first().waitFor();
    await take('tables');
    await page.keyboard.press('Escape');
    await showPlace(page, 'Check');
    await take('check-stacks');
    await showPlace(page, 'Hold');
    await take('hold');
    await page.getByLabel('Examples').selectOption('winch-spindle-clash.json');
    await page.getByText('Winch spindle').first().waitFor();
    await showPlace(page, 'Check');
    await take('check-clash');
    await page.getByLabel('Examples').selectOption('grindstone-spindle-traced.json');
    await page.getByText('Grindstone spindle').first().waitFor();
    await showPlace(page, 'Draw');
    await take('tracing');
    await bench(browser, address);
  } finally {
    await browser.close();
    await close();
  }
}

type Sight = {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  readonly dark?: boolean;
};

/** Turn as a phone and a tablet have it, and the codes that carry a part there. */
async function bench(browser: Browser, address: string): Promise<void> {
  await seen(browser, address, { name: 'turn-reading', width: 390, height: 844 }, (page) => turnTo(page, 25));
  await seen(browser, address, { name: 'turn-stop', width: 390, height: 844, dark: true }, async (page) => {
    await turnTo(page, 23);
    await page.getByRole('button', { name: 'Where face C came out' }).click();
    await page.getByRole('textbox', { name: /Where face C/ }).fill('.60');
    await page.getByRole('button', { name: 'Enter', exact: true }).click();
    await page.getByText('What can be done, and the new readings').click();
    await page.getByRole('region', { name: 'This cut' }).evaluate((cut) => cut.scrollTo(0, 0));
  });
  await seen(browser, address, { name: 'turn-taper', width: 1024, height: 768 }, async (page) => {
    await turnTo(page, 67);
    await page.getByText('Check the taper').click();
    await page.getByRole('textbox', { name: 'Smaller diameter' }).fill('.302');
    await page.getByRole('textbox', { name: 'Larger diameter' }).fill('.360');
    await page.getByRole('textbox', { name: 'Distance between them' }).fill('.5');
    await page.getByText('Check the taper').scrollIntoViewIfNeeded();
    await page
      .getByRole('region', { name: 'This cut' })
      .evaluate((cut) => cut.scrollTo(0, cut.querySelector('details')?.offsetTop ?? 0));
  });
  await seen(browser, address, { name: 'carry', width: 1280, height: 800 }, async (page) => {
    await page.getByRole('button', { name: 'To a phone' }).click();
    await page.getByRole('textbox', { name: 'Address for the phone' }).fill('192.168.1.20:4173');
    await page.getByRole('img', { name: /^Code 1 of/ }).waitFor();
  });
}

async function seen(
  browser: Browser,
  address: string,
  { name, width, height, dark = false }: Sight,
  act: (page: Page) => Promise<void>,
): Promise<void> {
  const page = await browser.newPage({
    viewport: { width, height },
    colorScheme: dark ? 'dark' : 'light',
    locale: 'en-US',
  });
  await page.goto(address);
  await showPlace(page, 'Turn');
  await page.getByRole('button', { name: /^Cut 1 of/ }).waitFor();
  await act(page);
  await page.screenshot({ path: join(pictures, `${name}.png`), animations: 'disabled' });
  await page.close();
}

async function turnTo(page: Page, n: number): Promise<void> {
  await page.getByRole('button', { name: /^Cut \d+ of/ }).click();
  await page
    .locator('section.bench ol button')
    .nth(n - 1)
    .click();
}

/** Goes to a place and waits until it has settled. */
async function showPlace(page: Page, name: string): Promise<void> {
  await page
    .getByRole('navigation')
    .getByRole('button', { name })
    .or(page.getByRole('tab', { name }))
    .or(page.getByRole('link', { name }))
    .first()
    .click();
  await page.waitForLoadState('networkidle');
  await page.waitForTimeout(800);
}

/** The number of the first page that has `words` on it. */
function pageWith(pdf: string, words: string): string {
  const { stdout, error } = spawnSync('pdftotext', [pdf, '-'], { encoding: 'utf8' });
  if (error) throw error;
  const found = stdout.split('\f').findIndex((page) => page.includes(words));
  if (found < 0) throw new Error(`no page of the sheet says “${words}”`);
  return String(found + 1);
}

/** The page of that example's sheet on which its first holding begins. */
async function sheet(): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), 'pictures-'));
  try {
    const pdf = join(folder, 'sheet.pdf');
    const { code, err } = await plan(
      [join(top, 'static', 'examples', 'blower-shaft.json'), '--pdf', pdf],
      DATE,
    );
    if (code !== 0) throw new Error(`the example was not planned: ${err}`);
    const page = pageWith(pdf, 'Holding H1');
    const place = ['-f', page, '-l', page, pdf, join(pictures, 'sheet')];
    const { status, error } = spawnSync('pdftoppm', ['-png', '-r', '90', '-singlefile', ...place]);
    if (status !== 0) throw error ?? new Error('pdftoppm could not draw the sheet');
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

await mkdir(pictures, { recursive: true });
await board();
await sheet();
