import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { Layer } from '../../src/board/layer.ts';

const frame = () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
let drawings = 0;
let layer: Layer;
const dot = (): number[] => [...(layer.canvas.getContext('2d')?.getImageData(5, 5, 1, 1).data ?? [])];

beforeEach(async () => {
  drawings = 0;
  layer = new Layer((pen) => {
    drawings += 1;
    pen.fillStyle = '#000';
    pen.fillRect(0, 0, 50, 50);
  });
  document.body.append(layer.canvas);
  layer.resize({ width: 200, height: 100 });
  await frame();
});
afterEach(() => {
  layer.destroy();
  vi.unstubAllGlobals();
});

/** As browsers do it: a canvas that is given a size is blank (HTML Living Standard, 4.12.5, "set bitmap dimensions"). */
describe('a layer of the board', () => {
  test('keeps what is on it until the frame in which it is drawn at its new size', async () => {
    layer.resize({ width: 300, height: 120 });
    expect(dot()).toEqual([0, 0, 0, 255]);
    await frame();
    expect([layer.canvas.width, layer.canvas.height, drawings]).toEqual([
      Math.round(300 * devicePixelRatio),
      Math.round(120 * devicePixelRatio),
      2,
    ]);
    expect(dot()).toEqual([0, 0, 0, 255]);
  });

  test('follows a page that is zoomed, where as many dots are fewer px', async () => {
    vi.stubGlobal('devicePixelRatio', 2 * devicePixelRatio);
    layer.resize({ width: 100, height: 50 });
    await frame();
    expect([layer.canvas.style.width, layer.canvas.style.height]).toEqual(['100px', '50px']);
  });

  test('is drawn once in a frame, however often it was asked', async () => {
    layer.ask();
    layer.moveTo({ x: 1, y: 1 });
    layer.ask();
    await frame();
    expect(drawings).toBe(2);
  });
});
