import { expect, test, type Page } from '@playwright/test';
import { downloadOf, goTo, startOwn, withoutFilePickers } from './app.ts';
import { seriousFindings } from './axe.ts';
import { boardBox, lookAlong, savedPart, settledLook, spoken, stationsOnBoard, surface } from './board.ts';

test.beforeEach(async ({ page }) => withoutFilePickers(page));

const deed = (page: Page, name: string) =>
  page
    .getByRole('group', { name: 'What can be done to what is chosen' })
    .getByRole('button', { name, exact: true });
const undoName = async (page: Page) =>
  (await page.getByRole('button', { name: /^Undo/ }).getAttribute('aria-label')) ??
  (await page.getByRole('button', { name: /^Undo/ }).textContent()) ??
  '';

/** A touch of the wheel: from then on the paper stays where it is, whatever is written on it. */
async function holdPaper(page: Page): Promise<void> {
  const { x, y } = await boardBox(page);
  await page.mouse.move(x + 5, y + 5);
  await page.mouse.wheel(0, 1);
}

/** Three lands of 1/2 in, an inch each, by the keyboard. */
async function threeLands(page: Page): Promise<void> {
  await startOwn(page);
  await expect(page.locator('input:focus')).toBeVisible(); // the table comes after the board, and takes the keys then
  for (const size of ['1/2', '3/4', '1/2']) {
    await page.keyboard.type(size);
    await page.keyboard.press('Tab');
    await page.keyboard.type('1');
    await page.keyboard.press('Enter');
  }
}

test('everything a shaft carries is put on and sized on the board', async ({ page }) => {
  await page.goto('/');
  await threeLands(page);
  await holdPaper(page);
  const at = await stationsOnBoard(page);
  const on = async (x: number, name: string, ...sizes: string[]) => {
    await page.mouse.click(x, at('A').y);
    await deed(page, name).click();
    for (const [i, size] of sizes.entries()) {
      await page.keyboard.type(size);
      await page.keyboard.press(i + 1 < sizes.length ? 'Tab' : 'Enter');
    }
  };
  await on(at('A').x, 'chamfer', '1/16', '30°');
  await on(at('A').x, 'centre hole', '#3');
  await on(at('D').x, 'bore', '1/4', '3/8');
  await on((at('A').x + at('B').x) / 2, 'flat', '.050');
  const mid = (at('B').x + at('C').x) / 2;
  await on(mid, 'cross hole', '1/8', 'through');
  await page.mouse.click(mid + 0.3 * (at('C').x - at('B').x), at('A').y);
  expect(await spoken(page)).toContain('segment s2');
  await deed(page, 'groove').click();
  await page.keyboard.type('5/8');
  await page.keyboard.press('Enter');
  const part = await savedPart(page);
  expect(part.edges).toMatchObject([{ face: 'A', side: 'right', size: '1/16', angle: '30°' }]);
  expect(part.holes).toMatchObject([
    { form: 'centre', from: 'A', size: '#3' },
    { form: 'bore', from: 'D', diameter: '1/4', depth: '3/8' },
  ]);
  expect(part.crossings).toMatchObject([
    { form: 'flat', depth: '.050' },
    { form: 'hole', diameter: '1/8', reaches: 'through' },
  ]);
  expect(part.segments.map((s) => s.form === 'cylinder' && s.diameter)).toEqual([
    '1/2',
    '3/4',
    '5/8',
    '3/4',
    '1/2',
  ]);
  // What cannot be read is told beside the field, and Escape keeps what was there.
  await page.mouse.click(at('A').x, at('A').y);
  await deed(page, 'fillet').click();
  await page.keyboard.type('round');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('alert').filter({ hasText: /\w/ }).first()).toBeVisible();
  await page.keyboard.press('Escape');
  expect((await savedPart(page)).edges.at(-1)).toMatchObject({ form: 'fillet', radius: '1/64' });
});

test('segments are split, joined, swapped, doubled, repeated, turned round, and go from part to part', async ({
  page,
  context,
}) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write']);
  await page.goto('/');
  await threeLands(page);
  await holdPaper(page);
  const at = await stationsOnBoard(page);
  const line = async () =>
    (await savedPart(page)).segments.map((s) => (s.form === 'cylinder' ? s.diameter : s.form));
  const second = async () => page.mouse.click((at('B').x + at('C').x) / 2 + 14, at('A').y);
  const undo = async () => page.keyboard.press('Control+z');

  await second();
  await deed(page, 'split').click();
  expect(await line()).toEqual(['1/2', '3/4', '3/4', '1/2']);
  await page.keyboard.press('Escape');
  await undo();
  await second();
  await deed(page, 'swap with the next').click();
  expect(await line()).toEqual(['1/2', '1/2', '3/4']);
  await undo();
  await second();
  await deed(page, 'join with the next').click();
  expect(await line()).toEqual(['1/2', '3/4']);
  await undo();
  await second();
  await deed(page, 'repeat …').click();
  await page.getByLabel('in all').fill('3');
  await page.getByLabel('at a pitch of').fill('1 1/2');
  await page.keyboard.press('Enter');
  expect(await line()).toEqual(['1/2', '3/4', '1/2', '3/4', '1/2', '3/4', '1/2']);
  expect((await savedPart(page)).lengths.filter(({ size }) => size === '1 1/2')).toHaveLength(2);
  expect(await undoName(page)).toContain('s2 repeated 3 times');
  await undo();
  await page.mouse.click((await boardBox(page)).x + 5, (await boardBox(page)).y + 5);
  await deed(page, 'turn round').click();
  expect((await savedPart(page)).faces.map(({ id }) => id)).toEqual(['D', 'C', 'B', 'A']);
  await undo();

  // Copied here, pasted into a part in millimetres.
  await surface(page).focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Control+c');
  await page.getByRole('button', { name: 'mm', exact: true }).click();
  await startOwn(page);
  await surface(page).focus();
  await page.keyboard.press('Control+v');
  const pasted = await savedPart(page);
  expect(pasted.unit).toBe('mm');
  expect(pasted.segments).toMatchObject([{ diameter: '1/2 in' }]);
  expect(pasted.lengths).toMatchObject([{ size: '1 in' }]);
});

test('a size typed on the board is completed from the tables', async ({ page }) => {
  await page.goto('/');
  await threeLands(page);
  await surface(page).focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  await deed(page, 'thread').click();
  const field = page.getByLabel('Thread of s1', { exact: true });
  await expect(field).toBeFocused();
  // What is typed stays an ordinary text; an arrow goes to an option, Enter takes it and the field stays open.
  await page.keyboard.type('1/4-2');
  const options = page.getByRole('listbox').getByRole('option');
  await expect(options.first()).toBeVisible();
  await page.keyboard.press('ArrowDown');
  // ASME B1.1: the coarse thread of 1/4 in has 20 to the inch, the fine one 28.
  await expect(page.getByRole('listbox').getByRole('option', { selected: true })).toContainText('1/4-20 UNC');
  await page.keyboard.press('Enter');
  await expect(field).toHaveValue(/^1\/4-20 UNC/);
  await expect(options).toHaveCount(0);
  const taken = await field.inputValue();
  await page.keyboard.press('Enter');
  await expect(field).toBeHidden();
  expect((await savedPart(page)).segments[0]).toMatchObject({ form: 'thread', thread: taken });
  // Escape closes the list first, then leaves the field; the old size stays.
  await surface(page).focus();
  await page.keyboard.press('Enter');
  await field.fill('1/4-2');
  await expect(options.first()).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(options).toHaveCount(0);
  await expect(field).toBeFocused();
  await page.keyboard.press('Escape');
  await expect(field).toBeHidden();
  expect((await savedPart(page)).segments[0]).toMatchObject({ thread: taken });
});

test('a size is taken while its list is open: by Enter, by Tab, by a press elsewhere, without a fault', async ({
  page,
}) => {
  const faults: string[] = [];
  page.on('pageerror', (fault) => faults.push(fault.message));
  page.on('console', (line) => line.type() === 'error' && faults.push(line.text()));
  await page.goto('/');
  await threeLands(page);
  await surface(page).focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  await deed(page, 'thread').click();
  const field = page.getByLabel('Thread of s1', { exact: true });
  for (const [text, key] of [
    ['M6', 'Enter'],
    ['M8', 'Tab'],
    ['M10', 'click elsewhere'],
  ] as const) {
    if (!(await field.isVisible())) {
      await surface(page).focus();
      await page.keyboard.press('Enter');
    }
    await field.fill(text);
    await expect(page.getByRole('listbox').getByRole('option').first()).toBeVisible();
    if (key === 'click elsewhere') await page.getByRole('heading', { level: 1 }).click();
    else await page.keyboard.press(key);
    await expect(field).toBeHidden();
    expect((await savedPart(page)).segments[0]).toMatchObject({ thread: text });
  }
  expect(faults).toEqual([]);
});

test.describe('with buttons alone, as on a tablet', () => {
  test.use({ hasTouch: true, viewport: { width: 1024, height: 768 } });
  test('a land is tapped in, and the field that opens keeps the keys', async ({ page }) => {
    await page.goto('/');
    await startOwn(page);
    await page.getByRole('button', { name: 'Add land' }).tap();
    const { x, y, height } = await boardBox(page);
    await page.touchscreen.tap(x + 200, y + height * 0.35);
    const field = page.getByLabel('Diameter of s1', { exact: true });
    await expect(field).toBeFocused();
    await page.waitForTimeout(400);
    await expect(field).toBeFocused();
    await page.keyboard.type('3/4');
    // A tap elsewhere takes what was typed.
    await page.getByRole('button', { name: 'Choose', exact: true }).tap();
    await expect(field).toBeHidden();
    expect((await savedPart(page)).segments).toMatchObject([{ diameter: '3/4' }]);
  });

  test('segments are copied, cut and pasted, also into another part, and where the clipboard is refused', async ({
    page,
  }) => {
    // A browser that lets nobody at its clipboard.
    await page.addInitScript(() => {
      const refuse = () => Promise.reject(new DOMException('refused', 'NotAllowedError'));
      Object.assign(Clipboard.prototype, { readText: refuse, writeText: refuse });
    });
    await page.goto('/');
    await threeLands(page);
    await holdPaper(page);
    const line = async () =>
      (await savedPart(page)).segments.map((s) => (s.form === 'cylinder' ? s.diameter : s.form));
    const at = await stationsOnBoard(page);
    const told = page.getByRole('group', { name: 'What can be done to what is chosen' }).getByRole('status');
    await deed(page, 'paste').tap();
    await expect(told).toContainText('Nothing was copied here');
    const tapSegment = (left: string, right: string) =>
      page.touchscreen.tap((at(left).x + at(right).x) / 2 + 9, at('A').y);
    await tapSegment('B', 'C');
    await deed(page, 'copy').tap();
    await expect(told).toContainText('Copied for this window only');
    await deed(page, 'paste right of it').tap();
    expect(await line()).toEqual(['1/2', '3/4', '3/4', '1/2']);
    await page.getByRole('button', { name: /^Undo/ }).tap();
    await tapSegment('B', 'C');
    await deed(page, 'cut').tap();
    expect(await line()).toEqual(['1/2', '1/2']);
    await startOwn(page);
    await deed(page, 'paste').tap();
    await deed(page, 'paste right of it').tap();
    expect(await line()).toEqual(['3/4', '3/4']);
  });
});

test('boxes, Shift, lanes, the wheel, space, undo by name, and all of it after a reload', async ({
  page,
}) => {
  await page.goto('/');
  await threeLands(page);
  await holdPaper(page);
  const at = await stationsOnBoard(page);
  const box = await boardBox(page);
  const drag = async (from: { x: number; y: number }, to: { x: number; y: number }) => {
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(to.x, to.y, { steps: 8 });
    await page.mouse.up();
  };
  const one = (left: string, right: string) => ({ x: (at(left).x + at(right).x) / 2 + 9, y: at('A').y });

  // A box around everything, then one thing less by Shift.
  await drag({ x: box.x + 8, y: box.y + 8 }, { x: box.x + box.width - 8, y: box.y + box.height - 8 });
  expect(await spoken(page)).toMatch(/ and \d+ more/);
  await page.mouse.click(one('A', 'B').x, one('A', 'B').y);
  await page.keyboard.down('Shift');
  await page.mouse.click(one('B', 'C').x, one('B', 'C').y);
  await page.keyboard.up('Shift');
  expect(await spoken(page)).toContain('and 1 more');
  await expect(deed(page, 'duplicate')).toBeVisible();

  // The second length goes to another lane; it stays there after a reload, and is undone by name.
  const below = await lookAlong(
    page,
    { x: one('B', 'C').x, y: at('A').y },
    { x: one('B', 'C').x, y: box.y + box.height - 6 },
    4,
  );
  const length = below.get('length B to C');
  if (!length) throw new Error(`the length is not on the board, only ${[...below.keys()].join('; ')}`);
  await drag(length, { x: length.x, y: length.y + 60 });
  const lane = (await savedPart(page)).lengths[1]?.lane ?? 0;
  expect(lane).toBeGreaterThanOrEqual(2);
  // So long after the first move that it is a step of its own, however slow the machine is.
  await page.waitForTimeout(1000);
  await surface(page).focus();
  await page.keyboard.press('Shift+ArrowUp');
  expect((await savedPart(page)).lengths[1]?.lane).toBe(lane - 1);
  expect(await undoName(page)).toContain(`Length B–C put in lane ${lane}`);
  await expect(page.getByText('Kept in this browser')).toBeVisible();
  await page.reload();
  await expect(page.getByRole('button', { name: /^Undo/ })).toBeEnabled();
  await page.keyboard.press('Control+z');
  expect((await savedPart(page)).lengths[1]?.lane).toBe(lane);
  await page.keyboard.press('Control+z');
  expect((await savedPart(page)).lengths[1]?.lane).toBeUndefined();
  await page.keyboard.press('Control+y');
  await page.keyboard.press('Control+y');
  expect((await savedPart(page)).lengths[1]?.lane).toBe(lane - 1);

  // The wheel zooms about the pointer: what lies under it stays. Space and a drag move the paper.
  await holdPaper(page);
  // To the pixel: what is off here is further off when zoomed.
  const near = (await stationsOnBoard(page))('C');
  const closely = await lookAlong(page, { ...near, x: near.x - 20 }, { ...near, x: near.x + 20 }, 1);
  const face = closely.get('face C') ?? near;
  await page.mouse.move(face.x, face.y);
  await page.mouse.wheel(0, -300);
  await page.mouse.click(face.x, face.y);
  expect(await spoken(page)).toContain('face C');
  await page.keyboard.down('Space');
  await drag(face, { x: face.x - 120, y: face.y });
  await page.keyboard.up('Space');
  await page.mouse.click(face.x - 120, face.y);
  expect(await spoken(page)).toContain('face C');
  await page.keyboard.press('z');
  await page.keyboard.press('0');
  await holdPaper(page);
  const again = (await stationsOnBoard(page))('C');

  // A placed face that is pulled opens the length that holds it; typed over, the step has a name.
  await drag(again, { x: again.x + 40, y: again.y });
  await expect(page.getByRole('textbox', { name: 'Length B to C' }).first()).toBeFocused();
  await page.keyboard.type('1 5/8');
  await page.keyboard.press('Enter');
  expect(await undoName(page)).toContain('Length B–C to 1 5/8');
});

test('a land is drawn out, a loose face falls onto the rule, with Alt it goes free', async ({ page }) => {
  await page.goto('/');
  await startOwn(page);
  const box = await boardBox(page);
  const y = box.y + box.height / 2;
  const drag = async (x0: number, x1: number, y1: number) => {
    await page.mouse.move(x0, y);
    await page.mouse.down();
    await page.mouse.move(x1, y1, { steps: 8 });
    await page.mouse.up();
  };
  await page.getByRole('button', { name: 'Add land' }).click();
  await drag(box.x + 45, box.x + 300, y - 50);
  await page.keyboard.press('Escape');
  await drag(box.x + 300, box.x + 520, y - 80);
  await page.keyboard.press('Escape');
  await page.keyboard.press('Escape');
  const drawn = await savedPart(page);
  expect(drawn.segments).toHaveLength(2);
  /** In 64ths of an inch from the face before. */
  const steps = (part: typeof drawn) =>
    ((part.faces[1]?.sketched ?? 0) - (part.faces[0]?.sketched ?? 0)) * 64;
  const onRule = (n: number) => Math.abs(n - Math.round(n)) < 0.07;
  const at = await stationsOnBoard(page);
  const face = at('B');
  await drag(face.x, face.x + 37, face.y);
  const moved = await savedPart(page);
  expect(steps(moved)).toBeGreaterThan(steps(drawn));
  expect(onRule(steps(moved)), `${steps(moved)} sixty-fourths`).toBe(true);
  const again = (await stationsOnBoard(page))('B');
  const free: number[] = [];
  for (const by of [11, 23, 34]) {
    await page.keyboard.down('Alt');
    await drag(again.x, again.x + by, again.y);
    await page.keyboard.up('Alt');
    free.push(steps(await savedPart(page)));
    await page.keyboard.press('Control+z');
  }
  expect(
    free.some((n) => !onRule(n)),
    free.join(' '),
  ).toBe(true);
});

test('the same part in four presentations, in section, on a phone and with nothing serious for axe', async ({
  page,
}) => {
  await page.goto('/');
  await goTo(page, 'Draw');
  const seen = new Set<string>();
  for (const way of ['plan', 'chain', 'baseline', 'ordinate']) {
    await page.getByLabel('How lengths are shown').selectOption(way);
    await page.mouse.move(2, 2);
    seen.add(await settledLook(page, seen));
  }
  for (const view of ['outside', 'section']) {
    await page.getByLabel('How the part is shown').selectOption(view);
    seen.add(await settledLook(page, seen));
  }
  expect(seen.size).toBe(6);
  await page.getByRole('button', { name: 'More about station D' }).click();
  expect(await seriousFindings(page)).toEqual([]);
  // A phone: the tables have most of the page, the board is a strip above them that lengths have room in.
  await page.setViewportSize({ width: 390, height: 844 });
  const strip = await boardBox(page);
  expect(strip.height).toBeLessThan(844 * 0.38);
  expect(strip.width).toBeGreaterThan(380);
});

/** Fingers on the page: each event says where all of them are. */
async function fingersOn(page: Page) {
  const cdp = await page.context().newCDPSession(page);
  return (type: string, ...touchPoints: { x: number; y: number; id: number }[]) =>
    cdp.send('Input.dispatchTouchEvent', { type: type as 'touchStart', touchPoints });
}

test.describe('by touch and by pen', () => {
  test.use({ hasTouch: true, viewport: { width: 1024, height: 768 } });
  test('a finger that rests chooses besides, and moved on draws a box; one that trembles still taps', async ({
    page,
  }) => {
    await page.goto('/');
    await expect(surface(page)).toBeVisible();
    const at = await stationsOnBoard(page);
    const touch = await fingersOn(page);
    const rests = async (spot: { x: number; y: number }) => {
      await touch('touchStart', { ...spot, id: 1 });
      await page.waitForTimeout(600);
    };
    // It strays by some pixels, as fingers do: not yet a drag, which would take hold of the face.
    await touch('touchStart', { ...at('G'), id: 1 });
    await touch('touchMove', { x: at('G').x + 6, y: at('G').y + 3, id: 1 });
    await touch('touchEnd');
    await expect(surface(page)).toHaveAttribute('aria-label', /: face G[^,]*, [^,]*$/);
    await rests(at('H'));
    await expect(surface(page)).toHaveAttribute('aria-label', /: face G.*, and 1 more$/);
    await touch('touchEnd');
    await expect(surface(page)).toHaveAttribute('aria-label', /: face G.*, and 1 more$/);
    await rests(at('H'));
    await touch('touchEnd');
    await expect(surface(page)).not.toHaveAttribute('aria-label', /more$/);
    // From bare paper over the first lands.
    const { x, y, height } = await boardBox(page);
    const from = { x: x + 6, y: y + 4 };
    await rests(from);
    const to = { x: at('D').x + 8, y: y + height - 8 };
    for (let i = 1; i <= 6; i += 1)
      await touch('touchMove', {
        x: from.x + ((to.x - from.x) * i) / 6,
        y: from.y + ((to.y - from.y) * i) / 6,
        id: 1,
      });
    await touch('touchEnd');
    await expect(surface(page)).toHaveAttribute('aria-label', /: face G.*, and (?:[7-9]|\d\d) more$/);
  });

  test('beside a size that is typed stand what Tab and Esc do', async ({ page }) => {
    await page.goto('/');
    await startOwn(page);
    await page.getByRole('button', { name: 'Add land' }).tap();
    const { x, y, height } = await boardBox(page);
    await page.touchscreen.tap(x + 200, y + height * 0.35);
    const next = page.getByRole('button', { name: 'Take it and go to the next size that is missing' });
    await page.keyboard.type('1/2');
    expect((await next.boundingBox())?.height).toBeGreaterThanOrEqual(44);
    await next.tap();
    const long = page.getByLabel('Length A to B', { exact: true }).first();
    await expect(long).toBeFocused();
    await page.keyboard.type('1..5');
    await next.tap();
    await expect(page.getByRole('alert').filter({ hasText: '1..5' })).toBeVisible();
    await expect(long).toBeFocused();
    await page.getByRole('button', { name: 'Keep the old size' }).tap();
    await expect(next).toBeHidden();
    const { segments, lengths } = await savedPart(page);
    expect([segments[0], lengths]).toMatchObject([{ diameter: '1/2' }, []]);
  });

  test('a tap chooses, a finger pans, two fingers zoom about their middle, a pen draws a land', async ({
    page,
  }) => {
    await page.goto('/');
    await expect(surface(page)).toBeVisible();
    const at = await stationsOnBoard(page);
    const cdp = await page.context().newCDPSession(page);
    const touch = await fingersOn(page);
    const face = at('G');
    await touch('touchStart', { ...face, id: 1 });
    await touch('touchEnd');
    await expect(surface(page)).toHaveAttribute('aria-label', /face G/);
    // One finger where nothing is: the paper goes along.
    const box = await boardBox(page);
    const bare = { x: box.x + 20, y: box.y + 14 };
    await touch('touchStart', { ...bare, id: 1 });
    for (let i = 1; i <= 6; i += 1) await touch('touchMove', { x: bare.x + 10 * i, y: bare.y, id: 1 });
    await touch('touchEnd');
    await page.mouse.click(face.x + 60, face.y);
    await expect(surface(page)).toHaveAttribute('aria-label', /face G/);
    // Two fingers about the face: it stays where it is, and its neighbour goes twice as far.
    const apart = (r: number) => [
      { x: face.x + 60 - r, y: face.y, id: 1 },
      { x: face.x + 60 + r, y: face.y, id: 2 },
    ];
    await touch('touchStart', ...apart(40));
    for (let r = 45; r <= 80; r += 5) await touch('touchMove', ...apart(r));
    await touch('touchEnd');
    await page.mouse.click(face.x + 60, face.y);
    await expect(surface(page)).toHaveAttribute('aria-label', /face G/);
    const now = await stationsOnBoard(page);
    const wide = now('H').x - now('G').x;
    // Places are found to within a step of the looking on either side.
    expect(Math.abs(wide - 2 * (at('H').x - face.x))).toBeLessThan(24);
    // A pen on an empty board.
    await startOwn(page);
    await page.getByRole('button', { name: 'Add land' }).click();
    const own = await boardBox(page);
    const pen = (type: string, x: number, y: number) =>
      cdp.send('Input.dispatchMouseEvent', {
        type: type as 'mousePressed',
        x,
        y,
        button: 'left',
        buttons: type === 'mouseReleased' ? 0 : 1,
        clickCount: 1,
        pointerType: 'pen',
      });
    await pen('mousePressed', own.x + 45, own.y + own.height / 2);
    for (let i = 1; i <= 6; i += 1)
      await pen('mouseMoved', own.x + 45 + 40 * i, own.y + own.height / 2 - 8 * i);
    await pen('mouseReleased', own.x + 285, own.y + own.height / 2 - 48);
    await expect(page.getByRole('rowheader')).toHaveCount(2);
  });
});

test('by the keyboard alone: a new part drawn on the board, sized, a clash put right, printed', async ({
  page,
}) => {
  await page.goto('/');
  await startOwn(page);
  const tabTo = async (name: RegExp | string, most = 80) => {
    const wanted = typeof name === 'string' ? new RegExp(`^${name}$`) : name;
    for (let presses = 0; presses < most; presses += 1) {
      const said = await page.evaluate(() => {
        const now = document.activeElement;
        return now?.getAttribute('aria-label') ?? now?.textContent?.trim() ?? '';
      });
      if (wanted.test(said)) return;
      await page.keyboard.press('Tab');
    }
    throw new Error(`Tab never came to ${String(name)}`);
  };
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await tabTo(/^Drawing board/);
  // Three lands drawn with Enter, each with its diameter and length typed as they come.
  for (const [diameter, length] of [
    ['3/8', '1/2'],
    ['.500', '1 1/4'],
    ['3/8', '3/4'],
  ] as const) {
    await surface(page).focus();
    await page.keyboard.press('Escape');
    await page.keyboard.press('a');
    await page.keyboard.press('Enter');
    await page.keyboard.type(diameter);
    await page.keyboard.press('Tab');
    await page.keyboard.type(length);
    await page.keyboard.press('Enter');
  }
  await page.keyboard.press('Escape');
  // An overall length that does not fit: along the faces with L, from the first to the last.
  await page.keyboard.press('Escape');
  await page.keyboard.press('l');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Enter');
  for (let i = 0; i < 6; i += 1) await page.keyboard.press('ArrowRight');
  expect(await spoken(page)).toContain('face D');
  await page.keyboard.press('Enter');
  await page.keyboard.type('2 5/8');
  await page.keyboard.press('Enter');
  expect(await spoken(page)).toContain('length A to D, two and five eighths, clashes with others');
  // Put right where it stands: Enter types it anew.
  await page.keyboard.press('Enter');
  await page.keyboard.type('2 1/2');
  await page.keyboard.press('Enter');
  expect(await spoken(page)).toContain('length A to D, two and a half, said twice');
  await tabTo('bracket it');
  await page.keyboard.press('Enter');
  await expect(surface(page)).toHaveAttribute('aria-label', /reference/);
  await page.keyboard.press('Control+p');
  const pdf = await downloadOf(page, async () => {
    const button = page.getByRole('button', { name: 'Download the PDF' });
    await expect(button).toBeVisible();
    await tabTo('Download the PDF');
    await page.keyboard.press('Enter');
  });
  expect(pdf.bytes.subarray(0, 5).toString()).toBe('%PDF-');
});
