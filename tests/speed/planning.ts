// Run by: node src/tools/run-ts.mjs tests/speed/planning.ts
// Processor time of planning the example, built as the worker is and in fresh processes (cold, as a worker meets it first,
// compiling on other threads counted; and again after an edit), every way replayed, and time on the clock of the first report in
// the app's own worker in headless Chromium, as built last (npm run build); beside a fixed calibration loop; growth with the number of segments; the replay's share. Ends with code 1 where a goal is missed.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright';
import { build } from 'vite';
import { solveChains } from '../../src/core/chains/solve.ts';
import { firstLathe } from '../../src/core/part/first-lathe.ts';
import { readPart } from '../../src/core/part/read-part.ts';
import { resolveLathe } from '../../src/core/part/resolve-lathe.ts';
import { resolvePart } from '../../src/core/part/resolve.ts';
import type { ResolvedLathe } from '../../src/core/part/resolved.ts';
import type { Part } from '../../src/core/part/types.ts';
import { planPart } from '../../src/core/plan/ways.ts';
import { replay } from '../../src/core/plan/virtual-lathe.ts';
import { findChromium, noChromium } from '../../src/tools/find-chromium.mjs';
import { serve } from '../../src/tools/serve.mjs';
import { firstPlanInWorker } from './tools/in-worker.ts';
import { Goals, least, table } from './tools/least.ts';

const goals = new Goals();
const top = fileURLToPath(new URL('../..', import.meta.url));

/** A fixed piece of arithmetic, to compare machines by. */
function calibration(): number {
  let x = 1;
  for (let i = 0; i < 5_000_000; i++) x = Math.sqrt(x + i) * 1.000001;
  return x;
}

function read(text: string): Part {
  const part = readPart(text, 'speed');
  if (!part.ok) throw new Error(part.problem.say);
  return part.value;
}

const plan = (part: Part, lathe: ResolvedLathe) => {
  const resolved = resolvePart(part);
  return planPart(resolved, solveChains(resolved), lathe);
};

/** The planner as one script, built as the app's worker is. */
async function script(): Promise<string> {
  const made = await build({
    root: top,
    configFile: false,
    logLevel: 'error',
    ssr: { noExternal: true },
    build: {
      write: false,
      ssr: 'tests/speed/tools/first-plan.ts',
      target: 'es2022',
      minify: true,
    },
  });
  const output = Array.isArray(made) ? made[0] : made;
  const chunk = output && 'output' in output ? output.output[0] : null;
  if (!chunk) throw new Error('the measuring script was not built');
  const file = join(mkdtempSync(join(tmpdir(), 'planning-')), 'first-plan.mjs');
  writeFileSync(file, chunk.code);
  return file;
}

/** Least of some fresh processes: other work on the machine can only add to it. */
async function example(): Promise<{ first: number; again: number }> {
  const file = await script();
  const runs = Array.from({ length: 8 }, () => {
    const out = execFileSync(process.execPath, [file, `${top}/static/examples/blower-shaft.json`]);
    return JSON.parse(out.toString()) as { first: number; again: number };
  });
  rmSync(dirname(file), { recursive: true });
  return {
    first: Math.min(...runs.map((r) => r.first)),
    again: Math.min(...runs.map((r) => r.again)),
  };
}

/** Least of some first visits to the app, which opens with the example. */
async function inWorker(): Promise<number> {
  const executablePath = findChromium();
  if (executablePath === null) throw new Error(noChromium);
  const { address } = await serve(`${top}/dist`, 0);
  const browser = await chromium.launch({ executablePath });
  try {
    let ms = Infinity;
    for (let turn = 0; turn < 20; turn++) ms = Math.min(ms, await firstPlanInWorker(browser, address));
    return ms;
  } finally {
    await browser.close();
  }
}

const { first, again } = await example();
const seen = await inWorker();
const loop = least(calibration);
table(
  ['what', 'ms', 'goal'],
  [
    ['calibration loop', loop.toFixed(1), ''],
    [
      'example, first time, processor',
      first.toFixed(1),
      goals.atMost('first plan of the example, ms', first, 100),
    ],
    [
      'example, first time, worker',
      seen.toFixed(1),
      goals.atMost('first report in the worker, ms', seen, 100),
    ],
    ['example, after an edit', again.toFixed(1), goals.atMost('planning after an edit, ms', again, 30)],
  ],
);

/** Ribs and valleys between two ends that can be gripped. */
function comb(n: number): Part {
  const rule = { rule: 'iso2768', class: 'm' };
  return read(
    JSON.stringify({
      shaftwright: 1,
      title: 'comb',
      unit: 'mm',
      material: 'mild-steel',
      general: { lengths: rule, diameters: rule },
      faces: Array.from({ length: n + 1 }, (_, i) => ({ id: `F${i}`, sketched: i })),
      segments: Array.from({ length: n }, (_, i) => ({
        id: `s${i}`,
        form: 'cylinder',
        diameter: i % 2 ? '17' : '14',
      })),
      lengths: Array.from({ length: n }, (_, i) => ({
        id: `L${i}`,
        from: `F${i}`,
        to: `F${i + 1}`,
        size: i === 0 || i === n - 1 ? '20' : '5',
      })),
    }),
  );
}
const long = resolveLathe({
  ...firstLathe,
  between_centres: '100',
  bars: { ...firstLathe.bars, length: '100' },
});
const counts = [10, 20, 40, 80];
const times: number[] = [];
table(
  ['segments', 'plan ms', 'replay ms', 'share', 'goal'],
  (function* () {
    for (const n of counts) {
      const part = comb(n);
      const made = plan(part, long);
      const { outline } = made;
      if (!made.plan || !outline) throw new Error(`no plan of ${n} segments`);
      const whole = least(() => plan(part, long), 3);
      const played = least(() => made.plan && replay(made.plan, outline, long), 3);
      times.push(whole);
      const share = played / whole;
      yield [
        `${n}`,
        whole.toFixed(1),
        played.toFixed(2),
        share.toFixed(3),
        goals.atMost(`replay's share, ${n} segments`, share, 0.1),
      ];
    }
  })(),
);
const growth = Math.log((times.at(-1) ?? 1) / (times[0] ?? 1)) / Math.log(8);
console.log(
  `growth from 10 to 80 segments: n^${growth.toFixed(2)} ${goals.atMost('growth, power of n', growth, 1.6)}`,
);
goals.end();
process.exit(); // connections of the browser would hold it
