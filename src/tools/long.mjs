// npm run long [-- PARTS [SHEETS]]: what takes too long for every run of the tests: 2 000 random parts planned on three
// lathes, every reason for leaving or refusing checked, the laws of mirrored parts and other readouts, and the sheets of 1 000 plans that nobody would make, read back.
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const top = fileURLToPath(new URL('../..', import.meta.url));
const vitest = fileURLToPath(new URL('../../node_modules/vitest/vitest.mjs', import.meta.url));
const [parts = '2000', sheets = '1000'] = process.argv.slice(2);
const files = [
  'tests/core/plan/random.test.ts',
  'tests/core/plan/refusals.test.ts',
  'tests/core/plan/replayed-ways.test.ts',
  'tests/core/plan/laws.test.ts',
  'tests/sheet/random-plans.test.ts',
];
const child = spawn(process.execPath, [vitest, 'run', '--project', 'core', ...files], {
  cwd: top,
  stdio: 'inherit',
  env: { ...process.env, PLAN_SEEDS: parts, SHEET_RUNS: sheets },
});
child.on('close', (code) => process.exit(code ?? 1));
