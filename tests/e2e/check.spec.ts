import { expect, test, type Page } from '@playwright/test';
import { readFileSync } from 'node:fs';
import { dropFile, goTo } from './app.ts';
import { axeFindings } from './axe.ts';
import { settledLook } from './board.ts';

type File = { title: string; lengths: { id: string; size: string }[]; requirements: object[] };
const winch = (): File =>
  JSON.parse(readFileSync('static/examples/winch-spindle-clash.json', 'utf8')) as File;

/** The winch spindle with its misread put right, so that two sizes are said twice, and a requirement. */
function doubled(): File {
  const part = winch();
  return {
    ...part,
    title: 'Doubled spindle',
    lengths: part.lengths.map((length) => (length.id === 'L2' ? { ...length, size: '.356' } : length)),
    requirements: [{ id: 'R1', from: 'A', to: 'D', min: '2.6025', max: '2.612', why: 'fits the housing' }],
  };
}

async function check(page: Page, part: File): Promise<void> {
  await page.goto('/');
  await expect(page.getByRole('navigation', { name: 'Places' })).toBeVisible();
  await dropFile(page, 'part.json', JSON.stringify(part));
  await expect(page.getByText(part.title).first()).toBeVisible();
  await goTo(page, 'Check');
}

test('doubled lengths are bracketed with one click, and one undo brings them back', async ({ page }) => {
  await check(page, doubled());
  const said = page.getByRole('heading', { level: 2 });
  await expect(said).toHaveText(/2 sizes are said twice/);
  await page.getByRole('button', { name: /^Bracket L\d+, L\d+$/ }).click();
  await expect(said).toHaveText(/none said twice/);
  await page.keyboard.press('Control+z');
  await expect(said).toHaveText(/2 sizes are said twice/);
});

test('what is no plain sum is tried out beside the page, and can be stopped', async ({ page }) => {
  await check(page, doubled());
  await page.getByRole('button', { name: /pieces at random/ }).click();
  await expect(page.getByText(/meet it; the true share lies between .* with 95 % confidence/)).toBeVisible();
  await expect(page.getByText(/^1,000,000 pieces kept of/)).toBeVisible();
  // A machine may be through before the mouse is there: both buttons are pressed from inside the page.
  await page.getByRole('button', { name: 'Try other pieces' }).evaluate(async (button: HTMLElement) => {
    const row = button.parentElement ?? button;
    button.click();
    await new Promise((resolve) => setTimeout(resolve));
    [...row.querySelectorAll('button')].find(({ textContent }) => textContent.trim() === 'Stop')?.click();
  });
  await expect(page.getByText(/then stopped|^Stopped before any piece/)).toBeVisible();
});

test('a stack between two stations is picked from the keyboard, and its lengths may fall otherwise', async ({
  page,
}) => {
  await page.goto('/');
  await goTo(page, 'Check');
  const picked = page.getByRole('region', { name: 'Between any two stations' });
  await picked.getByLabel('Stack from').focus();
  await page.keyboard.type('A');
  await picked.getByLabel('Stack to').focus();
  await page.keyboard.type('G');
  // 9 mm +0/-.15 mm, 1.0875 ±.003 and 7/16 ±1/64: worst case and root-sum-square by hand.
  const numbers = picked.getByRole('table').first();
  await expect(numbers.getByRole('row', { name: /worst case/ })).toContainText('1.8548');
  await expect(numbers.getByRole('row', { name: /worst case/ })).toContainText('1.8980');
  await expect(numbers.getByRole('row', { name: /root-sum-square/ })).toContainText('1.8602');
  const most = numbers.getByRole('row', { name: /99.73 %/ });
  const before = await most.textContent();
  await picked.getByText(/^L6 adds most/).click();
  await picked.getByLabel('How L6 falls').selectOption('anywhere alike');
  await expect(most).not.toHaveText(before ?? '');
});

/**
 * Presses the pointer along the shaft toward the left, from one share of the board's width to another, until a station is the end of the
 * stack: a press that can be repeated.
 */
async function pressFor(page: Page, id: string, [from, to]: readonly [number, number]) {
  const board = await page.getByLabel(/^Drawing board/).boundingBox();
  if (!board) throw new Error('the board is not on the page');
  for (let x = from * board.width; x >= to * board.width; x -= 5) {
    const press = () => page.mouse.click(board.x + x, board.y + 0.42 * board.height);
    const before = await page.getByLabel('Stack to').inputValue();
    await press();
    // A segment would bring its own left end with it.
    const [start, end] = [page.getByLabel('Stack from'), page.getByLabel('Stack to')];
    if ((await end.inputValue()) === id && (await start.inputValue()) === before) return press;
  }
  throw new Error(`${id} was not met`);
}

test('two stations pressed on the board are the ends of the stack', async ({ page }) => {
  await page.goto('/');
  await goTo(page, 'Check');
  const picked = page.getByRole('region', { name: 'Between any two stations' });
  const onH = await pressFor(page, 'H', [0.75, 0.55]);
  const onB = await pressFor(page, 'B', [0.4, 0.15]);
  await onB();
  await onH();
  await expect(picked.getByLabel('Stack from')).toHaveValue('B');
  await expect(picked.getByLabel('Stack to')).toHaveValue('H');
  // L7, 2.6500 ±.0040.
  const worst = picked
    .getByRole('table')
    .first()
    .getByRole('row', { name: /worst case/ });
  await expect(worst).toContainText('2.6460');
  await expect(worst).toContainText('2.6540');
});

test('what is gone over with the pointer in Check is lit on the board', async ({ page }) => {
  await page.goto('/');
  await goTo(page, 'Check');
  const before = await settledLook(page);
  const row = page.getByRole('region', { name: 'Limits shared out' }).getByRole('row', { name: /^L7/ });
  await row.hover();
  await settledLook(page, new Set([before]));
  await page.getByRole('heading', { level: 2 }).hover();
  await expect.poll(() => settledLook(page)).toBe(before);
});

test('limits are shared out and written with one click and one undo', async ({ page }) => {
  await page.goto('/');
  await goTo(page, 'Check');
  await page.getByRole('button', { name: 'Write these limits to the drawing' }).click();
  await expect(page.getByText('always met', { exact: true })).toHaveCount(2);
  const row = page.getByRole('region', { name: 'Limits shared out' }).getByRole('row', { name: /^L7/ });
  await expect(row.getByRole('cell').nth(1)).toHaveText('±.0050');
  await page.keyboard.press('Control+z');
  await expect(row.getByRole('cell').nth(1)).toHaveText('±.0040');
});

for (const colorScheme of ['light', 'dark'] as const) {
  test(`axe finds nothing in Check with clashes, proofs and trials, ${colorScheme}`, async ({ page }) => {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    for (const part of [winch(), doubled(), severalMisread()]) {
      await check(page, part);
      for (const summary of await page.locator('.check summary').all()) await summary.click();
      expect((await axeFindings(page)).map(({ say }) => say)).toEqual([]);
    }
  });
}

test('Check is no wider than a phone, with everything open', async ({ page }) => {
  await page.setViewportSize({ width: 360, height: 740 });
  for (const part of [doubled(), severalMisread()]) {
    await check(page, part);
    for (const summary of await page.locator('.check summary').all()) await summary.click();
    const panel = page.getByRole('region', { name: 'Check' });
    const [wide, room] = await panel.evaluate((element) => [element.scrollWidth, element.clientWidth]);
    expect(wide).toBeLessThanOrEqual(room ?? 0);
  }
});

function severalMisread(): File {
  const part = winch();
  const more = [
    { id: 'L7', from: 'B', to: 'E', size: '2.481' },
    { id: 'L8', from: 'A', to: 'E', size: '3.231' },
  ];
  const lengths = part.lengths.map((length) => (length.id === 'L4' ? { ...length, size: '2.660' } : length));
  return { ...part, title: 'Twice misread', lengths: [...lengths, ...more] };
}

test('several misreads are put right with one click and one undo', async ({ page }) => {
  await check(page, severalMisread());
  await expect(page.getByRole('heading', { name: 'Why no part can be made' })).toBeVisible();
  await page.getByRole('button', { name: 'Make L2 .356, L4 2.606' }).click();
  await expect(page.getByRole('heading', { level: 2 })).toHaveText(/said twice and agree/);
  await page.keyboard.press('Control+z');
  await expect(page.getByRole('heading', { level: 2 })).toHaveText(/^No part can be made/);
});
