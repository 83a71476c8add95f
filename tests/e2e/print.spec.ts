import { expect, test, type Page } from '@playwright/test';
import { pageTexts, qpdfCheck, rendered } from '../sheet/pdf-tools.ts';
import { downloadOf, goTo } from './app.ts';

const pages = (page: Page) => page.getByRole('img', { name: /^Page \d+ of \d+/ });
const firstDrawn = (page: Page) => pages(page).first().locator('canvas');

/** How dark each of so many blocks across and down a page is, 0 to 255, as the canvas on screen has it. */
const shadesOnScreen = (page: Page, across: number, down: number): Promise<number[]> =>
  firstDrawn(page).evaluate(
    (canvas: HTMLCanvasElement, [columns, rows]) => {
      const small = document.createElement('canvas');
      const [w, h] = [Math.floor(canvas.width / columns), Math.floor(canvas.height / rows)];
      small.width = canvas.width;
      small.height = canvas.height;
      const pen = small.getContext('2d');
      if (!pen) return [];
      pen.drawImage(canvas, 0, 0);
      const shades: number[] = [];
      for (let row = 0; row < rows; row++)
        for (let column = 0; column < columns; column++) {
          const { data } = pen.getImageData(column * w, row * h, w, h);
          let sum = 0;
          for (let i = 0; i < data.length; i += 4) sum += data[i] ?? 255;
          shades.push(sum / (data.length / 4));
        }
      return shades;
    },
    [across, down] as const,
  );

test('the place shows the pages of the very file that it hands out', async ({ page }) => {
  const faults: string[] = [];
  page.on('pageerror', ({ message }) => faults.push(message));
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text());
  });
  await page.goto('/');
  const loaded: string[] = [];
  page.on('request', (request) => loaded.push(new URL(request.url()).pathname));
  const early = await page.evaluate(() => performance.getEntriesByType('resource').map(({ name }) => name));
  expect(early.filter((name) => /(sheet|pdf)[.-]/.test(name))).toEqual([]);
  await goTo(page, 'Print');
  await expect(firstDrawn(page)).toBeVisible();
  expect(loaded.some((name) => /sheet\.worker/.test(name))).toBe(true);

  const { name, bytes } = await downloadOf(page, () =>
    page.getByRole('button', { name: 'Download the PDF' }).click(),
  );
  expect(name).toBe('forge-blower-shaft.pdf');
  const pdf = new Uint8Array(bytes);
  expect(qpdfCheck(pdf)).toContain('No syntax or stream encoding errors found');
  await expect(pages(page)).toHaveCount(pageTexts(pdf).length);
  await expect(pages(page).first()).toHaveAccessibleName(/^Page 1 of \d+: Drawing$/);

  // Poppler's picture of the file and the canvas on screen are as dark at the same places.
  const [across, down] = [17, 22];
  const paper = rendered(pdf, 1, 72);
  const onScreen = await shadesOnScreen(page, across, down);
  const [w, h] = [Math.floor(paper.width / across), Math.floor(paper.height / down)];
  onScreen.forEach((shade, block) => {
    let sum = 0;
    for (let y = 0; y < h; y++)
      for (let x = 0; x < w; x++)
        sum +=
          paper.pixels[(Math.floor(block / across) * h + y) * paper.width + (block % across) * w + x] ?? 255;
    expect(Math.abs(sum / (w * h) - shade), `block ${block}`).toBeLessThan(24);
  });
  expect(Math.min(...onScreen)).toBeLessThan(240);
  expect(faults).toEqual([]);
});

test('choices change the pages; work that is stopped can be taken up; far pages let their dots go', async ({
  page,
}) => {
  await page.goto('/');
  await goTo(page, 'Print');
  await expect(firstDrawn(page)).toBeVisible();
  expect(await page.locator('.page canvas').count()).toBeLessThan(8);
  await page.getByRole('button', { name: 'A4' }).click();
  await expect(pages(page).first()).toHaveCSS('aspect-ratio', /^595\.2\d+ \/ 841\.[89]\d*/);
  for (const kind of [
    'Drawing',
    'Bar and tools',
    'Holdings',
    'Setting cards',
    'Stacks and chart',
    'Cautions',
  ])
    await page.getByRole('checkbox', { name: kind }).uncheck();
  await expect(pages(page).first()).toHaveAccessibleName(/Strips at true size/);
  await page.getByRole('textbox', { name: /100 mm on the strip page measures/ }).fill('99.5');
  await page.keyboard.press('Tab');
  await expect(page.getByText('Strips are drawn longer')).toBeVisible();
  const { bytes } = await downloadOf(page, () =>
    page.getByRole('button', { name: 'Download the PDF' }).click(),
  );
  expect(pageTexts(new Uint8Array(bytes))[0]).toContain('this printer made 99.5 mm of 100 mm');

  // A worker that never answers: only so is there time to stop it.
  await page.evaluate(() => {
    Worker.prototype.postMessage = () => undefined;
  });
  await page.getByRole('button', { name: 'All pages' }).click();
  await expect(page.getByRole('progressbar')).toBeVisible();
  await page.getByRole('button', { name: 'Stop' }).click();
  await expect(page.getByText('Stopped: no sheet was made.')).toBeVisible();
  await expect(pages(page)).toHaveCount(0);
  await expect(page.getByRole('button', { name: 'Make the sheet' })).toBeVisible();
});

test('a strip is a drawing in true millimetres; marks and cuts are tables', async ({ page }) => {
  await page.goto('/');
  await goTo(page, 'Print');
  const press = (name: RegExp) => downloadOf(page, () => page.getByRole('button', { name }).click());
  const strip = await press(/^Strip H3 from K/);
  expect(strip.name).toMatch(/\.svg$/);
  // On a screen a CSS millimetre is 96 / 25.4 px: CSS Values and Units 3, 6.2. From K to M the drawing says 1/2 in.
  // The app's own page takes no text as HTML, so the file is looked at on a bare one.
  const bare = await page.context().newPage();
  await bare.setContent(strip.bytes.toString('utf8'));
  const apart = await bare.evaluate(() => {
    const ticks = [...document.querySelectorAll('path')].filter((path) => {
      const { width, height } = path.getBBox();
      return width === 0 && height > 5;
    });
    const at = ticks.map((tick) => tick.getBoundingClientRect().x);
    return Math.max(...at) - Math.min(...at);
  });
  await bare.close();
  expect(Math.abs((apart * 25.4) / 96 - 12.7)).toBeLessThan(0.02);

  const marks = (await press(/^Marks \(CSV\)/)).bytes.toString('utf8').split('\r\n');
  expect(marks[0]).toContain('holding,station,reading');
  expect(marks.find((row) => row.startsWith('H3,M,'))).toContain('.5000');
  const cuts = (await press(/^Cuts \(CSV\)/)).bytes.toString('utf8').split('\r\n');
  expect(cuts[0]).toContain('holding,cut,kind');
  expect(cuts.length).toBeGreaterThan(50);
});

test('on a phone the pages come first, as wide as the screen', async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto('/');
  await goTo(page, 'Print');
  await expect(firstDrawn(page)).toBeInViewport();
  const box = await pages(page).first().boundingBox();
  expect(box?.width ?? 0).toBeGreaterThan(330);
  await page.getByText('Pages, printer and files').click();
  await expect(page.getByRole('checkbox', { name: 'Strips' })).toBeVisible();
});
