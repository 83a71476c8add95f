// Built into one script by tests/speed/planning.ts and run in fresh processes: processor time of planning the part file
// named, the first time and after an edit, in ms.
import { readFileSync } from 'node:fs';
import { solveChains } from '../../../src/core/chains/solve.ts';
import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import { readPart } from '../../../src/core/part/read-part.ts';
import { resolveLathe } from '../../../src/core/part/resolve-lathe.ts';
import { resolvePart } from '../../../src/core/part/resolve.ts';
import type { Part } from '../../../src/core/part/types.ts';
import { planPart } from '../../../src/core/plan/ways.ts';

const read = readPart(readFileSync(process.argv[2] ?? '', 'utf8'), 'speed');
if (!read.ok) throw new Error(read.problem.say);
const shaft = read.value;

function spent(part: Part): number {
  const start = process.cpuUsage();
  const resolved = resolvePart(part);
  const { plan } = planPart(resolved, solveChains(resolved), resolveLathe(firstLathe));
  const { user, system } = process.cpuUsage(start);
  if (!plan) throw new Error('no plan of the example');
  return (user + system) / 1000;
}

const edited = (turn: number): Part => ({
  ...shaft,
  lengths: shaft.lengths.map((l) => (l.id === 'L9' ? { ...l, size: turn % 2 ? '1/2' : '17/32' } : l)),
});

const first = spent(shaft);
const again = Math.min(...Array.from({ length: 60 }, (_, turn) => spent(edited(turn))));
console.log(JSON.stringify({ first, again }));
