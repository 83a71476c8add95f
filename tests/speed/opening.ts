// Run by: node src/tools/run-ts.mjs tests/speed/opening.ts
// How the app as built last (npm run build) opens, in headless Chromium: the size of the first load, which is tried alone: with
// every other script and style refused the board must still take an edit; the first picture beside a bare Svelte + Konva page that is
// built and opened in the same run, turn by turn; the heap with the example open and after 1 000 edits and undos; a start with the
// network off beside one with it on. Ends with code 1 where a goal is missed.
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type Browser, type Page } from 'playwright';
import { build } from 'vite';
import { findChromium, noChromium } from '../../src/tools/find-chromium.mjs';
import { serve } from '../../src/tools/serve.mjs';
import { firstLoad } from './tools/first-load.ts';
import { editAndUndo, firstVisit, heapOf, pictureAfter, watchedPage } from './tools/in-browser.ts';
import { Goals, table } from './tools/least.ts';

const TURNS = 9;
const EDITS = 1000;
/** Edits before the heap is first looked at: by then the browser has compiled what they call, which stays in the heap as well. */
const WARM = 500;
/** Caches of the browser grow and shrink by so much; an edit that is not let go of would weigh more over so many. */
const SWAY = 1.1;
/** Two medians of the same start differ by as much. */
const AS_GOOD_AS = 1.15;

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const dist = here('../../dist');
const goals = new Goals();
const kB = (bytes: number): string => (bytes / 1000).toFixed(1);
const median = (figures: readonly number[]): number =>
  [...figures].sort((a, b) => a - b)[Math.floor(figures.length / 2)] ?? Infinity;

/** That the board takes an edit with nothing but the files of the first load, the font and the example. */
async function mustSuffice(browser: Browser, address: string, files: Iterable<string>): Promise<void> {
  const wanted = new Set(files);
  const context = await browser.newContext({ serviceWorkers: 'block' });
  const page = await watchedPage(context);
  await page.route(/\.(?:js|css)$/, (route) => {
    const file = new URL(route.request().url()).pathname.slice(1);
    return wanted.has(file) ? route.continue() : route.abort();
  });
  await pictureAfter(page, address);
  await page.getByRole('button', { name: 'Start your own' }).first().click();
  await page.getByRole('button', { name: 'Add land' }).click();
  const board = await page.getByLabel(/^Drawing board/).boundingBox();
  if (!board) throw new Error('the board is not on the page');
  await page.mouse.click(board.x + board.width / 2, board.y + board.height * 0.4);
  await page.getByRole('button', { name: /^Undo/, disabled: false }).waitFor();
  await context.close();
}

async function sizes(browser: Browser, address: string): Promise<string[][]> {
  const files = await firstLoad(dist);
  await mustSuffice(browser, address, files.keys());
  const total = [...files.values()].reduce((sum, size) => sum + size, 0);
  const rows = [...files].map(([file, size]) => [file, kB(size), '', '']);
  return [...rows, ['first load', kB(total), '140', goals.atMost('first load, kB', total / 1000, 140)]];
}

async function firstPictures(browser: Browser, address: string, bare: string): Promise<string[]> {
  const [ours, theirs]: [number[], number[]] = [[], []];
  for (let turn = 0; turn < TURNS; turn++) {
    theirs.push(await firstVisit(browser, bare));
    ours.push(await firstVisit(browser, address));
  }
  const [a, b] = [median(ours), median(theirs)];
  const kept = goals.atMost('first picture / bare page', a / b, 1.5);
  return ['first picture, ms', a.toFixed(0), `${b.toFixed(0)} bare`, (a / b).toFixed(2), '1.5', kept];
}

async function heaps(browser: Browser, address: string): Promise<string[][]> {
  const context = await browser.newContext({ serviceWorkers: 'block' });
  const page = await watchedPage(context);
  await pictureAfter(page, address);
  await page.getByLabel('Title', { exact: true }).waitFor();
  await page.waitForLoadState('networkidle');
  const session = await context.newCDPSession(page);
  const open = await heapOf(session);
  await editAndUndo(page, WARM);
  await page.waitForTimeout(2000);
  const warm = await heapOf(session);
  await editAndUndo(page, EDITS);
  await page.waitForTimeout(2000); // what is kept and planned last is done by then
  const after = await heapOf(session);
  await context.close();
  const kept = goals.atMost('heap with the example, MB', open, 40);
  const back = goals.atMost('heap after 1 000 edits and undos / before', after / warm, SWAY);
  return [
    ['heap, MB', open.toFixed(1), '', '', '40', kept],
    [
      `after ${EDITS} more`,
      after.toFixed(1),
      `${warm.toFixed(1)} after ${WARM}`,
      (after / warm).toFixed(2),
      String(SWAY),
      back,
    ],
  ];
}

/** Starts of one page by turns with the network on and off, once the service worker has all files. */
async function starts(browser: Browser, address: string): Promise<string[]> {
  const context = await browser.newContext();
  const page: Page = await watchedPage(context);
  await pictureAfter(page, address);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await page.waitForTimeout(3000);
  const [online, offline]: [number[], number[]] = [[], []];
  for (let turn = 0; turn < TURNS; turn++) {
    online.push(await pictureAfter(page, address));
    await context.setOffline(true);
    offline.push(await pictureAfter(page, address));
    await context.setOffline(false);
  }
  await context.close();
  const [a, b] = [median(offline), median(online)];
  const kept = goals.atMost('start offline / online', a / b, AS_GOOD_AS);
  return [
    'start offline, ms',
    a.toFixed(0),
    `${b.toFixed(0)} online`,
    (a / b).toFixed(2),
    String(AS_GOOD_AS),
    kept,
  ];
}

const executablePath = findChromium();
if (executablePath === null) throw new Error(noChromium);
const folder = await mkdtemp(join(tmpdir(), 'shaftwright-bare-'));
await build({
  root: here('tools/bare'),
  base: './',
  configFile: false,
  logLevel: 'error',
  plugins: [svelte({ configFile: here('../../svelte.config.js') })],
  build: { outDir: folder, emptyOutDir: true, target: 'es2022' },
});
const [ours, bare] = [await serve(dist, 0), await serve(folder, 0)];
const browser = await chromium.launch({ executablePath });
try {
  table(['kB of gzip', 'size', 'at most', 'kept'], await sizes(browser, ours.address), 26);
  console.log('');
  table(
    ['', 'ours', 'beside', 'times', 'at most', 'kept'],
    [
      await firstPictures(browser, ours.address, bare.address),
      ...(await heaps(browser, ours.address)),
      await starts(browser, ours.address),
    ],
    17,
  );
} finally {
  await browser.close();
  void ours.close();
  void bare.close();
  await rm(folder, { recursive: true, force: true });
}
goals.end();
process.exit(); // connections of the browser would hold it
