import type { Keeper, Work } from '../../keep/autosave.ts';
import { LARGEST_BACKUP, looksLikeBackup, readBackup, writeBackup, type Backup } from '../../keep/backup.ts';
import type { Entry } from '../../keep/entry.ts';
import { picturesNamed, type Pictures } from '../../keep/picture/pictures.ts';
import { download, type Incoming } from '../../keep/files.ts';
import {
  addEntry,
  dropEntry,
  duplicateEntry,
  listEntries,
  renameEntry,
  trashEntry,
  type Shelved,
} from '../../keep/library.ts';
import { freshCard, type Origin } from '../../keep/store.ts';
import { pageTurn, type Turn } from '../../keep/turn.ts';
import { keepVersion, listVersions, type Version } from '../../keep/versions.ts';
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

/** The library of kept parts, and whose turn it is to work on the one that is on the board. */
export class Shelf {
  entries = $state.raw<readonly Shelved[]>([]);
  versions = $state.raw<readonly Version[]>([]);
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
    await this.look();
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

  /** Reads the shelf anew. */
  async look(): Promise<void> {
    const { db, card } = this.#counter.keeper;
    if (!db) return;
    await this.#orSay(async () => {
      await this.#counter.keeper.settled();
      this.entries = await listEntries(db);
      this.versions = await listVersions(db, card.id);
    });
  }

  async duplicate(id: string): Promise<void> {
    await this.#change(async (db) => void (await duplicateEntry(db, id)));
  }
  async rename(id: string, title: string): Promise<void> {
    await this.#change((db) => renameEntry(db, id, title));
  }
  async trash(id: string, trashed: boolean): Promise<void> {
    await this.#change((db) => trashEntry(db, id, trashed));
  }
  async emptyTrash(): Promise<void> {
    const gone = this.entries.filter(({ card }) => card.trashed && card.id !== this.current);
    await this.#change(async (db) => {
      for (const { card } of gone) await dropEntry(db, card.id);
    });
  }
  async keepVersion(name: string): Promise<void> {
    const { keeper } = this.#counter;
    await this.#change((db) => keepVersion(db, keeper.card, this.#counter.work().part, name));
  }

  /** Everything in one file. Where it would be larger than a file that is taken, the oldest versions stay out. */
  async saveAll(date: string): Promise<void> {
    await this.look();
    const { db } = this.#counter.keeper;
    if (!db) return;
    await this.#orSay(async () => {
      const parts: Backup['parts'][number][] = [];
      for (const { card, part } of this.entries) {
        if (!part) continue;
        const versions = (await listVersions(db, card.id)).map(({ at, name, part: was }) => ({
          at,
          name,
          part: was,
        }));
        parts.push({ part, trashed: card.trashed, versions: versions.reverse() });
      }
      const named = [...picturesNamed(JSON.stringify(parts))];
      const found = await Promise.all(named.map((key) => this.#counter.pictures.find(key)));
      const pictures = found.filter((url) => url !== null);
      const { text, left } = withinLimit({ parts, lathe: this.#counter.lathe, pictures });
      download(new Blob([text], { type: 'application/json' }), `shaftwright-parts-${date}.json`);
      const less = left > 0 ? ` For want of room in one file, ${left} older versions stayed out.` : '';
      const gone = named.length - pictures.length;
      const lost = gone > 0 ? ` Not in this browser, so not in the file: traced pictures (${gone}).` : '';
      this.#counter.say(`${parts.length} parts are in one file.${less}${lost}`);
    });
  }

  /** Takes a backup in: true where the text was one, taken or refused. */
  takeBackup({ name, text }: Incoming): boolean {
    if (!looksLikeBackup(text)) return false;
    const read = readBackup(text, name);
    if (!read.ok) this.#counter.say(read.problem.say, true);
    else void this.#takeIn(read.value, name);
    return true;
  }

  close(): void {
    this.#turn.close();
  }

  async #takeIn({ parts, lathe, pictures }: Backup, file: string): Promise<void> {
    await this.look();
    for (const picture of pictures) this.#counter.pictures.hold(picture);
    const known = this.entries.map(({ part }) => JSON.stringify(part));
    let added = 0;
    await this.#change(async (db) => {
      for (const { part, trashed, versions } of parts) {
        if (known.includes(JSON.stringify(part))) continue;
        const work: Work = { part, steps: [], position: 0, fileCopy: { name: file, at: Date.now() } };
        const id = await addEntry(db, work, trashed);
        const card = { ...freshCard('shelf', null), id };
        for (const version of versions)
          await keepVersion(db, card, version.part, version.name || 'from a file');
        added += 1;
      }
    });
    if (lathe) this.#counter.chooseLathe(lathe);
    const twice = parts.length - added;
    this.#counter.say(
      `${file}: ${added} parts are on the shelf under Parts${twice > 0 ? `, ${twice} were there already` : ''}.`,
    );
  }

  async #change(work: (db: NonNullable<Keeper['db']>) => Promise<void>): Promise<void> {
    const { db } = this.#counter.keeper;
    if (!db) return this.#counter.say('This browser keeps nothing, so there is no shelf.', true);
    await this.#orSay(async () => {
      await this.#counter.keeper.settled();
      await work(db);
    });
    await this.look();
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

/** The text of a backup, without as many of the oldest versions as it takes to stay a file that can be read again. */
function withinLimit(backup: Backup): { text: string; left: number } {
  let { parts } = backup;
  let left = 0;
  for (;;) {
    const text = writeBackup({ ...backup, parts });
    const most = Math.max(0, ...parts.map(({ versions }) => versions.length));
    if (new Blob([text]).size <= LARGEST_BACKUP || most === 0) return { text, left };
    const keep = Math.floor(most / 2);
    left += parts.reduce((sum, { versions }) => sum + Math.max(0, versions.length - keep), 0);
    parts = parts.map((one) => ({ ...one, versions: keep === 0 ? [] : one.versions.slice(-keep) }));
  }
}
