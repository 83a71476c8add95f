// npm run long: what takes too long for every run of the tests: 2 000 random parts planned on three lathes, each way that
// was left asked for, each refusal checked against the part and the lathe, the laws of mirrored parts and other readouts.
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const top = fileURLToPath(new URL('../..', import.meta.url));
const vitest = fileURLToPath(new URL('../../node_modules/vitest/vitest.mjs', import.meta.url));
const seeds = process.argv[2] ?? '2000';
const child = spawn(
  process.execPath,
  [
    vitest,
    'run',
    '--project',
    'core',
    'tests/core/plan/random.test.ts',
    'tests/core/plan/refusals.test.ts',
    'tests/core/plan/laws.test.ts',
  ],
  {
    cwd: top,
    stdio: 'inherit',
    env: { ...process.env, PLAN_SEEDS: seeds },
  },
);
child.on('close', (code) => process.exit(code ?? 1));
