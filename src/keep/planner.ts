import type { Lathe } from '../core/part/lathe.ts';
import type { Part } from '../core/part/types.ts';
import type { Report } from '../core/report-types.ts';
import type { PlanOrder } from './planner.worker.ts';

/** A report with its plan, and what it was worked out for. */
export type Planned = { readonly part: Part; readonly lathe: Lathe; readonly report: Report };
type Order = Omit<PlanOrder, 'ask'>;
type Answer = { readonly ask: number; readonly report: Report };

/**
 * Works plans out beside the page, so that typing never waits for one. Only the newest part counts: while one is in
 * work the newest waits, and what came between is never planned.
 */
export class Planner {
  #worker: Worker | null = null;
  #asked: (Order & { ask: number }) | null = null;
  #waiting: Order | null = null;
  #count = 0;
  #onplanned: (planned: Planned) => void;
  #onfault: (say: string) => void;

  constructor(onplanned: (planned: Planned) => void, onfault: (say: string) => void) {
    this.#onplanned = onplanned;
    this.#onfault = onfault;
  }

  plan(part: Part, lathe: Lathe): void {
    this.#waiting = { part, lathe };
    if (!this.#asked) this.#next();
  }

  close(): void {
    this.#worker?.terminate();
    this.#worker = null;
    this.#asked = null;
    this.#waiting = null;
  }

  #next(): void {
    const order = this.#waiting;
    this.#waiting = null;
    if (!order) return;
    this.#count += 1;
    this.#asked = { ...order, ask: this.#count };
    this.#worker ??= this.#start();
    this.#worker.postMessage(this.#asked);
  }

  #start(): Worker {
    const worker = new Worker(new URL('./planner.worker.ts', import.meta.url), { type: 'module' });
    worker.onmessage = ({ data }: MessageEvent<Answer>) => this.#take(data);
    worker.onerror = (event) => {
      this.close(); // a fresh worker serves the next part
      this.#onfault(event.message || 'the planner stopped');
    };
    return worker;
  }

  #take({ ask, report }: Answer): void {
    const asked = this.#asked;
    if (!asked || asked.ask !== ask) return;
    this.#asked = null;
    this.#onplanned({ part: asked.part, lathe: asked.lathe, report });
    this.#next();
  }
}
