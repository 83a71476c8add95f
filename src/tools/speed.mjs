// npm run speed: runs every file of tests/speed, one after another so that none slows another. Ends with code 1 where one missed a goal.
import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const top = fileURLToPath(new URL('../..', import.meta.url));
const runner = fileURLToPath(new URL('run-ts.mjs', import.meta.url));
const files = readdirSync(new URL('../../tests/speed', import.meta.url)).filter((name) =>
  name.endsWith('.ts'),
);

for (const file of files.sort()) {
  console.log(`\n${file}`);
  const { status } = spawnSync(process.execPath, [runner, `tests/speed/${file}`], {
    cwd: top,
    stdio: 'inherit',
  });
  if (status !== 0) process.exitCode = 1;
}
