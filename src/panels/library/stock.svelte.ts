import { LARGEST_BACKUP } from '../../keep/looks-like-backup.ts';
import { readBackup, writeBackup, type Backup } from '../../keep/backup.ts';
import type { Work } from '../../keep/autosave.ts';
import { dropEntry } from '../../keep/entry.ts';
import { download, type Incoming } from '../../keep/files.ts';
import {
  addEntry,
  duplicateEntry,
  listEntries,
  renameEntry,
  trashEntry,
  type Shelved,
} from '../../keep/library.ts';
import { picturesNamed } from '../../keep/picture/pictures.ts';
import { freshCard, type Db } from '../../keep/store.ts';
import { keepVersion, listVersions, type Version } from '../../keep/versions.ts';
import type { Counter } from './shelf.svelte.ts';

/** All parts that this browser keeps, and the versions of the one on the board: listed, renamed, thrown away, saved, taken in. */
export class Stock {
  entries = $state.raw<readonly Shelved[]>([]);
  versions = $state.raw<readonly Version[]>([]);
  #counter: Counter;

  constructor(counter: Counter) {
    this.#counter = counter;
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
    const gone = this.entries.filter(({ card }) => card.trashed && card.id !== this.#counter.keeper.card.id);
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

  /** Takes all parts of a backup in. A refusal is said in one line and changes nothing. */
  async takeBackup({ name: file, text }: Incoming): Promise<void> {
    const read = readBackup(text, file);
    if (!read.ok) return this.#counter.say(read.problem.say, true);
    const { parts, lathe, pictures } = read.value;
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

  async #change(work: (db: Db) => Promise<void>): Promise<void> {
    const { db } = this.#counter.keeper;
    if (!db) return this.#counter.say('This browser keeps nothing, so there is no shelf.', true);
    await this.#orSay(async () => {
      await this.#counter.keeper.settled();
      await work(db);
    });
    await this.look();
  }

  async #orSay(work: () => Promise<void>): Promise<void> {
    try {
      await work();
    } catch (fault) {
      this.#counter.say(fault instanceof Error ? fault.message : String(fault), true);
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
