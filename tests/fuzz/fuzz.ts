// npm run fuzz [-- CASES [FIRST]]: hostile files by the hundred thousand. A case that breaks the rule is had again by its number.
import { hostileCase, tryCase, type Kind } from './hostile.ts';

const [cases = 100_000, first = 0] = process.argv.slice(2).map(Number);
const tallies = new Map<Kind, { read: number; refused: number; broken: number; worst: number }>();
for (let seed = first; seed < first + cases; seed += 1) {
  const one = hostileCase(seed);
  const { outcome, ms, fault } = tryCase(one);
  const tally = tallies.get(one.kind) ?? { read: 0, refused: 0, broken: 0, worst: 0 };
  tally[outcome] += 1;
  tally.worst = Math.max(tally.worst, Math.round(ms));
  if (fault) tally.broken += 1;
  tallies.set(one.kind, tally);
  if (fault) console.log(`case ${seed} (${one.kind}): ${fault}`);
}
console.table(
  Object.fromEntries(
    [...tallies].map(([kind, { worst, ...tally }]) => [kind, { ...tally, 'worst ms': worst }]),
  ),
);
const broken = [...tallies.values()].reduce((sum, tally) => sum + tally.broken, 0);
console.log(`${cases} cases, ${broken} broken`);
process.exitCode = broken === 0 ? 0 : 1;
