export type Tally = { readonly passed: number; readonly failed: number; readonly skipped: number };
export function fromVitest(report: unknown, well: boolean): Tally;
export function fromPlaywright(report: unknown, well: boolean): Tally;
export function sum(tallies: readonly Tally[]): Tally;
