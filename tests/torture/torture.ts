// npm run torture [-- KILLS]: faults that a browser and a disk can have, against what was built last; prints how each ended.
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { serve } from '../../src/tools/serve.mjs';
import { faults } from './faults.ts';
import { killOverAndOver } from './kills.ts';

const kills = Number(process.argv[2] ?? 200);
const { address, close } = await serve('dist', null);
const folder = await mkdtemp(join(tmpdir(), 'shaftwright-torture-'));

try {
  let survived = true;
  for (const [name, run] of faults) {
    const end = await run({ folder, address });
    survived &&= end === 'survived';
    console.log(`${name}: ${end}`);
  }
  const { acknowledged, lost, badSteps, waits } = await killOverAndOver(folder, address, kills);
  const steps = badSteps === 0 ? 'whole' : `lost ${badSteps} times`;
  const sorted = [...waits].sort((a, b) => a - b);
  const share = (part: number) => Math.round(sorted[Math.floor((sorted.length - 1) * part)] ?? 0);
  console.log(
    `${kills} kills: ${acknowledged} edits acknowledged as kept, ${lost} lost; the steps of undo ${steps}`,
  );
  console.log(
    `from an edit to the word that it is kept: ${share(0.5)} ms half of the time, ${share(0.99)} ms in 99 of 100, ${share(1)} ms at most`,
  );
  process.exitCode = lost === 0 && survived ? 0 : 1;
} finally {
  void close();
  await rm(folder, { recursive: true, force: true, maxRetries: 3 });
}
process.exit(); // connections to killed browsers would hold it
