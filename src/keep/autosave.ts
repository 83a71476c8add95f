import { deleteDB, openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Part } from '../core/part/types.ts';
import type { Step } from './history.ts';

/** What is kept between visits: the part as it stands, and the steps that led to it and onward. */
export type Work = {
  readonly part: Part;
  readonly steps: readonly Step[];
  readonly position: number;
  readonly fileCopy: { readonly name: string; readonly at: number } | null;
};

export type KeepState =
  | { readonly kind: 'keeping' }
  | { readonly kind: 'kept' }
  | { readonly kind: 'failed'; readonly say: string };

type Head = Omit<Work, 'steps'> & { readonly count: number };
interface Store extends DBSchema {
  head: { key: 'work'; value: Head };
  steps: { key: number; value: Step };
  bench: { key: 'progress'; value: unknown };
}

const NAME = 'shaftwright';
const VERSION = 1;

/**
 * Keeps the work in the browser's own store: one write after another, always the newest state, each in one
 * transaction, so that a reload never finds half an edit. Where the browser refuses, it says so and the work goes on.
 */
export class Keeper {
  #db: IDBPDatabase<Store> | null = null;
  #say: (state: KeepState) => void;
  #wanted: Work | null = null;
  #written: readonly Step[] = [];
  #busy: Promise<void> | null = null;

  constructor(say: (state: KeepState) => void) {
    this.#say = say;
  }

  /** The work of the last visit; null where there is none or the store cannot be had. Never rejects. */
  async open(): Promise<Work | null> {
    try {
      this.#db = await openStore();
      const work = await readWork(this.#db);
      this.#written = work?.steps ?? [];
      this.#say({ kind: 'kept' });
      return work;
    } catch (fault) {
      this.#fail(fault);
      return null;
    }
  }

  /** Keeps the work; while a write is on its way only the newest state waits. */
  keep(work: Work): void {
    if (!this.#db) return;
    this.#wanted = work;
    this.#say({ kind: 'keeping' });
    this.#busy ??= this.#writeAll();
  }

  /** Settles when everything that was to be kept is kept, or refused. */
  async settled(): Promise<void> {
    await this.#busy;
  }

  async progress(): Promise<unknown> {
    try {
      return (await this.#db?.get('bench', 'progress')) ?? null;
    } catch {
      return null; // the ticks are a convenience; the plan itself is all there
    }
  }

  async keepProgress(progress: unknown): Promise<void> {
    try {
      await this.#db?.put('bench', progress, 'progress');
    } catch (fault) {
      this.#fail(fault);
    }
  }

  close(): void {
    this.#db?.close();
    this.#db = null;
  }

  async #writeAll(): Promise<void> {
    try {
      while (this.#wanted && this.#db) {
        const work = this.#wanted;
        this.#wanted = null;
        await writeWork(this.#db, work, this.#written);
        this.#written = work.steps;
      }
      this.#say({ kind: 'kept' });
    } catch (fault) {
      this.#fail(fault);
    } finally {
      this.#busy = null;
    }
  }

  #fail(fault: unknown): void {
    this.#written = []; // what the store holds is unknown now; the next write puts every step again
    const full = fault instanceof DOMException && fault.name === 'QuotaExceededError';
    const why = full ? 'The browser has no room left' : 'This browser does not let the page keep anything';
    this.#say({ kind: 'failed', say: `${why}: save a file before you close this window.` });
  }
}

/** Empties the store; for tests and for a person who wants to start afresh. */
export const forgetAll = (): Promise<void> => deleteDB(NAME);

function openStore(): Promise<IDBPDatabase<Store>> {
  return openDB<Store>(NAME, VERSION, {
    upgrade(db) {
      db.createObjectStore('head');
      db.createObjectStore('steps');
      db.createObjectStore('bench');
    },
    blocking: (_now, _next, event) => (event.target as IDBDatabase).close(),
  });
}

async function readWork(db: IDBPDatabase<Store>): Promise<Work | null> {
  const tx = db.transaction(['head', 'steps']);
  const head = await tx.objectStore('head').get('work');
  if (!head) return null;
  const steps = await tx.objectStore('steps').getAll();
  const { count, ...rest } = head;
  const whole = steps.length === count;
  return { ...rest, steps: whole ? steps : [], position: whole ? head.position : 0 };
}

/** Writes the head and those steps that differ from what was written before, in one transaction. */
async function writeWork(db: IDBPDatabase<Store>, work: Work, written: readonly Step[]): Promise<void> {
  const tx = db.transaction(['head', 'steps'], 'readwrite', { durability: 'strict' });
  const { steps, ...rest } = work;
  let same = 0;
  while (same < steps.length && steps[same] === written[same]) same += 1;
  const store = tx.objectStore('steps');
  const writes: Promise<unknown>[] = [store.delete(IDBKeyRange.lowerBound(same))];
  for (let i = same; i < steps.length; i += 1) {
    const step = steps[i];
    if (step) writes.push(store.put(step, i));
  }
  writes.push(tx.objectStore('head').put({ ...rest, count: steps.length }, 'work'));
  await Promise.all([...writes, tx.done]);
}
