// How many tests passed, failed and were skipped, from the reports of the two test runners.

const count = (number) => (Number.isInteger(number) && number > 0 ? number : 0);

/** A runner that ended badly has at least one failure, whatever it counted: a file that would not load, no browser. */
const atLeastOne = (tally, well) => (well || tally.failed > 0 ? tally : { ...tally, failed: 1 });

/** From Vitest's JSON report, null where it left none; `well` is how it ended. */
export function fromVitest(report, well) {
  const tally = {
    passed: count(report?.numPassedTests),
    failed: count(report?.numFailedTests),
    skipped: count(report?.numPendingTests) + count(report?.numTodoTests),
  };
  return atLeastOne(tally, well && report?.success === true);
}

/** From Playwright's JSON report, null where it left none. A test that passed only at a second try has failed. */
export function fromPlaywright(report, well) {
  const stats = report?.stats;
  const tally = {
    passed: count(stats?.expected),
    failed: count(stats?.unexpected) + count(stats?.flaky),
    skipped: count(stats?.skipped),
  };
  return atLeastOne(tally, well && stats !== undefined && (report.errors ?? []).length === 0);
}

/** All tallies as one. */
export const sum = (tallies) =>
  tallies.reduce(
    (all, { passed, failed, skipped }) => ({
      passed: all.passed + passed,
      failed: all.failed + failed,
      skipped: all.skipped + skipped,
    }),
    { passed: 0, failed: 0, skipped: 0 },
  );
