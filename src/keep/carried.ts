import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Piece } from './carry-code.ts';

/** A store of its own: pieces are no part yet, and a spoilt one must not reach what is kept. */
const NAME = 'shaftwright-carried';
const A_WEEK = 7 * 24 * 3600 * 1000;

interface Store extends DBSchema {
  pieces: { key: [string, number]; value: { readonly piece: Piece; readonly at: number } };
}

/**
 * Pieces of parts that came by code, in any order and over days: a phone opens each code as a page of its own. Where the
 * browser keeps nothing, they are kept as long as this page is open.
 */
export class Carried {
  #memory = new Map<string, Piece>();
  #db: Promise<IDBPDatabase<Store> | null> | null = null;

  /** Puts a piece to those of the same whole, and gives all that are there, in order. */
  async add(piece: Piece, now: number): Promise<readonly Piece[]> {
    this.#memory.set(`${piece.whole} ${piece.number}`, piece);
    const db = await this.#open();
    try {
      await db?.put('pieces', { piece, at: now }, [piece.whole, piece.number]);
      for (const { piece: kept, at } of (await db?.getAll('pieces')) ?? [])
        if (now - at > A_WEEK) await db?.delete('pieces', [kept.whole, kept.number]);
        else this.#memory.set(`${kept.whole} ${kept.number}`, kept);
    } catch {
      this.#db = Promise.resolve(null); // refused once (storage full): memory goes on
    }
    return [...this.#memory.values()]
      .filter(({ whole }) => whole === piece.whole)
      .sort((a, b) => a.number - b.number);
  }

  /** Forgets the pieces of a whole that has arrived. */
  async drop(whole: string): Promise<void> {
    for (const [key, piece] of this.#memory) if (piece.whole === whole) this.#memory.delete(key);
    const db = await this.#open();
    await db?.delete('pieces', IDBKeyRange.bound([whole, 0], [whole, Infinity])).catch(() => undefined);
  }

  #open(): Promise<IDBPDatabase<Store> | null> {
    this.#db ??= openDB<Store>(NAME, 1, {
      upgrade: (db) => void db.createObjectStore('pieces'),
    }).catch(() => null);
    return this.#db;
  }
}
