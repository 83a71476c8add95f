import { expect, type Page } from '@playwright/test';
import { readPart } from '../../src/core/part/read-part.ts';
import type { Part } from '../../src/core/part/types.ts';
import { downloadOf } from './app.ts';

export type Spot = { readonly x: number; readonly y: number };

export const surface = (page: Page) => page.getByRole('application');

/** What is chosen, as the board says it aloud. */
export const spoken = async (page: Page): Promise<string> =>
  (await surface(page).getAttribute('aria-label')) ?? '';

/** The board's place in the window. */
export async function boardBox(page: Page) {
  const box = await surface(page).boundingBox();
  if (!box) throw new Error('the board is not on the page');
  return box;
}

/**
 * Where things lie along a line of the board, by what it says when each place is clicked: the middle of the run of
 * places that say the same. The canvas has nothing else that a test could ask. Leaves nothing chosen.
 */
export async function lookAlong(page: Page, from: Spot, to: Spot, step = 7): Promise<Map<string, Spot>> {
  const told = await surface(page).evaluate(
    async (element, line) => {
      // A made-up pointer cannot be captured; the board must not mind.
      const own = element.setPointerCapture;
      element.setPointerCapture = () => undefined;
      const found: { says: string; x: number; y: number }[] = [];
      const click = async (x: number, y: number) => {
        const at = { clientX: x, clientY: y, pointerId: 77, bubbles: true, button: 0 };
        element.dispatchEvent(new PointerEvent('pointerdown', at));
        element.dispatchEvent(new PointerEvent('pointerup', at));
        // What is chosen is said before the press is over. No frame is waited for: drawing each of some hundred places
        // took twenty times as long as asking for it.
        for (let turns = 0; turns < 4; turns += 1) await undefined;
      };
      const long = Math.hypot(line.to.x - line.from.x, line.to.y - line.from.y);
      const places = Array.from({ length: Math.floor(long / line.step) + 1 }, (_, i) => i * line.step);
      const half = Math.ceil(places.length / 2);
      // By turns from either half: two clicks near each other within a moment would be a double click.
      const order = places.slice(0, half).flatMap((at, i) => [at, places[half + i] ?? at]);
      for (const at of order) {
        const [x, y] = [
          line.from.x + ((line.to.x - line.from.x) * at) / long,
          line.from.y + ((line.to.y - line.from.y) * at) / long,
        ];
        await click(x, y);
        found.push({ says: element.getAttribute('aria-label')?.split(': ')[1] ?? '', x, y });
      }
      found.sort((one, other) => one.x - other.x || one.y - other.y);
      element.setPointerCapture = own;
      return found;
    },
    { from, to, step },
  );
  const spots = new Map<string, Spot>();
  for (const says of new Set(told.map((one) => one.says))) {
    const run = told.filter((one) => one.says === says);
    const middle = run[Math.floor(run.length / 2)];
    const key = /^(?:face|point|length \S+ to|\S+) \S+/.exec(says)?.[0].replace(/,$/, '');
    if (key && middle) spots.set(key, { x: middle.x, y: middle.y });
  }
  await page.mouse.click((await boardBox(page)).x + 4, (await boardBox(page)).y + 4);
  return spots;
}

/** Where the faces and points are, on the axis. */
export async function stationsOnBoard(page: Page): Promise<(id: string) => Spot> {
  const { x, width } = await boardBox(page);
  const axis = await axisOf(page);
  const spots = await lookAlong(page, { x: x + 6, y: axis }, { x: x + width - 6, y: axis }, 8);
  return (id) => {
    const spot = spots.get(`face ${id}`) ?? spots.get(`point ${id}`);
    if (!spot) throw new Error(`station ${id} is not on the board, only ${[...spots.keys()].join('; ')}`);
    return spot;
  };
}

/** The height of the axis: where, in the middle of the board, the middle of a segment is. */
export async function axisOf(page: Page): Promise<number> {
  const { x, y, width, height } = await boardBox(page);
  for (const share of [0.5, 0.42, 0.62, 0.34, 0.7]) {
    const at = x + width * share;
    const column = await segmentRun(page, { x: at, y: y + 6 }, { x: at, y: y + height - 6 });
    if (column !== null) return column;
  }
  throw new Error('no segment is on the board');
}

async function segmentRun(page: Page, from: Spot, to: Spot): Promise<number | null> {
  const spots = await lookAlong(page, from, to, 12);
  // Notes of other segments may stand above it.
  const lowest = [...spots].findLast(([says]) => !/^(face|point|length|hole|crossing|edge) /.test(says));
  return lowest?.[1].y ?? null;
}

/**
 * What the board looks like once it stands still, as text to be compared, and not yet as one of `before`: what was asked
 * for a moment ago may still have to be drawn.
 */
export async function settledLook(page: Page, before: ReadonlySet<string> = new Set()): Promise<string> {
  const board = page.getByLabel(/^Drawing board/);
  let [last, now] = ['', ''];
  await expect(async () => {
    [last, now] = [now, (await board.screenshot()).toString('base64')];
    expect(now === last && !before.has(now), 'the board stands still, and shows something else').toBe(true);
  }).toPass({ timeout: 20_000 });
  return now;
}

/** The part as it is saved. */
export async function savedPart(page: Page): Promise<Part> {
  const file = await downloadOf(page, () => page.getByRole('button', { name: 'Save', exact: true }).click());
  const read = readPart(file.bytes.toString(), file.name);
  if (!read.ok) throw new Error(read.problem.say);
  return read.value;
}

/** A person at the board whose every action is counted: a click, a drag, a typed size, a Tab, any other key. */
export class Counted {
  actions = 0;
  readonly #page: Page;

  constructor(page: Page) {
    this.#page = page;
  }

  async click(spot: Spot): Promise<void> {
    this.actions += 1;
    await this.#page.mouse.click(spot.x, spot.y);
  }

  async press(button: string): Promise<void> {
    this.actions += 1;
    await this.#page.getByRole('button', { name: button, exact: true }).first().click();
  }

  async drag(from: Spot, to: Spot): Promise<void> {
    this.actions += 1;
    await this.#page.mouse.move(from.x, from.y);
    await this.#page.mouse.down();
    await this.#page.mouse.move(to.x, to.y, { steps: 6 });
    await this.#page.mouse.up();
  }

  async type(size: string): Promise<void> {
    this.actions += 1;
    await this.#page.keyboard.type(size);
  }

  async key(key: string): Promise<void> {
    this.actions += 1;
    await this.#page.keyboard.press(key);
  }
}
