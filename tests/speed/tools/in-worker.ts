import type { Browser } from 'playwright';

const WORKER = /planner\.worker[^/]*\.js$/;

/** Put behind the worker's own script: how long each order takes it, the answer's posting included. */
const CLOCK = `
;{
  const answer = self.onmessage;
  self.spent = [];
  self.onmessage = (event) => {
    const from = performance.now();
    answer(event);
    self.spent.push(performance.now() - from);
  };
}`;

/**
 * Milliseconds on the clock from the first order that the app's planner gets to its answer, in a browser that was never
 * there: a fresh worker, nothing kept, no service worker. Whatever else runs on the machine meanwhile, the page itself
 * first of all, adds to it.
 */
export async function firstPlanInWorker(browser: Browser, address: string): Promise<number> {
  const context = await browser.newContext({ serviceWorkers: 'block' });
  await context.route(WORKER, async (route) => {
    const response = await route.fetch();
    await route.fulfill({ response, body: (await response.text()) + CLOCK });
  });
  const page = await context.newPage();
  const started = page.waitForEvent('worker', (worker) => WORKER.test(worker.url()));
  await page.goto(address);
  const worker = await started;
  const ms = await worker.evaluate(async () => {
    const clocked = globalThis as unknown as { spent?: number[] };
    const until = performance.now() + 30_000;
    while (clocked.spent?.[0] === undefined && performance.now() < until)
      await new Promise((resolve) => setTimeout(resolve, 20));
    return clocked.spent?.[0] ?? Infinity;
  });
  await context.close();
  return ms;
}
