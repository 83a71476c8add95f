import type { Lathe } from '../core/part/lathe.ts';
import type { Part } from '../core/part/types.ts';
import type { ChartAdvice } from '../core/plan/chart-advice.ts';
import type { Plan } from '../core/plan/types.ts';
import type { Report } from '../core/report-types.ts';

/** A report with its plan, and what it was worked out for. */
export type Planned = { readonly part: Part; readonly lathe: Lathe; readonly report: Report };
/** What mends the lengths that a plan does not hold, as far as it is worked out by now. */
export type Advised = { readonly part: Part; readonly lathe: Lathe; readonly advice: readonly ChartAdvice[] };
type Order = { readonly part: Part; readonly lathe: Lathe };
type Advising = Order & { readonly plan: Plan; readonly lengths: readonly string[] };
type Answer = { readonly ask: number; readonly report?: Report; readonly advice?: readonly ChartAdvice[] };
type Calls = {
  readonly planned: (planned: Planned) => void;
  readonly advised: (advised: Advised) => void;
  readonly fault: (say: string) => void;
};

/** Lengths that advice is sought for: each takes as long as a few plans. */
const MOST_ADVISED = 6;

/**
 * Works plans out beside the page, so that typing never waits for one. Only the newest part counts: while one is in
 * work the newest waits, and what came between is never planned. Where a plan does not hold a length and nothing else
 * waits, what would mend it is sought, one length at a time, so that the next edit waits for one at the most.
 */
export class Planner {
  #worker: Worker | null = null;
  #asked: (Order & { ask: number }) | null = null;
  #waiting: Order | null = null;
  #advising: Advising | null = null;
  #found: readonly ChartAdvice[] = [];
  #count = 0;
  readonly #calls: Calls;

  constructor(calls: Calls) {
    this.#calls = calls;
  }

  plan(part: Part, lathe: Lathe): void {
    this.#waiting = { part, lathe };
    this.#advising = null;
    if (!this.#asked) this.#next();
  }

  close(): void {
    this.#worker?.terminate();
    this.#worker = null;
    this.#asked = null;
    this.#waiting = null;
    this.#advising = null;
  }

  #next(): void {
    const order = this.#waiting;
    this.#waiting = null;
    if (order) this.#ask(order, {});
    else if (this.#advising) this.#advise(this.#advising);
  }

  #advise({ part, lathe, plan, lengths: [length, ...rest] }: Advising): void {
    this.#advising = rest.length > 0 ? { part, lathe, plan, lengths: rest } : null;
    if (length !== undefined) this.#ask({ part, lathe }, { plan, length });
  }

  #ask({ part, lathe }: Order, more: object): void {
    this.#count += 1;
    this.#asked = { part, lathe, ask: this.#count };
    this.#worker ??= this.#start();
    this.#worker.postMessage({ ...this.#asked, ...more });
  }

  #start(): Worker {
    const worker = new Worker(new URL('./planner.worker.ts', import.meta.url), { type: 'module' });
    worker.onmessage = ({ data }: MessageEvent<Answer>) => this.#take(data);
    worker.onerror = (event) => {
      this.close(); // a fresh worker serves the next part
      this.#calls.fault(event.message || 'the planner stopped');
    };
    return worker;
  }

  #take({ ask, report, advice }: Answer): void {
    const asked = this.#asked;
    if (!asked || asked.ask !== ask) return;
    this.#asked = null;
    const { part, lathe } = asked;
    if (report) {
      this.#seekAdvice(asked, report.plan);
      this.#calls.planned({ part, lathe, report });
    } else if (advice && !this.#waiting) {
      this.#found = [...this.#found, ...advice];
      this.#calls.advised({ part, lathe, advice: this.#found });
    }
    this.#next();
  }

  #seekAdvice({ part, lathe }: Order, plan: Plan | null): void {
    this.#found = [];
    const lengths = plan?.chart.filter((row) => !row.ok).map((row) => row.length) ?? [];
    const few = lengths.slice(0, MOST_ADVISED);
    this.#advising = plan && few.length > 0 && !this.#waiting ? { part, lathe, plan, lengths: few } : null;
  }
}
