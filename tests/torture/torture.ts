// npm run torture [-- KILLS]: faults that a browser and a disk can have, against the built app; prints a table.
import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Browser, type Page } from 'playwright';
import { findChromium, noChromium } from '../../src/tools/find-chromium.mjs';
import { serve } from '../../src/tools/serve.mjs';

const kills = Number(process.argv[2] ?? 200);
const executable = findChromium();
if (executable === null) throw new Error(noChromium);
const { address, close } = await serve('dist', null);
const folder = await mkdtemp(join(tmpdir(), 'shaftwright-torture-'));
const headless = [
  '--headless=new',
  '--no-sandbox',
  '--no-first-run',
  '--remote-debugging-port=0',
  '--disable-gpu',
];

type Session = { readonly browser: Browser; readonly page: Page; readonly process: ChildProcess };

/** A browser of our own with its store at `profile`, so that it can be killed as a power cut would. */
async function start(profile: string): Promise<Session> {
  const portFile = join(profile, 'DevToolsActivePort');
  await rm(portFile, { force: true });
  // A group of its own: all its processes die in the same moment.
  const child = spawn(executable ?? '', [...headless, `--user-data-dir=${profile}`, 'about:blank'], {
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

async function kill({ browser, process: child }: Session): Promise<void> {
  const gone = new Promise((resolve) => child.once('exit', resolve));
  if (child.pid) process.kill(-child.pid, 'SIGKILL');
  await gone;
  // A connection to the dead may take its time to notice; nothing waits for it.
  void browser.close().catch(() => undefined);
}

const title = (page: Page) => page.locator('h1');
const status = (page: Page) => page.locator('footer [role=status]');
const ready = (page: Page) => page.locator('.shop:not([inert])').waitFor();

/** Types numbered titles, one after another, until the browser dies; gives the last that was said to be kept. */
async function edit(page: Page, from: number, acknowledged: (n: number) => void): Promise<void> {
  const field = page.getByRole('textbox', { name: 'Title' });
  for (let n = from; ; n += 1) {
    await field.fill(`Edit ${n}`);
    await field.press('Enter');
    await page.waitForFunction(
      (wanted) =>
        document.querySelector('h1')?.textContent === wanted &&
        document.querySelector('footer [role=status]')?.textContent?.trim() === 'Kept in this browser',
      `Edit ${n}`,
      { polling: 5 },
    );
    acknowledged(n);
  }
}

/** Kills the browser at random moments of an editing session. */
async function killed(): Promise<{ acknowledged: number; lost: number; steps: string }> {
  const profile = join(folder, 'killed');
  let [last, lost, badSteps, total] = [0, 0, 0, 0];
  for (let round = 0; round < kills; round += 1) {
    const session = await start(profile);
    await session.page.goto(address);
    await ready(session.page);
    const before = last;
    const editing = edit(session.page, last + 1, (n) => (last = n)).catch(() => undefined);
    await new Promise((resolve) => setTimeout(resolve, 150 + Math.random() * 1200));
    await kill(session);
    await editing;
    total += last - before;
    const after = await start(profile);
    await after.page.goto(address);
    await ready(after.page);
    const found = Number(/^Edit (\d+)$/.exec((await title(after.page).textContent()) ?? '')?.[1] ?? 0);
    if (found < last) lost += last - found;
    if (found > 0 && (await after.page.getByRole('button', { name: /^Undo: / }).count()) === 0) badSteps += 1;
    last = Math.max(last, found);
    await kill(after);
    if ((round + 1) % 10 === 0) console.log(`${round + 1} kills, ${total} edits acknowledged, ${lost} lost`);
  }
  return { acknowledged: total, lost, steps: badSteps === 0 ? 'whole' : `lost ${badSteps} times` };
}

/** One fault in a fresh browser: done to the page, then judged by what the page shows. */
async function fault(
  name: string,
  prepare: (page: Page) => Promise<unknown>,
  judge: (page: Page) => Promise<boolean>,
) {
  const session = await start(join(folder, name.replace(/\W+/g, '-')));
  try {
    await prepare(session.page);
    await session.page.goto(address);
    await ready(session.page);
    return (await judge(session.page)) ? 'survived' : 'NOT SURVIVED';
  } catch (why) {
    return `NOT SURVIVED: ${why instanceof Error ? why.message.split('\n')[0] : String(why)}`;
  } finally {
    await kill(session);
  }
}

const type = async (page: Page, text: string) => {
  const field = page.getByRole('textbox', { name: 'Title' });
  await field.fill(text);
  await field.press('Enter');
  await page.waitForFunction((wanted) => document.querySelector('h1')?.textContent === wanted, text);
};
const keptAgain = (page: Page) =>
  status(page)
    .filter({ hasText: /^\s*Kept in this browser\s*$/ })
    .waitFor({ timeout: 15_000 });
const nothing = () => Promise.resolve();

const full = () =>
  fault('no room left', nothing, async (page) => {
    await keptAgain(page);
    const cdp = await page.context().newCDPSession(page);
    await cdp.send('Storage.overrideQuotaForOrigin', { origin: new URL(address).origin, quotaSize: 1 });
    await type(page, 'No room');
    const said = status(page).getByRole('button', { name: 'Save a file' });
    await said.waitFor();
    await type(page, 'Work goes on');
    await cdp.send('Storage.overrideQuotaForOrigin', { origin: new URL(address).origin });
    await keptAgain(page);
    await page.reload();
    await ready(page);
    return (await title(page).textContent()) === 'Work goes on';
  });

/** Puts a script that fails in the place of one of the app's workers. */
const failing = (name: string, script: string) => (page: Page) =>
  page.addInitScript(
    ([part, body]) => {
      const Real = Worker;
      window.Worker = class extends Real {
        constructor(url: string | URL, options?: WorkerOptions) {
          const spoilt = String(url).includes(part ?? '');
          super(
            spoilt ? URL.createObjectURL(new Blob([body ?? ''], { type: 'text/javascript' })) : url,
            options,
          );
        }
      };
    },
    [name, script],
  );

const worker = () =>
  fault('the planner dies', failing('planner.worker', 'throw new Error("gone")'), async (page) => {
    await type(page, 'Without a plan');
    await keptAgain(page);
    await page.getByRole('navigation', { name: 'Places' }).getByRole('button', { name: 'Hold' }).click();
    await page
      .getByText(/No plan could be worked out/)
      .first()
      .waitFor();
    return (await title(page).textContent()) === 'Without a plan';
  });

const clock = () =>
  fault('the clock goes back', nothing, async (page) => {
    await type(page, 'Before');
    await keptAgain(page);
    await page.addInitScript(() => {
      const real = Date.now.bind(Date);
      Date.now = () => real() - 400 * 86_400_000;
    });
    await page.reload();
    await ready(page);
    await type(page, 'After');
    await keptAgain(page);
    await page.reload();
    await ready(page);
    const after = await title(page).textContent();
    await page.keyboard.press('Control+z');
    return after === 'After' && (await title(page).textContent()) === 'Before';
  });

const corrupt = () =>
  fault('a record is damaged', nothing, async (page) => {
    await type(page, 'Good');
    await keptAgain(page);
    await page.waitForTimeout(900);
    await type(page, 'Newest');
    await keptAgain(page);
    await page.evaluate(
      () =>
        new Promise<void>((resolve) => {
          const request = indexedDB.open('shaftwright');
          request.onsuccess = () => {
            const tx = request.result.transaction('heads', 'readwrite');
            const heads = tx.objectStore('heads');
            const all = heads.getAll();
            const keys = heads.getAllKeys();
            keys.onsuccess = () => {
              const newest = Math.max(...all.result.map(({ round }: { round: number }) => round));
              const at = all.result.findIndex(({ round }: { round: number }) => round === newest);
              heads.put({ ...all.result[at], part: { text: '{"x":', sum: 1 } }, keys.result[at]);
            };
            tx.oncomplete = () => (request.result.close(), resolve());
          };
        }),
    );
    await page.reload();
    await ready(page);
    await page.getByText(/last good version is on the board/).waitFor();
    return (await title(page).textContent()) === 'Good';
  });

const sheet = () =>
  fault(
    'the PDF fails half way',
    failing('sheet.worker', 'onmessage = () => { throw new Error("half way") }'),
    async (page) => {
      await type(page, 'Printed later');
      await keptAgain(page);
      await page.getByRole('navigation', { name: 'Places' }).getByRole('button', { name: 'Print' }).click();
      await page
        .getByText(/half way/)
        .first()
        .waitFor({ timeout: 40_000 });
      return (await title(page).textContent()) === 'Printed later';
    },
  );

try {
  const table: Record<string, string> = {};
  for (const [name, run] of [
    ['no room left', full],
    ['the planner dies', worker],
    ['a record is damaged', corrupt],
    ['the clock goes back', clock],
    ['the PDF fails half way', sheet],
  ] as const)
    console.log(`${name}: ${(table[name] = await run())}`);
  const { acknowledged, lost, steps } = await killed();
  console.log(
    `${kills} kills: ${acknowledged} edits acknowledged as kept, ${lost} lost; the steps of undo ${steps}`,
  );
  process.exitCode = lost === 0 && Object.values(table).every((end) => end === 'survived') ? 0 : 1;
} finally {
  void close();
  await rm(folder, { recursive: true, force: true, maxRetries: 3 });
}
process.exit(); // connections to killed browsers would hold it
