// npm run long: what takes too long for every run of the tests: 2 000 random parts planned on three lathes.
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const top = fileURLToPath(new URL('../..', import.meta.url));
const vitest = fileURLToPath(new URL('../../node_modules/vitest/vitest.mjs', import.meta.url));
const seeds = process.argv[2] ?? '2000';
const child = spawn(
  process.execPath,
  [vitest, 'run', '--project', 'core', 'tests/core/plan/random.test.ts'],
  {
    cwd: top,
    stdio: 'inherit',
    env: { ...process.env, PLAN_SEEDS: seeds },
  },
);
child.on('close', (code) => process.exit(code ?? 1));
