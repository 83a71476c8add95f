import { isFull, Overtaken, readEntry, writeEntry, type Entry, type Work } from './entry.ts';
import type { Step } from './history.ts';
import { keepVersion } from './versions.ts';
import { freshCard, openStore, type Card, type Db, type Origin } from './store.ts';

export type { Work } from './entry.ts';

export type KeepState =
  | { readonly kind: 'keeping' }
  | { readonly kind: 'kept' }
  /** Another window works on this part; this one shows what that one keeps. */
  | { readonly kind: 'following' }
  | { readonly kind: 'failed'; readonly say: string };

/** After a refusal the work is offered to the store again, without waiting for the next edit. */
const AGAIN_AFTER = 5_000;
/** A store that has not answered by then is not waited for: the page would stand still for good. */
const SLOW = 8_000;

/**
 * Keeps the part on the board in the browser's own store: one write after another, always the newest state, each in
 * one transaction, so that a reload never finds half an edit. Where the browser refuses, it says so, the work goes on
 * and is offered again.
 */
export class Keeper {
  /** Called with the id of an entry whenever its newest state is on the disk. */
  onkept: (id: string) => void = () => undefined;
  /** Called where another window wrote the part first; `work` is what this window has and the store has not. */
  onovertaken: (work: Work) => void = () => undefined;
  /** Whether nothing could be read of the part that was on the board last. */
  lostLast = false;
  #db: Db | null = null;
  #say: (state: KeepState) => void;
  #page: Page = freshPage('app', null);
  #busy: Promise<void> | null = null;
  #again: ReturnType<typeof setTimeout> | null = null;
  #still = false;

  constructor(say: (state: KeepState) => void) {
    this.#say = say;
  }

  /** The store; null where it cannot be had. */
  get db(): Db | null {
    return this.#db;
  }
  /** The entry that is on the board. */
  get card(): Card {
    return this.#page.card;
  }
  /** Whether something is on the board that is not in the store. */
  get pending(): boolean {
    return this.#page.wanted !== null || this.#page.writing;
  }

  /** The work of the last visit; null where there is none or the store cannot be had. Never rejects. */
  async open(): Promise<Work | null> {
    const entry = await this.openLast();
    return entry?.work ?? null;
  }

  /** As `open`, with all that is known of the entry. */
  async openLast(): Promise<Entry | null> {
    try {
      this.#db = await inTime(openStore(() => this.#lost()));
      const id = await this.#db.get('meta', 'current');
      const entry = typeof id === 'string' ? await this.openEntry(id) : null;
      this.lostLast = entry === null && typeof id === 'string';
      this.#say({ kind: 'kept' });
      return entry;
    } catch (fault) {
      this.#fail(fault);
      return null;
    }
  }

  /** Puts another entry of the library under this keeper; null, and nothing changed, where it cannot be read. */
  async openEntry(id: string): Promise<Entry | null> {
    if (!this.#db) return null;
    await this.settled();
    const entry = await readEntry(this.#db, id);
    if (!entry) return null;
    this.#adopt(entry);
    await this.#db.put('meta', id, 'current');
    if (entry.work.steps.length > 0) await keepVersion(this.#db, entry.card, entry.work.part, null);
    return entry;
  }

  /** What the store holds of the entry by now, taken up in place of what was seen of it. */
  async reread(): Promise<Entry | null> {
    const entry = this.#db ? await readEntry(this.#db, this.card.id) : null;
    if (entry) this.#adopt(entry);
    return entry;
  }

  /** From here on what is kept is a new entry; what is still on its way goes where it belongs. Gives its id. */
  startEntry(origin: Origin, from: string | null): string {
    this.#page = freshPage(origin, from);
    this.#still = false;
    return this.card.id;
  }

  /** While it is still, nothing is written: another window has its turn, or another entry is being fetched. */
  beStill(still: boolean, state: KeepState = { kind: 'kept' }): void {
    this.#still = still;
    if (this.#db) this.#say(state);
  }

  /** Keeps the work; while a write is on its way only the newest state waits. */
  keep(work: Work): void {
    const page = this.#page;
    if (!this.#db || this.#still || sameWork(work, page.wanted ?? page.last)) return;
    page.wanted = work;
    this.#say({ kind: 'keeping' });
    this.#start(page);
  }

  /** Settles when everything that was to be kept is kept, or refused. */
  async settled(): Promise<void> {
    await this.#busy;
  }

  async progress(): Promise<unknown> {
    try {
      return (await this.#db?.get('bench', this.card.id)) ?? null;
    } catch {
      return null; // the ticks are a convenience; the plan itself is all there
    }
  }

  async keepProgress(progress: unknown): Promise<void> {
    try {
      await this.#db?.put('bench', progress, this.card.id);
    } catch (fault) {
      this.#fail(fault);
    }
  }

  close(): void {
    if (this.#again) clearTimeout(this.#again);
    this.#db?.close();
    this.#db = null;
  }

  #adopt({ card, work }: Entry): void {
    this.#page = { card, written: work.steps, last: work, wanted: null, writing: false };
    this.#still = false;
  }

  #start(page: Page): void {
    if (page.writing) return;
    page.writing = true;
    this.#busy = this.#busy ? this.#busy.then(() => this.#writeAll(page)) : this.#writeAll(page);
  }

  async #writeAll(page: Page): Promise<void> {
    try {
      while (page.wanted && this.#db) {
        const work = page.wanted;
        page.card = await writeEntry(this.#db, page.card, work, page.written);
        if (page.wanted === work) page.wanted = null;
        page.written = work.steps;
        page.last = work;
        this.onkept(page.card.id);
      }
      if (page === this.#page && !this.#still) this.#say({ kind: 'kept' });
    } catch (fault) {
      if (fault instanceof Overtaken) this.#overtaken(page);
      else this.#fail(fault, page);
    } finally {
      page.writing = false;
    }
  }

  #overtaken(page: Page): void {
    const work = page.wanted;
    page.wanted = null;
    page.last = null;
    if (work) this.onovertaken(work);
  }

  #lost(): void {
    this.#db = null;
    const say =
      'Another window runs a newer version of Shaftwright: save a file, then load this window again.';
    this.#say({ kind: 'failed', say });
  }

  #fail(fault: unknown, page = this.#page): void {
    page.written = []; // what the store holds is unknown now; the next write puts every step again
    const why = isFull(fault)
      ? 'The browser has no room left'
      : fault instanceof NoAnswer
        ? 'The store of this browser does not answer'
        : 'This browser does not let the page keep anything';
    this.#say({ kind: 'failed', say: `${why}: save a file before you close this window.` });
    if (this.#again) return;
    this.#again = setTimeout(() => {
      this.#again = null;
      if (page.wanted && this.#db) this.#start(page);
    }, AGAIN_AFTER);
  }
}

/** An entry with what is to be written of it. */
type Page = {
  card: Card;
  wanted: Work | null;
  last: Work | null;
  written: readonly Step[];
  writing: boolean;
};
const freshPage = (origin: Origin, from: string | null): Page => ({
  ...{ card: freshCard(origin, from), wanted: null, last: null, written: [], writing: false },
});

const sameWork = (a: Work, b: Work | null): boolean =>
  b !== null &&
  a.part === b.part &&
  a.steps === b.steps &&
  a.position === b.position &&
  a.fileCopy === b.fileCopy;

class NoAnswer extends Error {}

/** The store, if it answers in time. One that answers later is closed again: what is on the board by then is not its work. */
function inTime(opening: Promise<Db>): Promise<Db> {
  return new Promise((resolve, reject) => {
    const late = setTimeout(() => {
      opening.then((db) => db.close()).catch(() => undefined); // it is told already that nothing is kept
      reject(new NoAnswer('no answer'));
    }, SLOW);
    opening.then(resolve, reject).finally(() => clearTimeout(late));
  });
}
