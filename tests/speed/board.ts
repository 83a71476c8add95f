// Run by: node src/tools/run-ts.mjs tests/speed/board.ts
// Dragging one face of a part of 200 segments and 400 labels, with half of it going along, in headless Chromium: work a
// frame, beside a bare two-layer Konva stage with the same shapes and raw canvas calls that draw everything anew, in one
// page, one after another. Then typing a size to the redrawn board, with the example in the built app (npm run build
// first). Ends with code 1 where a goal is missed.
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { chromium, type Browser } from 'playwright';
import { build, preview } from 'vite';
import { fileURLToPath } from 'node:url';
import { findChromium, noChromium } from '../../src/tools/find-chromium.mjs';

const GOALS = { ofTwoLayers: 1.3, ofRaw: 2, p95: 8, typing: 50 } as const;
const top = fileURLToPath(new URL('../..', import.meta.url));

type Row = { readonly mean: number; readonly p95: number };
type Drag = {
  readonly ours: Row & { readonly restingDraws: number };
  readonly twoLayers: Row;
  readonly raw: Row;
  readonly shapes: number;
  readonly labels: number;
};

/** The measuring page as one script, built as the app is. */
async function script(): Promise<string> {
  const made = await build({
    root: top,
    configFile: false,
    logLevel: 'error',
    plugins: [svelte({ configFile: false, compilerOptions: { css: 'injected' } })],
    build: {
      write: false,
      target: 'es2022',
      lib: { entry: 'tests/speed/tools/board-drag.svelte.ts', formats: ['iife'], name: 'drag' },
    },
  });
  const output = Array.isArray(made) ? made[0] : made;
  const chunk = output && 'output' in output ? output.output[0] : null;
  if (!chunk) throw new Error('the measuring page was not built');
  return chunk.code;
}

async function drag(browser: Browser): Promise<Drag> {
  const page = await browser.newPage({ viewport: { width: 1400, height: 900 } });
  page.on('pageerror', (fault) => console.error(fault.message));
  await page.setContent('<!doctype html><html lang="en"><body></body></html>');
  await page.addScriptTag({ content: await script() });
  const rows = await page.evaluate(() =>
    (globalThis as unknown as { measure(): Promise<unknown> }).measure(),
  );
  await page.close();
  return rows as Drag;
}

/** From Enter in the field to the canvas drawn with the new size: the least of some rounds, ms. */
async function typing(browser: Browser): Promise<number> {
  const server = await preview({
    root: `${top}/src`,
    configFile: false,
    build: { outDir: `${top}/dist` },
    preview: { host: '127.0.0.1', port: 0 },
  });
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  await page.goto(server.resolvedUrls?.local[0] ?? '');
  const field = page.getByRole('textbox', { name: 'Length D to E', exact: true });
  await field.waitFor();
  await page.waitForTimeout(2000);
  const times: number[] = [];
  for (let i = 0; i < 12; i++) {
    await field.fill(i % 2 === 0 ? '1/2' : '7/16');
    times.push(await field.evaluate(redrawnAfterEnter));
    await page.waitForTimeout(400);
  }
  await page.close();
  await server.close();
  return times.sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? NaN;
}

function redrawnAfterEnter(input: Element): Promise<number> {
  const canvas = document.querySelector<HTMLCanvasElement>('.surface canvas');
  const pen = canvas?.getContext('2d');
  if (!pen) throw new Error('there is no board');
  return new Promise((done) => {
    const own = pen.fillText;
    const start = performance.now();
    pen.fillText = function (...drawn: Parameters<CanvasRenderingContext2D['fillText']>) {
      pen.fillText = own;
      own.apply(pen, drawn);
      // What is drawn in this frame is drawn before the next task.
      setTimeout(() => {
        pen.getImageData(0, 0, 1, 1);
        done(performance.now() - start);
      });
    };
    input.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true, cancelable: true }));
  });
}

const executablePath = findChromium();
if (executablePath === null) throw new Error(noChromium);
const browser = await chromium.launch({ executablePath });
const { ours, twoLayers, raw, shapes, labels } = await drag(browser);
const typed = await typing(browser);
await browser.close();

const rows: [what: string, value: number, limit: number | null][] = [
  [`raw canvas, all ${shapes} shapes with ${labels} labels anew, mean ms`, raw.mean, null],
  ['bare two-layer stage, mean ms', twoLayers.mean, null],
  ['our board, mean ms', ours.mean, Math.min(GOALS.ofTwoLayers * twoLayers.mean, GOALS.ofRaw * raw.mean)],
  ['our board, 95th percentile, ms', ours.p95, GOALS.p95],
  ['our board against the bare stage', ours.mean / twoLayers.mean, GOALS.ofTwoLayers],
  ['our board against raw canvas', ours.mean / raw.mean, GOALS.ofRaw],
  ['texts drawn on the layer that rests, all frames together', ours.restingDraws, 0],
  ['a size typed in the example to the board redrawn, median ms', typed, GOALS.typing],
];
for (const [what, value, limit] of rows) {
  const goal = limit === null ? '' : `at most ${limit.toFixed(2)}`;
  console.log(`${what.padEnd(66)} ${value.toFixed(2).padStart(8)}   ${goal}`);
  if (limit !== null && value > limit) process.exitCode = 1;
}
