import { expect, test } from 'vitest';
import { hostileCase, lathe, tryCase } from './hostile.ts';

// `npm run fuzz` tries a hundred times as many. Two hundred are a test of its own, so that none runs into a time limit.
const CASES = 5_000;
const AT_ONCE = 200;

test.each(Array.from({ length: CASES / AT_ONCE }, (_, i) => i * AT_ONCE))(
  'hostile files from case %d on: a clear refusal or a valid part, never an exception, never a second',
  { timeout: 120_000 },
  (first) => {
    const broken: string[] = [];
    let read = 0;
    for (let seed = first; seed < first + AT_ONCE; seed += 1) {
      const { outcome, fault } = tryCase(hostileCase(seed));
      if (outcome === 'read') read += 1;
      if (fault) broken.push(`case ${seed}: ${fault}`);
    }
    expect(broken).toEqual([]);
    expect(read).toBeGreaterThan(AT_ONCE / 20); // else the files were refused at the door and nothing was tried
    expect(read).toBeLessThan(AT_ONCE * 0.9);
  },
);

test('a case is the same whenever it is tried', () => {
  const once = hostileCase(11_272).text;
  for (let seed = 0; seed < 300; seed += 1) hostileCase(seed);
  expect(hostileCase(11_272).text).toBe(once);
});

// Lathes that once took the planner minutes and all memory: it made each finishing cut a step, and each bite of a cone.
test.each([
  ['finish_on_diameter', '.0000001'],
  ['rough_on_diameter', '.0000001'],
  ['allowance_on_diameter', '300'],
  ['compound_travel', '.0000001'],
  ['quill_travel', '.0000001'],
])('a lathe with %s %s is planned for at once', (field, text) => {
  const hostile = lathe.replace(new RegExp(`("${field}": *)"[^"]*"`), `$1"${text}"`);
  expect(hostile).not.toBe(lathe);
  expect(tryCase({ kind: 'lathe', text: hostile })).toMatchObject({ outcome: 'read', fault: null });
});
