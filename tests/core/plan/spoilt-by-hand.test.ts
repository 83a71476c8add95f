import { expect, test } from 'vitest';
import { replay } from '../../../src/core/plan/virtual-lathe.ts';
import { caught } from './spoil.ts';
import { bench, spoils } from './spoils-by-hand.ts';

test('the plan made by hand replays clean', () => {
  expect(replay(bench.plan, bench.outline, bench.lathe)).toEqual([]);
});

test.each(spoils)('%s', (_name, codes, spoil) => {
  expect(caught(bench, spoil)).toEqual(codes.split(' ').filter(Boolean).sort());
});
