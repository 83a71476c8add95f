import { describe, expect, test } from 'vitest';
import { fromPlaywright, fromVitest, sum } from '../../src/tools/tallies.mjs';

describe('unit tests', () => {
  const report = { success: true, numPassedTests: 5, numFailedTests: 0, numPendingTests: 2, numTodoTests: 0 };
  test('are counted', () => {
    expect(fromVitest(report, true)).toEqual({ passed: 5, failed: 0, skipped: 2 });
    expect(fromVitest({ ...report, success: false, numFailedTests: 3 }, false).failed).toBe(3);
  });
  test('that end badly without a failed test count as one failure', () => {
    expect(fromVitest({ ...report, success: false }, false).failed).toBe(1);
    expect(fromVitest(report, false).failed).toBe(1);
    expect(fromVitest(null, true)).toEqual({ passed: 0, failed: 1, skipped: 0 });
  });
});

describe('browser tests', () => {
  const report = { stats: { expected: 4, unexpected: 0, flaky: 0, skipped: 1 }, errors: [] };
  test('are counted, and one that only passed at a second try has failed', () => {
    expect(fromPlaywright(report, true)).toEqual({ passed: 4, failed: 0, skipped: 1 });
    expect(fromPlaywright({ stats: { ...report.stats, flaky: 2 } }, true).failed).toBe(2);
  });
  test('that could not start count as one failure', () => {
    expect(fromPlaywright({ ...report, errors: [{ message: 'no browser' }] }, true).failed).toBe(1);
    expect(fromPlaywright(null, false)).toEqual({ passed: 0, failed: 1, skipped: 0 });
  });
});

test('tallies add up', () => {
  const one = { passed: 1, failed: 2, skipped: 3 };
  expect(sum([one, one])).toEqual({ passed: 2, failed: 4, skipped: 6 });
  expect(sum([])).toEqual({ passed: 0, failed: 0, skipped: 0 });
});
