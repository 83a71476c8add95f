// Run by: node src/tools/run-ts.mjs tests/speed/long-part.ts
// Parts of 140 lands in the built app (npm run build first), in headless Chromium: processor time of the page when one is
// opened in Draw, and when Check is gone to. Closed with two long requirements; with a clash; and every length said twice, with a
// clash. The least of some rounds. Ends with code 1 where a goal is missed.
import { fileURLToPath } from 'node:url';
import { chromium, type Browser, type CDPSession, type Locator, type Page } from 'playwright';
import { findChromium, noChromium } from '../../src/tools/find-chromium.mjs';
import { serve } from '../../src/tools/serve.mjs';
import { longParts } from './tools/long-parts.ts';
import { Goals, table } from './tools/least.ts';

const ROUNDS = 3;
/** A person waits a moment for a part, and less to look at another side of it: common practice, no source. */
const LIMITS = { opened: 1500, Check: 600 } as const;

const goals = new Goals();
const dist = fileURLToPath(new URL('../../dist', import.meta.url));

/** Processor time of the page's main thread so far, ms: what other work on the machine cannot add to. */
async function worked(session: CDPSession): Promise<number> {
  const { metrics } = await session.send('Performance.getMetrics');
  return 1000 * (metrics.find(({ name }) => name === 'ThreadTime')?.value ?? NaN);
}

/** What an action costs the page, ms, until what it brings stands there and the page has come to rest. */
async function costOf(session: CDPSession, act: () => Promise<unknown>, brings: Locator): Promise<number> {
  const before = await worked(session);
  await act();
  await brings.waitFor();
  await brings.page().waitForTimeout(1500);
  return (await worked(session)) - before;
}

async function drop(page: Page, text: string): Promise<void> {
  const transfer = await page.evaluateHandle((content) => {
    const data = new DataTransfer();
    data.items.add(new File([content], 'long.json', { type: 'application/json' }));
    return data;
  }, text);
  await page.dispatchEvent('body', 'drop', { dataTransfer: transfer });
}

/** Opening the part, and going to Check, ms. */
async function round(browser: Browser, address: string, text: string): Promise<readonly [number, number]> {
  const context = await browser.newContext({
    serviceWorkers: 'block',
    viewport: { width: 1280, height: 800 },
  });
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  await session.send('Performance.enable');
  await page.goto(address);
  await page.getByLabel('Title', { exact: true }).waitFor();
  await page.waitForLoadState('networkidle');
  const row = page.locator('[aria-label="Delete length F139 to F140"]');
  const opened = await costOf(session, () => drop(page, text), row.first());
  const place = page.locator('nav[aria-label="Places"] button', { hasText: 'Check' });
  const checked = await costOf(session, () => place.click(), page.locator('#diameters-head'));
  await context.close();
  return [opened, checked];
}

const executablePath = findChromium();
if (executablePath === null) throw new Error(noChromium);
const server = await serve(dist, 0);
const browser = await chromium.launch({ executablePath });
const rows: string[][] = [];
for (const [name, part] of longParts(140)) {
  const found: (readonly [number, number])[] = [];
  for (let i = 0; i < ROUNDS; i++) found.push(await round(browser, server.address, JSON.stringify(part)));
  for (const [at, what] of (['opened', 'Check'] as const).entries()) {
    const ms = Math.min(...found.map((times) => times[at] ?? Infinity));
    const [row, limit] = [`${name}, ${what}`, LIMITS[what]];
    rows.push([row, ms.toFixed(0), String(limit), goals.atMost(row, ms, limit)]);
  }
}
await browser.close();
void server.close();
table(['work of the page, ms', 'ours', 'at most', 'kept'], rows, 44);
goals.end();
process.exit(); // connections of the browser would hold it
