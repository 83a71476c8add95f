import { applyAll, invertAll, type Transaction } from '../core/part/edit.ts';
import type { Part } from '../core/part/types.ts';
import type { Report } from '../core/report-types.ts';
import { emptyHistory, record, redoable, undoable, type History, type Step } from './history.ts';

/**
 * The part on the board with everything that was done to it. Nobody else changes a part: tables and board hand in
 * transactions, and what they show is derived from here.
 */
export class PartDocument {
  #part = $state.raw<Part>() as Part;
  #history = $state.raw<History>(emptyHistory);
  #compute: (part: Part) => Report;
  #clock: () => number;

  /** All that is known of the part; worked out again when the part, or what `compute` reads, changes. */
  report: Report = $derived.by(() => this.#compute(this.#part));

  /** @param clock - Milliseconds, to tell typing on from typing anew. */
  constructor(part: Part, compute: (part: Part) => Report, clock: () => number = Date.now) {
    this.#part = part;
    this.#compute = compute;
    this.#clock = clock;
  }

  get part(): Part {
    return this.#part;
  }
  get history(): History {
    return this.#history;
  }
  /** What undo would take back, in words; null where there is nothing. */
  get undoes(): string | null {
    return undoable(this.#history)?.did ?? null;
  }
  get redoes(): string | null {
    return redoable(this.#history)?.did ?? null;
  }

  /** Does one thing. An edit that was made for another state of the part changes nothing and leaves no step. */
  do(transaction: Transaction): void {
    const next = applyAll(this.#part, transaction);
    if (next === this.#part) return;
    this.#part = next;
    this.#history = record(this.#history, { kind: 'change', at: this.#clock(), ...transaction });
  }

  /** Puts another part on the board; undo brings back the one that was there. */
  open(part: Part, did: string): void {
    const step: Step = { kind: 'opening', at: this.#clock(), did, was: this.#part, now: part };
    this.#part = part;
    this.#history = record(this.#history, step);
  }

  /** Puts another part on the board with a history of its own, whose first step is this. */
  begin(part: Part, did: string): void {
    const step: Step = { kind: 'opening', at: this.#clock(), did, was: this.#part, now: part };
    this.#part = part;
    this.#history = { steps: [step], position: 1 };
  }

  /** Takes up a part with the steps that were kept beside it. */
  resume(part: Part, history: History): void {
    this.#part = part;
    this.#history = history;
  }

  /** Takes the last step back and gives its name; null where there is none. */
  undo(): string | null {
    const step = undoable(this.#history);
    if (!step) return null;
    this.#part = step.kind === 'opening' ? step.was : applyAll(this.#part, invertAll(step));
    this.#history = { ...this.#history, position: this.#history.position - 1 };
    return step.did;
  }

  /** Does the last undone step again and gives its name; null where there is none. */
  redo(): string | null {
    const step = redoable(this.#history);
    if (!step) return null;
    this.#part = step.kind === 'opening' ? step.now : applyAll(this.#part, step);
    this.#history = { ...this.#history, position: this.#history.position + 1 };
    return step.did;
  }
}
