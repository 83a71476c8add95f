import { expect, test, type Page } from '@playwright/test';
import { readFile } from 'node:fs/promises';
import {
  concatTransformationMatrix,
  drawObject,
  PDFDocument,
  PDFName,
  popGraphicsState,
  pushGraphicsState,
} from 'pdf-lib';
import { fitPoints, toScreen, type Viewport } from '../../src/board/viewport.ts';
import { cornersOf, onDrawing, placed, roughly } from '../../src/core/tracing/place.ts';
import type { Pixel, Scan } from '../../src/core/tracing/scan.ts';
import { downloadOf, goTo, startOwn, withoutFilePickers } from './app.ts';

test.beforeEach(({ page }) => withoutFilePickers(page));

/** The old plan that ships, and what the script that draws it was told. */
const plan = new URL('../../static/examples/old-plan.webp', import.meta.url);
const faces = { A: 0, B: 0.75, C: 1.875, D: 2.125, E: 3.75, F: 4.375 } as const;
const sheet = { width: 1480, height: 800 };
/** The ends of the spindle on its centre line, to the pixel: picked by eye from the picture. */
const ends: readonly [Pixel, Pixel] = [
  [191, 322],
  [1284, 339],
];

type Drop = { readonly name: string; readonly type: string; readonly bytes: Buffer };

async function dropped(page: Page, { name, type, bytes }: Drop): Promise<void> {
  const transfer = await page.evaluateHandle(
    ([file, kind, data]) => {
      const holder = new DataTransfer();
      const content = Uint8Array.from(atob(data), (figure) => figure.charCodeAt(0));
      holder.items.add(new File([content], file, { type: kind }));
      return holder;
    },
    [name, type, bytes.toString('base64')] as const,
  );
  await page.dispatchEvent('body', 'drop', { dataTransfer: transfer });
}

const board = (page: Page) => page.getByLabel(/^Drawing board/);
const bar = (page: Page) => page.getByRole('toolbar', { name: 'Picture to trace' });
const press = (page: Page, name: string) => bar(page).getByRole('button', { name, exact: true }).click();

/** Presses on the board at a place of the drawing, mm; `view` as the board shows it. */
async function clicker(page: Page, view: (box: { width: number; height: number }) => Viewport) {
  const box = await board(page).boundingBox();
  if (!box) throw new Error('the board is not on the page');
  const shown = view(box);
  return async (at: { x: number; y: number }): Promise<void> => {
    const { x, y } = toScreen(shown, at);
    await page.mouse.click(box.x + x, box.y + y);
  };
}

/** How the board shows a picture that is not locked, with all of it in sight. */
const viewOf = (page: Page, scan: Scan) => clicker(page, (box) => fitPoints(cornersOf(scan), box));

const laid: Scan = { image: '', ...sheet, ...roughly(sheet.width, sheet.height, 200) };
const toScale = placed(laid, { from: ends[0], to: ends[1], size: '4 3/8', within: 2 }, 4.375 * 25.4);

async function openPlan(page: Page): Promise<void> {
  await page.goto('/');
  await startOwn(page);
  await dropped(page, { name: 'old-plan.webp', type: 'image/webp', bytes: await readFile(plan) });
  await expect(bar(page)).toBeVisible();
}

/** Chooses the first face by keys, and goes so many stations and segments to the right. */
async function alongTo(page: Page, steps: number): Promise<void> {
  await board(page).focus();
  for (let i = 0; i < 12; i += 1) await page.keyboard.press('ArrowLeft');
  for (let i = 0; i < steps; i += 1) await page.keyboard.press('ArrowRight');
}

async function place(page: Page): Promise<void> {
  const click = await viewOf(page, laid);
  await press(page, 'Place');
  for (const end of ends) await click(onDrawing(laid, end));
  await page.getByLabel('Size between the picks').fill('4 3/8');
  await page.keyboard.press('Enter');
  await expect(bar(page)).toContainText('To scale.');
}

async function size(page: Page, from: string, to: string, text: string): Promise<void> {
  await page.getByLabel('New length from').selectOption(from);
  await page.getByLabel('New length to').selectOption(to);
  await page.getByLabel('Size of the new length').fill(text);
  await page.keyboard.press('Enter');
}

test('a plan is dropped, brought to scale, straightened and traced; a size that was misread is told by the picture', async ({
  page,
}) => {
  await openPlan(page);
  await place(page);
  if (!toScale) throw new Error('the picture cannot be placed');

  // The picture lay askew by 0.9°; placing by both ends has straightened it already, doing so by hand changes nothing.
  await press(page, 'Straighten');
  const click = await viewOf(page, toScale);
  await click({ x: 0, y: 0 });
  await click({ x: 4.375 * 25.4, y: 0 });

  await page.getByRole('button', { name: 'Add land' }).click();
  for (const [face, radius] of [
    ['B', 0.25],
    ['C', 0.3125],
    ['D', 0.4375],
    ['E', 0.3125],
    ['F', 0.25],
  ] as const)
    await click({ x: faces[face] * 25.4, y: radius * 25.4 });
  await expect(bar(page)).toContainText('Traced: A, B, C, D, E, F');

  await size(page, 'A', 'B', '3/4');
  await size(page, 'A', 'C', '1 7/8');
  await size(page, 'C', 'D', '1/4');
  await size(page, 'E', 'F', '3/8');
  await size(page, 'A', 'F', '4 3/8');
  await goTo(page, 'Check');
  const head = page.getByRole('heading', { name: /^Every size closes/ });
  await expect(head).toContainText('The traced picture disagrees with L4: read it again.');
  const said = page.getByRole('region', { name: 'Check' }).getByRole('listitem');
  await expect(said.filter({ hasText: 'L4 is written 3/8' })).toContainText(/5\/8 would agree/);

  await goTo(page, 'Draw');
  await page.getByRole('textbox', { name: 'Length E to F', exact: true }).fill('5/8');
  await page.keyboard.press('Enter');
  await goTo(page, 'Check');
  await expect(head).not.toContainText('disagrees');
});

test('fading, locking and taking away are steps like any other; a reload keeps the picture, a file carries it', async ({
  page,
  browser,
}) => {
  await openPlan(page);
  await place(page);
  await bar(page).getByLabel('Fade').fill('0.5');
  await bar(page).getByLabel('Locked').check();
  await expect(bar(page).getByRole('button', { name: 'Place', exact: true })).toBeDisabled();
  await page.keyboard.press('Control+z');
  await expect(page.getByText('Undone: Picture locked.')).toBeVisible();
  await press(page, 'Take away');
  await expect(bar(page)).toBeHidden();
  await page.keyboard.press('Control+z');
  await expect(page.getByText('Undone: Picture taken away.')).toBeVisible();
  await expect(bar(page).getByLabel('Fade')).toHaveValue('0.5');
  await expect(page.getByText('Kept in this browser')).toBeVisible();

  const ink = () => board(page).locator('canvas.traced-picture').evaluate(darkPixels);
  await expect.poll(ink).toBeGreaterThan(500);
  await page.reload();
  await expect(bar(page)).toContainText('To scale.');
  await expect.poll(ink).toBeGreaterThan(500);

  const file = await downloadOf(page, () => page.getByRole('button', { name: 'Save', exact: true }).click());
  const { scan } = JSON.parse(file.bytes.toString()) as { scan: Scan };
  expect(scan.image).toMatch(/^data:image\/webp;base64,/);
  expect(scan).toMatchObject({ name: 'old-plan.webp', ...sheet, fade: 0.5, known: { size: '4 3/8' } });
  // The script that draws the plan lays it askew by 0.9°; 250 px to the inch are 9.84 to the millimetre.
  expect(scan.angle).toBeCloseTo(0.9, 1);
  expect(scan.scale).toBeCloseTo(250 / 25.4, 1);

  // All parts in one file carry theirs too.
  await page.getByRole('button', { name: 'Parts', exact: true }).click();
  const all = await downloadOf(page, () => page.getByRole('button', { name: 'Save all to a file' }).click());
  expect(all.bytes.toString()).toContain(scan.image);

  const elsewhere = await browser.newContext();
  const other = await elsewhere.newPage();
  await other.goto('/');
  await startOwn(other);
  await dropped(other, { name: file.name, type: 'application/json', bytes: file.bytes });
  await expect(bar(other)).toContainText('To scale.');
  await expect
    .poll(() => board(other).locator('canvas.traced-picture').evaluate(darkPixels))
    .toBeGreaterThan(500);
  await elsewhere.close();
});

/** Pixels of a canvas that carry ink, so that a picture is told from none. */
function darkPixels(canvas: HTMLElement | SVGElement): number {
  const pen = canvas instanceof HTMLCanvasElement ? canvas.getContext('2d') : null;
  if (!pen) return 0;
  const { data } = pen.getImageData(0, 0, pen.canvas.width, pen.canvas.height);
  let dark = 0;
  for (let i = 0; i < data.length; i += 4) if ((data[i + 3] ?? 0) > 60 && (data[i] ?? 0) < 110) dark += 1;
  return dark;
}

test('placing by the keyboard alone: a cross that arrows move, Enter picks', async ({ page }) => {
  await openPlan(page);
  await bar(page).getByRole('button', { name: 'Place', exact: true }).focus();
  await page.keyboard.press('Enter');
  await expect(board(page)).toBeFocused();
  for (let i = 0; i < 10; i += 1) await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('Enter');
  for (let i = 0; i < 20; i += 1) await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Enter');
  await expect(page.getByLabel('Size between the picks')).toBeFocused();
  await page.keyboard.type('2..5');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('alert').filter({ hasText: '2..5' })).toBeVisible();
  await page.keyboard.press('Control+a');
  await page.keyboard.type('2.5');
  await page.keyboard.press('Enter');
  await expect(bar(page)).toContainText('To scale.');
});

test('a picture is pasted from the clipboard, and opened by the button; a text that is pasted is none', async ({
  page,
}) => {
  await page.goto('/');
  await startOwn(page);
  const bytes = await readFile(plan);
  const pasted = (type: string, data: string) =>
    page.evaluate(
      ([kind, text]) => {
        const transfer = new DataTransfer();
        if (kind === 'text/plain') transfer.setData(kind, text);
        else {
          const content = Uint8Array.from(atob(text), (figure) => figure.charCodeAt(0));
          transfer.items.add(new File([content], 'image.webp', { type: kind }));
        }
        const event = new ClipboardEvent('paste', {
          clipboardData: transfer,
          bubbles: true,
          cancelable: true,
        });
        document.body.dispatchEvent(event);
      },
      [type, data] as const,
    );
  await pasted('text/plain', 'no picture');
  await expect(bar(page)).toBeHidden();
  await pasted('image/webp', bytes.toString('base64'));
  await expect(bar(page)).toContainText('Not to scale yet: Place it first.');
  await press(page, 'Take away');
  await expect(bar(page)).toBeHidden();

  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Trace a picture' }).click();
  await (await chooser).setFiles({ name: 'old-plan.webp', mimeType: 'image/webp', buffer: bytes });
  await expect(bar(page)).toContainText('Not to scale yet: Place it first.');
  await expect
    .poll(() => board(page).locator('canvas.traced-picture').evaluate(darkPixels))
    .toBeGreaterThan(500);
});

test('what is no picture to trace is refused in a sentence, and the part stays as it was', async ({
  page,
}) => {
  await page.goto('/');
  await startOwn(page);
  const bytes = (head: readonly number[], rest = 200) =>
    Buffer.from([...head, ...Array<number>(rest).fill(0)]);
  const png = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52];
  const cases: readonly (readonly [Drop, RegExp])[] = [
    [
      { name: 'a.svg', type: 'image/svg+xml', bytes: Buffer.from('<svg onload="alert(1)"/>') },
      /a\.svg cannot be traced: it is an SVG drawing/,
    ],
    [
      { name: 'b.png', type: 'image/png', bytes: Buffer.from('<html>no picture</html>') },
      /b\.png cannot be traced: it is a text with markup/,
    ],
    [
      { name: 'c.png', type: 'image/png', bytes: bytes([...png, 0, 0, 0xff, 0xff, 0, 0, 0xff, 0xff]) },
      /c\.png cannot be traced: 65535 by 65535 pixels are more than are opened here/,
    ],
    [
      { name: 'd.png', type: 'image/png', bytes: bytes([...png, 0, 0, 0, 9, 0, 0, 0, 9]) },
      /d\.png cannot be traced: the picture is damaged/,
    ],
    [
      { name: 'e.pdf', type: 'application/pdf', bytes: Buffer.from('%PDF-1.7\nnothing of the kind') },
      /e\.pdf cannot be traced: the PDF is damaged/,
    ],
  ];
  for (const [file, refused] of cases) {
    await dropped(page, file);
    await expect(page.getByRole('alert')).toContainText(refused);
    await expect(bar(page)).toBeHidden();
  }
});

/** A PDF of two pages, the second with a drawing. */
async function twoPages(): Promise<Buffer> {
  const pdf = await PDFDocument.create();
  pdf.addPage([595, 420]).drawText('Cover', { x: 100, y: 200 });
  const second = pdf.addPage([595, 420]);
  second.drawRectangle({ x: 100, y: 150, width: 300, height: 80, borderWidth: 3 });
  second.drawText('a pin', { x: 100, y: 300 });
  return Buffer.from(await pdf.save());
}

test('of a PDF a page is chosen and traced; what reads it is fetched only then, and nothing of it is run', async ({
  page,
}) => {
  const fetched: string[] = [];
  const faults: string[] = [];
  page.on('request', (request) => fetched.push(new URL(request.url()).pathname));
  const readers = () => fetched.filter((path) => /\bpdf/.test(path));
  page.on('console', (message) => message.type() === 'error' && faults.push(message.text()));
  await page.goto('/');
  await startOwn(page);
  expect(readers()).toEqual([]);
  await dropped(page, { name: 'plans.pdf', type: 'application/pdf', bytes: await twoPages() });
  const choice = page.getByRole('form', { name: 'Page to trace' });
  await expect(choice).toContainText('plans.pdf has 2 pages.');
  await choice.getByRole('combobox').selectOption('2');
  await choice.getByRole('button', { name: 'Trace this page' }).click();
  await expect(bar(page)).toBeVisible();
  await expect(choice).toBeHidden();
  await expect
    .poll(() => board(page).locator('canvas.traced-picture').evaluate(darkPixels))
    .toBeGreaterThan(100);
  expect(faults).toEqual([]);
  expect(readers().length).toBeGreaterThan(0);
});

/** How much of a picture is darker than half, from 0 to 1. */
async function shareOfInk(url: string): Promise<number> {
  const picture = new Image();
  picture.src = url;
  await picture.decode();
  const pen = new OffscreenCanvas(picture.width, picture.height).getContext('2d');
  if (!pen) throw new Error('no pen');
  pen.drawImage(picture, 0, 0);
  const { data } = pen.getImageData(0, 0, picture.width, picture.height);
  let dark = 0;
  for (let i = 0; i < data.length; i += 4) if ((data[i] ?? 255) < 128) dark += 1;
  return dark / (picture.width * picture.height);
}

/** A PDF whose one page is a scan, packed as it stands in a file of `scans`. */
async function scanned(file: string, filter: string, more: object = {}): Promise<Buffer> {
  const pdf = await PDFDocument.create();
  const page = pdf.addPage([320, 160]);
  const { context } = pdf;
  const bytes = await readFile(new URL(`scans/${file}`, import.meta.url));
  const picture = context.stream(bytes, {
    ...{ Type: 'XObject', Subtype: 'Image', Width: 320, Height: 160, ColorSpace: 'DeviceGray' },
    ...{ BitsPerComponent: filter === 'JPXDecode' ? 8 : 1, Filter: filter, ...more },
  });
  page.node.setXObject(PDFName.of('Scan'), context.register(picture));
  page.pushOperators(
    pushGraphicsState(),
    concatTransformationMatrix(320, 0, 0, 160, 0, 0),
    drawObject('Scan'),
    popGraphicsState(),
  );
  return Buffer.from(await pdf.save());
}

test.describe('with the app kept offline', () => {
  test.use({ serviceWorkers: 'allow' });
  for (const [kind, file, filter, more] of [
    ['JBIG2', 'pin.jb2', 'JBIG2Decode', {}],
    ['JPEG 2000', 'pin.jp2', 'JPXDecode', {}],
    ['fax', 'pin.g4', 'CCITTFaxDecode', { DecodeParms: { K: -1, Columns: 320, Rows: 160 } }],
  ] as const)
    test(`a scan that a PDF packs as ${kind} is traced, also with the network off`, async ({
      page,
      context,
    }) => {
      const faults: string[] = [];
      page.on('console', (message) => message.type() === 'error' && faults.push(message.text()));
      await page.goto('/');
      await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
      await page.reload();
      await expect
        .poll(() =>
          page.evaluate(async () => {
            const names = await caches.keys();
            const kept = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()));
            return kept.flat().some(({ url }) => url.includes('openjpeg'));
          }),
        )
        .toBe(true);
      await context.setOffline(true);
      await startOwn(page);
      const name = `${filter}.pdf`;
      await dropped(page, { name, type: 'application/pdf', bytes: await scanned(file, filter, more) });
      await expect(bar(page)).toBeVisible();
      // Of the pin's 51 200 dots 2 743 are ink: counted in the bitmap from which the three files were made.
      const saved = await downloadOf(page, () =>
        page.getByRole('button', { name: 'Save', exact: true }).click(),
      );
      const { scan } = JSON.parse(saved.bytes.toString()) as { scan: Scan };
      expect(await page.evaluate(shareOfInk, scan.image)).toBeCloseTo(2743 / 51_200, 2);
      expect(faults).toEqual([]);
    });
});

test('the example that was traced opens with its picture, and Check tells what disagrees', async ({
  page,
}) => {
  await page.goto('/');
  await page.getByLabel('Examples').selectOption('grindstone-spindle-traced.json');
  await expect(bar(page)).toContainText('Traced: A, B, C, D, E, F');
  await goTo(page, 'Check');
  await expect(page.getByRole('heading', { name: /The traced picture disagrees with L4/ })).toBeVisible();
  await expect(bar(page)).toBeHidden();
});

test('a land and a bore are marked by two picks each, and compared with the picture across', async ({
  page,
}) => {
  await openPlan(page);
  await place(page);
  if (!toScale) throw new Error('the picture cannot be placed');
  const click = await viewOf(page, toScale);
  const at = (face: keyof typeof faces, radius: number) => ({ x: faces[face] * 25.4, y: radius * 25.4 });
  await page.getByRole('button', { name: 'Add land' }).click();
  // Near the axis only where a land ends is meant, not how thick it is.
  for (const face of ['B', 'C', 'D', 'E', 'F'] as const) await click(at(face, 0.005));
  await page.keyboard.press('Escape');
  await page.keyboard.press('Escape');
  await expect(bar(page)).toContainText('Traced: A, B, C, D, E, F');
  await expect(bar(page)).not.toContainText('s2');

  const asked = (text: string) => page.locator('.asks').filter({ hasText: text });
  await alongTo(page, 3);
  await press(page, 'Mark s2');
  await expect(asked('Pick the outline of s2 in the picture at its left end.')).toBeVisible();
  await click(at('B', 0.3125));
  await click(at('B', 0.3125));
  await expect(asked('Pick the outline of s2 at its right end.')).toBeVisible();
  await click(at('C', -0.3125));
  await expect(bar(page)).toContainText('Traced: A, D, E, F, B, C, s2');
  await expect(asked('Pick the outline of s2')).toBeHidden();
  await page.keyboard.press('Enter');
  await page.keyboard.type('.3125');
  await page.keyboard.press('Enter');

  // The plan shows no bore: the outline of its first land, .500 across and 3/4 long, is taken for the wall of one.
  await alongTo(page, 0);
  const deeds = page.getByRole('group', { name: 'What can be done to what is chosen' });
  await deeds.getByRole('button', { name: 'bore', exact: true }).click();
  await page.keyboard.press('Escape');
  await press(page, 'Mark h1');
  await expect(asked('Pick the wall of h1 in the picture where the hole begins.')).toBeVisible();
  await click(at('A', 0.25));
  await click(at('B', 0.25));
  await expect(bar(page)).toContainText('C, s2, h1');

  await goTo(page, 'Check');
  const said = page.getByRole('region', { name: 'Check' }).getByRole('listitem');
  const about = (text: string) => said.filter({ hasText: text });
  await expect(about('s2 is written .3125')).toContainText(/about \.6[23] ± \.\d\d in/);
  await expect(about('h1 is written 1/4')).toContainText(/about \.50 ± \.\d\d in/);
  await expect(about('The depth of h1 is written 1/2')).toContainText(/about \.75 ± \.\d\d in/);
});
