import { expect, test } from 'vitest';
import { hostileCase, tryCase } from './hostile.ts';

// `npm run fuzz` tries twenty times as many. Five hundred are a test of its own, so that none runs into a time limit.
const CASES = 5_000;
const AT_ONCE = 500;

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
