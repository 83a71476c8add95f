// Run by: node src/tools/run-ts.mjs tests/speed/chains-suspects.ts
// Ends with code 1 where fewer than 80 % come first, or a sound drawing has a suspect. How often the misread length comes first among the suspects: 1 000 random sound
// drawings, one misread of a stated kind in each.
import { slips } from '../core/chains/planted-misreads.ts';
import { measure, share } from '../core/chains/suspect-scores.ts';
import type { Drawings } from '../core/chains/suspect-scores.ts';
import { Goals } from './tools/least.ts';

const goals = new Goals();
const drawings: readonly Drawings[] = [
  { seed: 1, scale: 0.02, extra: [2, 4] },
  { seed: 2, scale: null, extra: [2, 4] },
  { seed: 3, scale: 0.02, extra: [1, 1] },
  { seed: 4, scale: null, extra: [1, 1] },
];

console.log(['too many', 'sketch', 'first', 'sound suspected', ...slips].join(' | '));
for (const given of drawings) {
  const { scores, suspectedSound } = measure(1000, given);
  const name = `${given.extra.join(' to ')} too many, ${given.scale === null ? 'no scale' : 'traced'}`;
  goals.atLeast(`right one first, ${name}`, share(scores), 0.8);
  goals.atMost(`sound drawings with a suspect, ${name}`, suspectedSound, 0);
  const percent = (part: number) => `${(100 * part).toFixed(1)} %`;
  const sketch = given.scale === null ? 'no scale' : `traced to ${percent(given.scale)}`;
  const bySlip = slips.map((slip) => {
    const score = scores.get(slip);
    return score ? percent(score.first / score.planted) : '';
  });
  console.log(
    [given.extra.join(' to '), sketch, percent(share(scores)), suspectedSound, ...bySlip].join(' | '),
  );
}
goals.end();
