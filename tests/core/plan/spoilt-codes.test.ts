import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { spoils as byHand } from './spoils-by-hand.ts';
import { spoils as ofShaft } from './spoils-of-shaft.ts';
import { spoils as ofStubs } from './spoils-of-stubs.ts';

const room = new URL('../../../src/core/plan/replay/', import.meta.url);
const sources = readdirSync(room).map((file) => readFileSync(new URL(file, room), 'utf8'));

test('every rule of the replay is broken on purpose at least once', () => {
  const codes = sources.flatMap((text) => [...text.matchAll(/flaw\(\s*'([a-z-]+)'/g)].map((m) => m[1]));
  const tried = new Set([...byHand, ...ofShaft, ...ofStubs].flatMap(([, caughtFor]) => caughtFor.split(' ')));
  const rules = [...new Set(codes)];
  expect(rules.length).toBeGreaterThan(80);
  expect(rules.filter((code) => code !== undefined && !tried.has(code))).toEqual([]);
});
