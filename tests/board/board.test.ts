import { afterEach, expect, test, vi } from 'vitest';
import blower from '../../static/examples/blower-shaft.json';
import idler from '../../static/examples/idler-axle-open.json';
import { readPart } from '../../src/core/part/read-part.ts';
import type { Part } from '../../src/core/part/types.ts';
import { BoardBench, pause, reportOf } from './bench.svelte.ts';

let bench: BoardBench;
afterEach(() => bench.close());

function read(json: unknown): Part {
  const outcome = readPart(JSON.stringify(json), 'test.json');
  if (!outcome.ok) throw new Error(outcome.problem.say);
  return outcome.value;
}
const empty = () =>
  read({
    shaftwright: 1,
    title: 'new',
    unit: 'mm',
    faces: [{ id: 'A', sketched: 0 }],
    segments: [],
    points: [],
    lengths: [],
  });

/** What is written on the canvases while something is done, and from where to where across, px. */
async function writtenWhile(does: () => Promise<void>) {
  const texts: { text: string; from: number; to: number }[] = [];
  const write = vi.spyOn(CanvasRenderingContext2D.prototype, 'fillText');
  write.mockImplementation(function (this: CanvasRenderingContext2D, text, x) {
    const { a, e } = this.getTransform();
    const from = (a * x + e) / devicePixelRatio;
    texts.push({ text, from, to: from + this.measureText(text).width });
  });
  await does();
  await pause(60);
  write.mockRestore();
  return texts;
}
const sketched = (id: string) => bench.part.faces.find((f) => f.id === id)?.sketched;

test('a click chooses what lies under it: a face, a length, a diameter, nothing', async () => {
  bench = await BoardBench.of(read(idler));
  await bench.click(bench.faceSpot('B'));
  expect(bench.chosen).toEqual({ kind: 'station', id: 'B' });
  await bench.click(bench.lengthSpot('L3'));
  expect(bench.chosen).toEqual({ kind: 'length', id: 'L3' });
  await bench.click(bench.noteSpot('s3'));
  expect(bench.chosen).toEqual({ kind: 'segment', id: 's3' });
  expect(bench.label).toContain('seat s3 from C to D, diameter 12 millimetres, g6');
  await bench.click({ x: 5, y: 5 });
  expect(bench.chosen).toBeNull();
  expect(bench.changes).toEqual([]);
});

test('dragging a face that nothing places moves the sketch, in one step, and all that is tied to it', async () => {
  bench = await BoardBench.of(read(idler));
  const from = bench.faceSpot('D');
  const { scale } = bench.fitted().view;
  await bench.drag(from, { x: from.x + 60, y: from.y + 20 });
  expect(bench.changes).toHaveLength(1);
  expect(bench.changes[0]?.edits.every((e) => e.kind === 'change' && e.list === 'faces')).toBe(true);
  // B to D is 40 in the sketch and lies between C (22, placed) and the open end: it moves by the pointer's way.
  expect(sketched('D')).toBeCloseTo(58 + 60 / scale, 0);
  expect((sketched('E') ?? 0) - (sketched('D') ?? 0)).toBeCloseTo(18, 1);
  expect(bench.part.lengths).toEqual(read(idler).lengths);
});

test('a loose face is not dragged past its neighbour', async () => {
  bench = await BoardBench.of(read(idler));
  const from = bench.faceSpot('D');
  await bench.drag(from, { x: bench.faceSpot('A').x, y: from.y });
  expect(bench.changes).toHaveLength(1);
  expect(sketched('D')).toBeGreaterThanOrEqual(22);
});

test('pulling a placed face changes nothing, but shows the length that holds it and opens it', async () => {
  bench = await BoardBench.of(read(idler));
  const from = bench.faceSpot('B');
  await bench.drag(from, { x: from.x + 40, y: from.y });
  expect(bench.changes).toEqual([]);
  expect(bench.chosen).toEqual({ kind: 'length', id: 'L2' });
  expect(bench.field?.value).toBe('4');
});

test('a double click types a length in place; Enter takes it', async () => {
  bench = await BoardBench.of(read(idler));
  await bench.double(bench.lengthSpot('L1'));
  expect(document.activeElement).toBe(bench.field);
  expect(bench.field?.value).toBe('18');
  await bench.keys('17.5{Enter}');
  expect(bench.changes.map((c) => c.did)).toEqual(['Length A–B to 17.5']);
  expect(bench.part.lengths[0]?.size).toBe('17.5');
  expect(bench.field).toBeNull();
  expect(document.activeElement).toBe(bench.surface);
});

test('Escape keeps the old size, and what cannot be read is told beside the field', async () => {
  bench = await BoardBench.of(read(idler));
  await bench.double(bench.lengthSpot('L1'));
  await bench.keys('5/0{Enter}');
  expect(bench.changes).toEqual([]);
  expect(bench.saidWrong).toContain('5/0');
  expect(bench.field?.getAttribute('aria-invalid')).toBe('true');
  await bench.keys('{Escape}');
  expect(bench.field).toBeNull();
  expect(bench.part).toEqual(read(idler));
});

test('a diameter is typed at its note, its tolerance replaced only by one typed with it', async () => {
  bench = await BoardBench.of(read(idler));
  await bench.double(bench.noteSpot('s1'));
  await bench.keys('9{Enter}');
  expect(bench.part.segments[0]).toMatchObject({ diameter: { size: '9', tol: 'h6' } });
  await bench.double(bench.noteSpot('s1'));
  await bench.keys('9 k5{Enter}');
  expect(bench.part.segments[0]).toMatchObject({ diameter: '9 k5' });
  expect(bench.changes).toHaveLength(2);
});

test('Tab goes on to the size that is missing, also to a length that is not drawn yet', async () => {
  bench = await BoardBench.of(read(idler));
  await bench.double(bench.lengthSpot('L2'));
  await bench.keys('5{Tab}');
  expect(bench.field?.value).toBe('');
  await bench.keys('36{Enter}');
  expect(bench.part.lengths.at(-1)).toMatchObject({ from: 'C', to: 'D', size: '36' });
  expect(bench.changes).toHaveLength(2);
});

test('a shaft drawn by clicks along its profile, then sized by Tab alone, closes', async () => {
  bench = await BoardBench.of(empty());
  await bench.keys('{Tab}');
  bench.button('Add land').click();
  await pause(20);
  for (const spot of [
    { x: 250, y: 250 },
    { x: 450, y: 200 },
    { x: 600, y: 240 },
  ])
    await bench.click(spot);
  expect(bench.part.segments).toHaveLength(3);
  expect(bench.part.faces.map((f) => f.id)).toEqual(['A', 'B', 'C', 'D']);
  bench.button('Choose').click();
  await bench.click({ x: 8, y: 8 });
  await bench.keys('{Enter}');
  for (const size of ['10 h6', '20', '12', '18', '30', '15']) await bench.keys(`${size}{Tab}`);
  expect(bench.part.segments.map((s) => s.form === 'cylinder' && s.diameter)).toEqual(['10 h6', '20', '12']);
  expect(bench.part.lengths.map((l) => [l.from, l.to, l.size])).toEqual([
    ['A', 'B', '18'],
    ['B', 'C', '30'],
    ['C', 'D', '15'],
  ]);
  expect(bench.field).toBeNull();
  expect(reportOf(bench.part).chains.state).toBe('closed');
});

for (const width of [1000, 390])
  test(`the first diameter on an empty board, and the last at its edge, are written whole, ${width} wide`, async () => {
    bench = await BoardBench.of(empty(), { width, height: 420 });
    bench.button('Add land').click();
    await pause(20);
    await bench.click({ x: width * 0.3, y: 170 });
    await bench.keys('12.34567{Enter}');
    await bench.click({ x: width * 0.6, y: 200 });
    await bench.click({ x: width - 8, y: 180 });
    const texts = await writtenWhile(() => bench.keys('17.65432{Enter}'));
    for (const says of ['Ø12.34567', 'Ø17.65432', 'not placed']) {
      const spans = texts.filter(({ text }) => text === says);
      expect(spans.length, says).toBeGreaterThan(0);
      expect(Math.min(...spans.map(({ from }) => from)), says).toBeGreaterThanOrEqual(0);
      expect(Math.max(...spans.map(({ to }) => to)), says).toBeLessThanOrEqual(width);
    }
  });

test('a click inside a segment splits it with the tool for lands', async () => {
  bench = await BoardBench.of(read(idler));
  const [c, d] = [bench.faceSpot('C'), bench.faceSpot('D')];
  bench.button('Add land').click();
  await bench.click({ x: (c.x + d.x) / 2, y: c.y });
  expect(bench.part.segments).toHaveLength(5);
  expect(bench.part.faces[3]?.sketched).toBeCloseTo(40, 0);
});

test('a length is drawn by picking its two stations', async () => {
  bench = await BoardBench.of(read(idler));
  const [b, d] = [bench.faceSpot('B'), bench.faceSpot('D')];
  bench.button('Add length').click();
  await bench.click(d);
  await bench.click(b);
  await bench.keys('40{Enter}');
  expect(bench.part.lengths.at(-1)).toMatchObject({ from: 'B', to: 'D', size: '40' });
});

test('the keyboard alone chooses, types, moves and deletes', async () => {
  bench = await BoardBench.of(read(idler));
  bench.surface.focus();
  await bench.keys('{ArrowRight}');
  expect(bench.chosen).toEqual({ kind: 'station', id: 'A' });
  await bench.keys('{ArrowRight}{ArrowRight}{ArrowDown}');
  expect(bench.label).toMatch(/length A to B, 18 millimetres/);
  await bench.keys('{ArrowDown}{Enter}');
  await bench.keys('5{Enter}');
  expect(bench.part.lengths[1]?.size).toBe('5');
  bench.chosen = { kind: 'station', id: 'D' };
  const was = sketched('D') ?? 0;
  await bench.keys('{Shift>}{ArrowRight}{/Shift}');
  expect(sketched('D')).toBeCloseTo(was + 0.5, 1);
  bench.chosen = { kind: 'length', id: 'L1' };
  await bench.keys('{Delete}');
  expect(bench.part.lengths.map((l) => l.id)).toEqual(['L2', 'L3']);
  expect(bench.chosen).toBeNull();
});

test('the wheel zooms about the pointer, space and a drag pan, 0 shows all again', async () => {
  bench = await BoardBench.of(read(idler));
  const face = bench.faceSpot('D');
  const turn = new WheelEvent('wheel', { deltaY: -400, ...client(face), bubbles: true, cancelable: true });
  bench.surface.dispatchEvent(turn);
  await pause(50);
  expect(turn.defaultPrevented).toBe(true);
  await bench.click(face);
  expect(bench.chosen).toEqual({ kind: 'station', id: 'D' });
  const before = bench.faceSpot('B');
  await bench.click(before);
  expect(bench.chosen).not.toEqual({ kind: 'station', id: 'B' });
  await bench.pan({ x: 30, y: 30 }, { x: 80, y: 70 });
  await bench.click({ x: face.x + 50, y: face.y + 40 });
  expect(bench.chosen).toEqual({ kind: 'station', id: 'D' });
  await bench.keys('0');
  await bench.click(before);
  expect(bench.chosen).toEqual({ kind: 'station', id: 'B' });
});

test('two fingers pinch about their middle', async () => {
  bench = await BoardBench.of(read(idler));
  const face = bench.faceSpot('D');
  const finger = (type: string, pointerId: number, x: number) =>
    bench.surface.dispatchEvent(
      new PointerEvent(type, { pointerId, pointerType: 'touch', bubbles: true, ...client({ x, y: face.y }) }),
    );
  // Synthetic pointers cannot be captured; the board must not mind.
  bench.surface.setPointerCapture = () => undefined;
  finger('pointerdown', 11, face.x - 40);
  finger('pointerdown', 12, face.x + 40);
  for (let i = 1; i <= 10; i++) {
    finger('pointermove', 11, face.x - 40 - 4 * i);
    finger('pointermove', 12, face.x + 40 + 4 * i);
  }
  finger('pointerup', 11, face.x - 80);
  finger('pointerup', 12, face.x + 80);
  await pause(50);
  expect(bench.changes).toEqual([]);
  await bench.click(face);
  expect(bench.chosen).toEqual({ kind: 'station', id: 'D' });
  // Twice as large about D: B stands twice as far from it.
  const far = face.x - bench.faceSpot('B').x;
  await bench.click({ x: face.x - far, y: face.y });
  expect(bench.chosen).not.toEqual({ kind: 'station', id: 'B' });
  await bench.pan({ x: 30, y: 30 }, { x: 30 + far, y: 30 });
  await bench.click({ x: face.x - far, y: face.y });
  expect(bench.chosen).toEqual({ kind: 'station', id: 'B' });
});

test('what is lit elsewhere is drawn darker, and the drawing follows the theme', async () => {
  bench = await BoardBench.of(read(blower));
  const { scene, view } = bench.fitted();
  const d = scene.dimensions.find((one) => one.id === 'L13');
  const beside = { x: view.x + (d?.x0 ?? 0) + 60, y: view.y + (d?.y ?? 0) + 3 };
  const before = bench.pixel(beside);
  bench.lit = ['L13'];
  await pause(60);
  expect(bench.pixel(beside)[3]).toBeGreaterThan((before[3] ?? 0) + 20);
  const steel = { x: view.x + 30, y: view.y - 10 };
  const day = bench.pixel(steel);
  document.documentElement.dataset['theme'] = 'dark';
  await pause(60);
  const night = bench.pixel(steel);
  delete document.documentElement.dataset['theme'];
  expect(day[0]).toBeGreaterThan((night[0] ?? 255) + 60);
});

test('a double click on the right half of a taper’s note types its right end', async () => {
  bench = await BoardBench.of(read(blower));
  const note = bench.noteSpot('cone');
  await bench.double({ x: note.x + 30, y: note.y });
  expect(bench.field?.value).toBe('.300');
  await bench.keys('{Escape}');
  await bench.double({ x: note.x - 30, y: note.y });
  expect(bench.field?.value).toBe('.375');
});

test('a narrow strip shows the bare profile, and what is chosen with its size all the same', async () => {
  bench = await BoardBench.of(read(blower), { width: 380, height: 190 });
  expect(bench.fitted().detail).toBe('bare');
  bench.surface.focus();
  bench.chosen = { kind: 'length', id: 'L7' };
  await bench.keys('{Enter}');
  expect(bench.field?.value).toBe('2.6500');
  const [field, board] = [bench.field?.getBoundingClientRect(), bench.surface.getBoundingClientRect()];
  expect(field?.bottom).toBeLessThanOrEqual(board.bottom + 1);
  expect(field?.right).toBeLessThanOrEqual(board.right + 1);
});

test('a picture of the bar takes the place of the drawing, and nothing on it can be edited', async () => {
  bench = await BoardBench.of(read(idler));
  bench.picture = {
    items: [{ kind: 'area', points: [0, -10, 100, -10, 100, 10, 0, 10], role: 'steel', id: 's1' }],
  };
  await pause(60);
  await bench.click({ x: 500, y: 300 });
  expect(bench.chosen).toBeNull();
  expect(bench.label).toMatch(/bar/);
  await bench.keys('{Delete}a');
  expect(bench.changes).toEqual([]);
  expect(bench.pixel({ x: 500, y: 280 })[3]).toBe(255);
});

function client({ x, y }: { x: number; y: number }): { clientX: number; clientY: number } {
  const box = bench.surface.getBoundingClientRect();
  return { clientX: box.left + x, clientY: box.top + y };
}
