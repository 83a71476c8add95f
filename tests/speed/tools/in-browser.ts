import type { Browser, BrowserContext, CDPSession, Page } from 'playwright';

/** Marks the first frame in which a canvas of the page holds ink, in milliseconds from the start of the visit. */
function markFirstPicture(): void {
  const probe = document.createElement('canvas');
  [probe.width, probe.height] = [64, 64];
  const context = probe.getContext('2d', { willReadFrequently: true });
  const inked = (canvas: HTMLCanvasElement) => {
    if (!context || canvas.width === 0 || canvas.height === 0) return false;
    context.imageSmoothingQuality = 'high'; // thin lines are not to fall through
    context.clearRect(0, 0, 64, 64);
    context.drawImage(canvas, 0, 0, 64, 64);
    return context.getImageData(0, 0, 64, 64).data.some((value) => value > 0);
  };
  const look = () => {
    if ([...document.querySelectorAll('canvas')].some(inked)) performance.mark('first picture');
    else requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}

/** A page that marks its first picture. */
export async function watchedPage(context: BrowserContext): Promise<Page> {
  const page = await context.newPage();
  await page.addInitScript(markFirstPicture);
  return page;
}

/** Milliseconds from the start of the visit to the first picture. */
export async function pictureAfter(page: Page, address: string): Promise<number> {
  await page.goto(address, { waitUntil: 'commit' });
  const found = await page.waitForFunction(
    () => performance.getEntriesByName('first picture')[0]?.startTime,
    undefined,
    { timeout: 60_000 },
  );
  return (await found.jsonValue()) ?? Infinity;
}

/** The same for a browser that was never there: nothing kept, no service worker. */
export async function firstVisit(browser: Browser, address: string): Promise<number> {
  const context = await browser.newContext({ serviceWorkers: 'block' });
  const ms = await pictureAfter(await watchedPage(context), address);
  await context.close();
  return ms;
}

/** What the page's heap holds, in MB, after the garbage is gone. */
export async function heapOf(session: CDPSession): Promise<number> {
  for (let turn = 0; turn < 3; turn++) await session.send('HeapProfiler.collectGarbage');
  const { usedSize } = await session.send('Runtime.getHeapUsage');
  return usedSize / 1e6;
}

/** So many edits of the title and as many undos, by turns of 50, each waiting for its frame. */
export async function editAndUndo(page: Page, edits: number): Promise<void> {
  await page.evaluate(async (count) => {
    const frame = () => new Promise((resolve) => requestAnimationFrame(resolve));
    const title = () => document.querySelector('h1')?.textContent;
    const label = [...document.querySelectorAll('label')].find((each) => each.textContent === 'Title');
    const field = label && document.getElementById(label.htmlFor);
    if (!(field instanceof HTMLInputElement)) throw new Error('no title to edit');
    const press = (where: EventTarget, init: KeyboardEventInit) =>
      where.dispatchEvent(new KeyboardEvent('keydown', { ...init, bubbles: true, cancelable: true }));
    const before = title();
    for (let done = 0; done < count; done += 50) {
      for (let i = 0; i < 50; i++) {
        field.value = `Shaft ${done + i}`;
        field.dispatchEvent(new InputEvent('input', { bubbles: true }));
        press(field, { key: 'Enter' });
        await frame();
      }
      if (title() !== `Shaft ${done + 49}`) throw new Error('the edits were not taken');
      for (let i = 0; i < 50; i++) {
        press(document.body, { key: 'z', code: 'KeyZ', ctrlKey: true });
        await frame();
      }
      if (title() !== before) throw new Error('the edits were not undone');
    }
  }, edits);
}
