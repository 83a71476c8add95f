/**
 * Least processor time of one call in milliseconds; short ones are called many times over. The least, as other work on the machine can
 * only add to it.
 */
export function least(job: () => unknown, rounds = 12): number {
  const once = (times: number) => {
    const from = process.cpuUsage();
    for (let i = 0; i < times; i++) job();
    const { user, system } = process.cpuUsage(from);
    return (user + system) / 1000 / times;
  };
  const first = once(1);
  if (first > 1000) return Math.min(first, once(1));
  for (let warm = 0; warm < 2; warm++) job();
  const times = Math.max(1, Math.min(5000, Math.round(20 / Math.max(once(1), 1e-3))));
  return Math.min(...Array.from({ length: times > 1 ? rounds : 3 }, () => once(times)));
}

/** Goals of one file: each is noted as kept or missed, and what was missed is told at the end with code 1. */
export class Goals {
  private readonly missed: string[] = [];

  atMost(name: string, value: number, most: number): string {
    return this.note(value <= most, `${name}: ${value.toPrecision(3)}, to be at most ${most}`);
  }

  atLeast(name: string, value: number, fewest: number): string {
    return this.note(value >= fewest, `${name}: ${value.toPrecision(3)}, to be at least ${fewest}`);
  }

  private note(kept: boolean, line: string): string {
    if (!kept) this.missed.push(line);
    return kept ? 'yes' : 'NO';
  }

  end(): void {
    for (const line of this.missed) console.log(`missed: ${line}`);
    if (this.missed.length > 0) process.exitCode = 1;
  }
}

/** Prints rows under a head, columns as wide as their heads or wider, each row as soon as it is known. */
export function table(head: readonly string[], rows: Iterable<readonly string[]>, widest = 8): void {
  const line = (cells: readonly string[]) =>
    console.log(cells.map((cell, i) => cell.padStart(Math.max(head[i]?.length ?? 0, widest))).join(' | '));
  line(head);
  for (const row of rows) line(row);
}
