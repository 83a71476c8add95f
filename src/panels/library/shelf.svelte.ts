import type { Keeper, Work } from '../../keep/autosave.ts';
import { dropEntry, type Entry } from '../../keep/entry.ts';
import type { Incoming } from '../../keep/files.ts';

import type { Pictures } from '../../keep/picture/pictures.ts';
import type { Origin } from '../../keep/store.ts';
import { pageTurn, type Turn } from '../../keep/turn.ts';
import type { Lathe } from '../../core/part/lathe.ts';

/** What the shelf needs of the shop: the board to put parts on, and a line to say things in. */
export type Counter = {
  readonly keeper: Keeper;
  readonly lathe: Lathe;
  readonly pictures: Pictures;
  work(): Work;
  putBack(work: Work): Promise<void>;
  chooseLathe(lathe: Lathe): void;
  say(say: string, wrong?: boolean, offer?: { name: string; take: () => void }): void;
};

/** Which of the kept parts is on the board, and whose turn it is to work on it. What else is done with them is `Stock`. */
export class Shelf {
  /** Counts what came onto the shelf or went, for whoever lists it. */
  changes = $state(0);
  /** Another window works on this part; nothing can be done to it here. */
  follows = $state(false);
  /** Whether the browser promised not to clear the store by itself; null while it was not asked. */
  lasting = $state<boolean | null>(null);
  #counter: Counter;
  #turn: Turn;

  constructor(counter: Counter, turn: Turn = pageTurn()) {
    this.#counter = counter;
    this.#turn = turn;
    counter.keeper.onkept = (id) => turn.kept(id);
    counter.keeper.onovertaken = (work) => void this.#setAside(work);
    turn.ongive = () => counter.keeper.settled();
    turn.onother = () => void this.#catchUp();
    turn.onturn = (mine) => void this.#turned(mine);
  }

  get current(): string {
    return this.#counter.keeper.card.id;
  }

  /** Takes up an entry that the keeper has opened: says what was mended, and follows where another window works. */
  async arrived({ card, mended }: Entry): Promise<void> {
    if (mended) this.#counter.say(mended, true);
    const mine = await this.#turn.take(card.id);
    this.#follow(!mine);
    if (!mine) this.#sayFollowing();
  }

  /** The first visit: what is on the board is this window's. */
  begin(): void {
    void this.#turn.take(this.current);
  }

  /** A new entry for what is put on the board now. The one before stays on the shelf, unless it is worth nothing. */
  started(origin: Origin): void {
    const { keeper } = this.#counter;
    const before = keeper.card;
    const worthless = this.#isUntouched(this.#counter.work(), before.origin);
    const id = keeper.startEntry(origin, worthless ? null : before.id);
    this.follows = false;
    void this.#turn.take(id);
    if (worthless) void keeper.settled().then(() => this.#dropQuietly(before.id));
  }

  /** Puts a kept part on the board. */
  async openEntry(id: string): Promise<boolean> {
    const { keeper } = this.#counter;
    const before = keeper.card;
    const worthless = this.#isUntouched(this.#counter.work(), before.origin);
    const entry = await this.#orSay(() => keeper.openEntry(id));
    if (!entry) {
      if (entry === null) this.#counter.say('Nothing of this part can be read any more.', true);
      keeper.beStill(this.follows);
      return false;
    }
    await this.#counter.putBack(entry.work);
    await this.arrived(entry);
    if (worthless && before.id !== id) await this.#dropQuietly(before.id);
    this.changes += 1;
    return true;
  }

  /** Asks the window that works on this part to hand it over. */
  workHere(): void {
    this.#turn.askFor();
  }

  /** Says why nothing can be done here, with the way out. */
  refuse(): void {
    this.#sayFollowing();
  }

  /** Asks the browser not to clear the store by itself. */
  async askLasting(): Promise<void> {
    if (this.lasting !== null || typeof navigator === 'undefined' || !navigator.storage?.persist) return;
    this.lasting = false;
    this.lasting = await navigator.storage.persist().catch(() => false);
  }

  /** Takes all parts of a backup onto the shelf. A refusal is said in one line and changes nothing. */
  async takeBackup(incoming: Incoming): Promise<void> {
    await this.#orSay(async () => {
      const { Stock } = await import('./stock.svelte.ts');
      await new Stock(this.#counter).takeBackup(incoming);
      this.changes += 1;
    });
  }

  close(): void {
    this.#turn.close();
  }

  #isUntouched({ steps }: Work, origin: Origin): boolean {
    return origin === 'app' && (steps.length === 0 || (steps.length === 1 && steps[0]?.kind === 'opening'));
  }

  async #dropQuietly(id: string): Promise<void> {
    const { db } = this.#counter.keeper;
    if (db) await dropEntry(db, id).catch(() => undefined); // it is only one entry too many in the list
  }

  #follow(follows: boolean): void {
    this.follows = follows;
    this.#counter.keeper.beStill(follows, { kind: follows ? 'following' : 'kept' });
  }

  #sayFollowing(): void {
    const offer = { name: 'Work on it here', take: () => this.workHere() };
    this.#counter.say('Another window works on this part; this one follows it.', false, offer);
  }

  async #turned(mine: boolean): Promise<void> {
    if (mine) await this.#catchUp(true);
    this.#follow(!mine);
    if (mine) this.#counter.say('You work on this part here now.');
    else this.#sayFollowing();
  }

  async #catchUp(always = false): Promise<void> {
    if (!this.follows && !always) return;
    const entry = await this.#counter.keeper.reread().catch(() => null);
    if (!entry) return;
    if (this.follows) this.#counter.keeper.beStill(true, { kind: 'following' });
    await this.#counter.putBack(entry.work);
  }

  /** The store has what another window wrote; what this window has becomes a part of its own. */
  async #setAside(work: Work): Promise<void> {
    const title = `${work.part.title || 'Untitled shaft'} (from another window)`;
    this.#counter.keeper.startEntry('own', null);
    const { id } = this.#counter.keeper.card;
    await this.#counter.putBack({
      ...work,
      part: { ...work.part, title },
      steps: [],
      position: 0,
      fileCopy: null,
    });
    await this.#turn.take(id);
    this.#counter.say(
      'Another window changed this part too. What you have here is kept beside it, as a part of its own.',
    );
  }

  async #orSay<T>(work: () => Promise<T>): Promise<T | undefined> {
    try {
      return await work();
    } catch (fault) {
      this.#counter.say(fault instanceof Error ? fault.message : String(fault), true);
      return undefined;
    }
  }
}
