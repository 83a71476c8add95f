import { afterEach, expect, test } from 'vitest';
import { userEvent } from 'vitest/browser';
import idler from '../../static/examples/idler-axle-open.json';
import { readPart } from '../../src/core/part/read-part.ts';
import type { Part } from '../../src/core/part/types.ts';
import type { Spot } from '../../src/board/viewport.ts';
import { BoardBench, pause } from './bench.svelte.ts';

let bench: BoardBench;
afterEach(() => bench.close());

function read(json: unknown): Part {
  const outcome = readPart(JSON.stringify(json), 'test.json');
  if (!outcome.ok) throw new Error(outcome.problem.say);
  return outcome.value;
}
const empty = { shaftwright: 1, title: 'new', unit: 'mm', faces: [{ id: 'A', sketched: 0 }] };
const lists = { segments: [], points: [], lengths: [] };

/** A mouse button pressed at one place and let go at another, with keys in between. */
async function dragWith(from: Spot, to: Spot, keys: string): Promise<void> {
  const box = bench.surface.getBoundingClientRect();
  const mouse = (type: string, { x, y }: Spot) =>
    bench.surface.dispatchEvent(
      new PointerEvent(type, {
        pointerId: 5,
        clientX: box.left + x,
        clientY: box.top + y,
        bubbles: true,
        cancelable: true,
      }),
    );
  // A made-up pointer cannot be captured; the board must not mind.
  bench.surface.setPointerCapture = () => undefined;
  bench.surface.focus();
  mouse('pointerdown', from);
  for (const share of [0.3, 0.6, 0.9])
    mouse('pointermove', { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share });
  if (keys) await bench.keys(keys);
  mouse('pointermove', to);
  mouse('pointerup', to);
  await pause(20);
}

test('Esc in the middle of a drag leaves the part as it was, and keeps the tool', async () => {
  bench = await BoardBench.of(read(idler));
  const face = bench.faceSpot('D');
  await dragWith(face, { x: face.x + 60, y: face.y }, '{Escape}');
  expect(bench.changes).toEqual([]);
  expect(bench.chosen).toEqual({ kind: 'station', id: 'D' });
  // The same drag without it moves the face.
  await dragWith(face, { x: face.x + 60, y: face.y }, '');
  expect(bench.changes).toHaveLength(1);
});

test('Esc in the middle of drawing a land out draws none, and the next one is drawn as ever', async () => {
  bench = await BoardBench.of(read({ ...empty, ...lists }));
  await bench.click({ x: 5, y: 5 });
  await bench.keys('a');
  await dragWith({ x: 120, y: 250 }, { x: 320, y: 180 }, '{Escape}');
  expect(bench.part.segments).toEqual([]);
  await dragWith({ x: 120, y: 250 }, { x: 320, y: 180 }, '');
  expect(bench.part.segments).toHaveLength(1);
});

test('Delete takes away all that is chosen, wherever the keys are', async () => {
  bench = await BoardBench.of(read(idler));
  bench.surface.focus();
  await bench.keys('{Control>}a{/Control}');
  bench.surface.blur();
  await bench.keys('{Delete}');
  expect(bench.part.segments).toEqual([]);
  expect(bench.changes).toHaveLength(1);
});

test('what was deleted elsewhere is no longer counted among what is chosen', async () => {
  bench = await BoardBench.of(read(idler));
  bench.surface.focus();
  await bench.keys('{Control>}a{/Control}');
  const more = bench.part.segments.length - 1;
  expect(bench.label).toContain(`and ${more} more`);
  bench.part = {
    ...bench.part,
    segments: bench.part.segments.slice(0, 1),
    faces: bench.part.faces.slice(0, 2),
  };
  await pause(20);
  expect(bench.label).not.toContain('more');
});

test('a land that gets longer than the paper shows leaves room for the next one right of it', async () => {
  bench = await BoardBench.of(read({ ...empty, ...lists }));
  await bench.click({ x: 5, y: 5 });
  await bench.keys('a');
  await bench.click({ x: 200, y: 250 });
  // The empty board shows some 150 mm.
  await bench.keys('40{Tab}400{Enter}');
  await bench.click({ x: 900, y: 250 });
  await bench.keys('{Escape}');
  expect(bench.part.segments).toHaveLength(2);
  expect(bench.part.lengths.map(({ size }) => size)).toEqual(['400']);
  const [, b, c] = bench.part.faces.map(({ sketched }) => sketched);
  expect(c).toBeGreaterThan(b ?? 0);
  expect(bench.part.lengths[0]).toMatchObject({ from: bench.part.faces[0]?.id, to: bench.part.faces[1]?.id });
});

test('however far the wheel is turned, the part stays to be seen', async () => {
  bench = await BoardBench.of(read(idler));
  const face = bench.faceSpot('B');
  const box = bench.surface.getBoundingClientRect();
  const turn = (deltaY: number) =>
    bench.surface.dispatchEvent(
      new WheelEvent('wheel', {
        deltaY,
        clientX: box.left + face.x,
        clientY: box.top + face.y,
        bubbles: true,
        cancelable: true,
      }),
    );
  for (let i = 0; i < 40; i += 1) turn(500);
  await pause(50);
  // About the pointer five times smaller: what was 200 px right of it is now 40.
  const { scene, view } = bench.fitted();
  const far = view.x + (scene.stations.find(({ id }) => id === 'C')?.x ?? 0) - face.x;
  await bench.click({ x: face.x + far / 5, y: face.y });
  expect(bench.chosen).toEqual({ kind: 'station', id: 'C' });
});

test('where the lengths asked for have no room, the board says so', async () => {
  const at = Array.from({ length: 33 }, (_, i) => 5 * i);
  const comb = {
    ...empty,
    ...lists,
    faces: at.map((sketched, i) => ({ id: `F${i}`, sketched })),
    segments: at.slice(1).map((_, i) => ({ id: `s${i}`, form: 'cylinder', diameter: i % 2 ? '20' : '18' })),
    lengths: at.slice(1).map((_, i) => ({ id: `L${i}`, from: `F${i}`, to: `F${i + 1}`, size: '5' })),
  };
  bench = await BoardBench.of(read(comb));
  const asks = () => document.querySelector('.asks')?.textContent ?? '';
  expect(asks()).toBe('');
  const how = document.querySelector<HTMLSelectElement>('select[aria-label="How lengths are shown"]');
  if (!how) throw new Error('no list of ways to show lengths');
  await userEvent.selectOptions(how, 'baseline');
  await pause(50);
  // 32 lanes at the least 21 px each are more than the 600 px of the board.
  expect(asks()).toContain('no room to write the lengths');
});

test('the form that repeats a stretch is seen to its last button, and so is what is wrong in it', async () => {
  bench = await BoardBench.of(read(idler), { width: 760, height: 600 });
  bench.chosen = { kind: 'segment', id: 's2' };
  await pause(100);
  bench.button('repeat …').click();
  await pause(50);
  const within = (element: Element | null) => {
    const box = element?.getBoundingClientRect();
    const board = bench.surface.getBoundingClientRect();
    return box !== undefined && box.width > 0 && box.left >= board.left && box.right <= board.right + 1;
  };
  expect(within(bench.button('Repeat'))).toBe(true);
  await bench.keys('1{Enter}');
  await pause(50);
  expect(within(document.querySelector('form .say'))).toBe(true);
});
