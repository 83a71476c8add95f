import { expect, test, type Page } from '@playwright/test';
import { dropFile, goTo } from './app.ts';

/** The example with limits on every length that no way holds: the planner then seeks advice for a good while. */
async function tightShaft(page: Page): Promise<string> {
  const text = await page.evaluate(async () => (await fetch('examples/blower-shaft.json')).text());
  const shaft = JSON.parse(text) as { title: string; lengths: { tol?: string }[] };
  for (const length of shaft.lengths) length.tol = '±.0003';
  return JSON.stringify({ ...shaft, title: 'Tight shaft' });
}

/** Notes when the page asks a worker for a plan and when it answers, and how long the page stands still between frames. */
async function watchPlanner(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const seen = { asked: [] as number[], answered: [] as number[], stills: [] as [number, number][] };
    Object.assign(globalThis, { seen });
    const post = Worker.prototype.postMessage;
    Worker.prototype.postMessage = function (this: Worker, message: unknown, ...rest: []) {
      if (typeof message === 'object' && message !== null && 'ask' in message) {
        seen.asked.push(performance.now());
        this.addEventListener('message', () => seen.answered.push(performance.now()), { once: true });
      }
      post.call(this, message, ...rest);
    };
    let last = performance.now();
    const frame = (): void => {
      const now = performance.now();
      seen.stills.push([last, now - last]);
      last = now;
      requestAnimationFrame(frame);
    };
    requestAnimationFrame(frame);
  });
}

type Seen = { asked: number[]; answered: number[]; stills: [number, number][] };
const seenOn = (page: Page): Promise<Seen> =>
  page.evaluate(() => (globalThis as unknown as { seen: Seen }).seen);
const allAnswered = (page: Page) =>
  expect
    .poll(async () => {
      const { asked, answered } = await seenOn(page);
      return asked.length > 0 && asked.length === answered.length;
    })
    .toBe(true);

test('the board is zoomed without a stop while the planner is busy; of many edits the newest counts', async ({
  page,
}) => {
  await watchPlanner(page);
  await page.goto('/');
  await allAnswered(page);
  await dropFile(page, 'tight.json', await tightShaft(page));
  await expect(page.getByText('tight.json is on the board.')).toBeVisible();
  await goTo(page, 'Hold');
  await page.getByRole('combobox', { name: 'Live centre' }).selectOption({ label: 'bring it up' });
  await goTo(page, 'Check');

  const before = (await seenOn(page)).asked.length;
  for (let i = 0; i < 4; i += 1) {
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+y');
  }
  await page.keyboard.press('Control+z');
  await page.mouse.move(600, 250);
  for (let i = 0; i < 30; i += 1) await page.mouse.wheel(0, i % 2 === 0 ? -40 : 40);
  await allAnswered(page);
  const { asked, answered, stills } = await seenOn(page);
  const [begun, end] = [asked[before] ?? 0, answered.at(-1) ?? 0];
  const longest = Math.max(...stills.filter(([at]) => at >= begun && at <= end).map(([, ms]) => ms));
  const busy = end - begun;
  console.log(`planner busy ${busy.toFixed(0)} ms, longest still frame ${longest.toFixed(0)} ms`);
  // On the page's own thread the planner would hold up the frames for as long as it is busy.
  expect(busy).toBeGreaterThan(0);
  expect(longest).toBeLessThan(busy / 3);
});
