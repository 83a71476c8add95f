import { expect, test } from '@playwright/test';
import { readFileSync } from 'node:fs';
import { solveChains } from '../../src/core/chains/solve.ts';
import { readPart } from '../../src/core/part/read-part.ts';
import { resolvePart } from '../../src/core/part/resolve.ts';
import type { Part } from '../../src/core/part/types.ts';
import { withoutFilePickers } from './app.ts';
import { axisOf, boardBox, Counted, savedPart, stationsOnBoard, surface } from './board.ts';

test.beforeEach(async ({ page }) => withoutFilePickers(page));

const stateOf = (part: Part) => solveChains(resolvePart(part)).report.state;

test('a five-step pin from nothing to closed in at most 25 actions', async ({ page }) => {
  await page.goto('/');
  const hand = new Counted(page);
  await hand.press('Start your own');
  await hand.press('Add land');
  const { x, y, width, height } = await boardBox(page);
  const steps = [
    ['.375', '1/2'],
    ['.500', '1 1/4'],
    ['5/8', '.750'],
    ['.500', '3/4'],
    ['3/8', '7/16'],
  ] as const;
  for (const [i, [diameter, length]] of steps.entries()) {
    await hand.click({ x: x + width * (0.2 + 0.15 * i), y: y + height * 0.4 });
    await hand.type(diameter);
    await hand.key('Tab');
    await hand.type(length);
  }
  await hand.key('Enter');
  expect(hand.actions).toBeLessThanOrEqual(25);
  const part = await savedPart(page);
  expect(stateOf(part)).toBe('closed');
  expect(part.segments.map((s) => s.form === 'cylinder' && s.diameter)).toEqual(steps.map(([d]) => d));
  expect(part.lengths.map(({ size }) => size)).toEqual(steps.map(([, l]) => l));
});

/** What a plan says, whatever things are called: sizes in picometres, with their limits where they are written. */
function saidBy(part: Part) {
  const { lengths, segments, holes, crossings, edges } = resolvePart(part);
  const order = [...part.faces, ...part.points].map(({ id }) => id);
  const { stations } = solveChains(resolvePart(part)).report;
  const place = (id: string) => Math.round((stations[id]?.z_mm ?? NaN) * 1e4);
  const size = (s: { nominal: number; min: number; max: number; limitsFrom: string } | null) =>
    s && [s.nominal, ...(s.limitsFrom === 'written' ? [s.min, s.max] : [])].join(' ');
  return {
    stations: order.map(place).sort((a, b) => a - b),
    lengths: lengths.map((l) => `${place(l.from)} ${place(l.to)} ${size(l.size)}`).sort(),
    segments: segments.map((s) =>
      s.form === 'cylinder' ? size(s.diameter) : s.form === 'taper' ? [size(s.start), size(s.end)] : s.form,
    ),
    holes: holes.map(({ form }) => form).sort(),
    crossings: crossings.map(({ form, angleDeg }) => `${form} ${angleDeg}`).sort(),
    edges: edges.map(({ form, side }) => `${form} ${side}`).sort(),
  };
}

test('the blower shaft from nothing to closed: at most 2.5 actions for each size and segment on its plan', async ({
  page,
}) => {
  test.setTimeout(120_000);
  await page.goto('/');
  const hand = new Counted(page);
  await hand.press('Start your own');
  await hand.press('Add land');
  const { x, y, width, height } = await boardBox(page);
  const along = (share: number) => ({ x: x + width * share, y: y + height * 0.4 });
  // Clicked along the profile: each land's diameter as the plan says it, and its length where the plan gives one.
  const lands: readonly (readonly [size: string, length: string | null])[] = [
    ['10 mm h6', '9 mm +0/-.15 mm'],
    ['1/2', '3/32 ±.005'],
    ['7/16', null],
    ['.6870 +.0000/-.0010', '7/16'],
    ['.450', null],
    ['.6870 +.0000/-.0010', '7/16'],
    ['.4995/.4985', null],
    ['10 mm h6', '9 mm +0/-.15 mm'],
    ['', null],
    ['', '1/2'],
  ];
  for (const [i, [size, length]] of lands.entries()) {
    await hand.click(along(0.12 + 0.08 * i));
    if (size !== '') await hand.type(size);
    if (length === null) continue;
    await hand.key('Tab');
    await hand.type(length);
  }
  await hand.key('Enter');
  await hand.press('Choose');
  const axis = await axisOf(page);
  const middle = async (left: string, right: string) => {
    const at = await stationsOnBoard(page);
    return { x: (at(left).x + at(right).x) / 2, y: axis };
  };
  // The cone and the thread.
  await hand.click(await middle('J', 'K'));
  await hand.press('taper');
  for (const size of ['.375', '.300', '1:10']) {
    await hand.type(size);
    await hand.key(size === '1:10' ? 'Enter' : 'Tab');
  }
  await hand.click(await middle('K', 'L'));
  await hand.press('thread');
  await hand.type('M6x1-6g');
  await hand.key('Enter');
  // The lengths that begin at the left bearing stop, and the one in brackets.
  for (const [from, to, size] of [
    ['B', 'D', '.4000 ±.003'],
    ['B', 'F', '1.0875 ±.003'],
    ['B', 'H', '2.6500 ±.0040'],
    ['A', 'L', '4.609'],
  ] as const) {
    const at = await stationsOnBoard(page);
    await hand.key('l');
    await hand.click(at(from));
    await hand.click(at(to));
    await hand.type(size);
    await hand.key('Enter');
    if (size === '4.609') await hand.press('bracket it');
    await surface(page).focus();
    await hand.key('Escape');
  }
  // The paper is held from here on: nothing more moves a station.
  await page.mouse.move(x + 5, y + 5);
  await page.mouse.wheel(0, 1);
  hand.actions += 1;
  // Chamfers, the oil way and its tapped mouth, the grease hole, the keyseat.
  const at = await stationsOnBoard(page);
  for (const [station, size] of [
    ['A', '1/64'],
    ['L', '1/32'],
  ] as const) {
    await hand.click(at(station));
    await hand.press('chamfer');
    await hand.type(size);
    await hand.key('Enter');
  }
  await hand.click(at('A'));
  await hand.press('drilled hole');
  await hand.type('1/8');
  await hand.key('Tab');
  await hand.type('1 1/16');
  await hand.key('Enter');
  await hand.click(at('A'));
  await hand.press('tapped hole');
  for (const size of ['M5x0.8-6H', '3/8', '1/2']) {
    await hand.type(size);
    await hand.key(size === '1/2' ? 'Enter' : 'Tab');
  }
  // Above the drilled hole, which can be chosen too.
  await hand.click({ x: at('D').x * 0.65 + at('E').x * 0.35, y: at('D').y - 55 });
  await hand.press('cross hole');
  await hand.type('1/16');
  for (let sizesThatStand = 0; sizesThatStand < 3; sizesThatStand += 1) await hand.key('Tab');
  await hand.type('7/32');
  await hand.key('Enter');
  await hand.click({ x: (at('G').x + at('H').x) / 2, y: at('G').y });
  await hand.press('keyseat');
  for (const size of ['1/8', '.070', '90°', '3/4', '3/16']) {
    await hand.type(size);
    await hand.key(size === '3/16' ? 'Enter' : 'Tab');
  }

  const part = await savedPart(page);
  const example = readPart(
    readFileSync(new URL('../../static/examples/blower-shaft.json', import.meta.url), 'utf8'),
    'blower-shaft.json',
  );
  if (!example.ok) throw new Error(example.problem.say);
  expect(stateOf(part)).toBe('closed');
  expect(saidBy(part)).toEqual(saidBy(example.value));
  // On the plan: 10 segments; 8 diameters, the cone's two and its slope, a thread; 13 lengths; 2 chamfers; 5 sizes of holes along the
  // axis; a cross hole's diameter, a keyseat's width, depth and angle.
  const plan = 10 + 8 + 3 + 1 + 13 + 2 + 5 + 1 + 3;
  expect(hand.actions).toBeLessThanOrEqual(2.5 * plan);
});
