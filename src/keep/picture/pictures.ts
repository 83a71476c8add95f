import type { Part } from '../../core/part/types.ts';
import { isDataUrl } from '../../core/tracing/data-url.ts';
import { isKept, readScan, type Scan } from '../../core/tracing/scan.ts';
import type { Db } from '../store.ts';

/** Pictures that nothing names any more stay this long: another window may be about to keep a part that does. */
const SPARED = 24 * 60 * 60 * 1000;

/**
 * The pictures that are traced, beside the parts: a part on the board, its steps and versions name a picture by a key,
 * so that none of them grows by it. A part that leaves the browser takes its picture along.
 */
export class Pictures {
  /** Called where the browser refuses to keep a picture; it is still there as long as the page is. */
  onrefused: () => void = () => undefined;
  #db: () => Db | null;
  #held = new Map<string, string>();

  constructor(db: () => Db | null) {
    this.#db = db;
  }

  /** Keeps a picture and gives what stands for it in a part. @param url - A data URL. */
  hold(url: string): string {
    const key = keyOf(url);
    if (this.#held.has(key)) return key;
    this.#held.set(key, url);
    void this.#write(key, url);
    return key;
  }

  /** The data URL of what stands in a part as its image; null where this browser does not have it, or not whole. */
  async find(image: string): Promise<string | null> {
    if (!isKept(image)) return isDataUrl(image) ? image : null;
    const held = this.#held.get(image);
    if (held !== undefined) return held;
    const kept: unknown = await this.#db()
      ?.get('pictures', image)
      .catch(() => undefined);
    const url = textIn(kept, 'url');
    if (url === null || keyOf(url) !== image) return null;
    this.#held.set(image, url);
    return url;
  }

  /** A part that came in, with its picture kept beside it. One whose picture is not fit to show stays as it is. */
  taken(part: Part): Part {
    const scan = sound(part);
    return scan && isDataUrl(scan.image)
      ? { ...part, scan: { ...scan, image: this.hold(scan.image) } }
      : part;
  }

  /** A part that goes out, with its picture in it. `lost` where the picture is not to be had. */
  async given(part: Part): Promise<{ readonly part: Part; readonly lost: boolean }> {
    const scan = sound(part);
    if (!scan || !isKept(scan.image)) return { part, lost: false };
    const image = await this.find(scan.image);
    return image === null
      ? { part, lost: true }
      : { part: { ...part, scan: { ...scan, image } }, lost: false };
  }

  /** Takes away pictures that no part, step or version in the store names. */
  async tidy(now: number): Promise<void> {
    const db = this.#db();
    if (!db || (await db.count('pictures')) === 0) return;
    const tx = db.transaction(['heads', 'moves', 'versions', 'pictures'], 'readwrite');
    const named = new Set<string>();
    const note = (text: string | null) => picturesNamed(text ?? '').forEach((key) => named.add(key));
    for await (const { value } of tx.objectStore('heads')) note(textIn(fieldOf(value, 'part'), 'text'));
    for await (const { value } of tx.objectStore('moves')) note(textIn(value, 'text'));
    for await (const { value } of tx.objectStore('versions')) note(textIn(fieldOf(value, 'part'), 'text'));
    for await (const cursor of tx.objectStore('pictures')) {
      const at = fieldOf(cursor.value, 'at');
      if (!named.has(cursor.key) && !(typeof at === 'number' && now - at <= SPARED)) await cursor.delete();
    }
    await tx.done;
  }

  async #write(key: string, url: string): Promise<void> {
    const db = this.#db();
    if (!db) return; // that nothing is kept here is said already
    try {
      await db.put('pictures', { url, at: Date.now() }, key);
    } catch {
      this.onrefused();
    }
  }
}

/** A field of a record; anything may stand in a store that was damaged. */
const fieldOf = (record: unknown, key: string): unknown =>
  typeof record === 'object' && record !== null ? (record as Record<string, unknown>)[key] : undefined;

function textIn(record: unknown, key: string): string | null {
  const text = fieldOf(record, key);
  return typeof text === 'string' ? text : null;
}

/** The keys of all pictures that a text names. */
export const picturesNamed = (text: string): ReadonlySet<string> =>
  new Set(text.match(/kept:[0-9a-z-]+/g) ?? []);

function sound(part: Part): Scan | null {
  const read = readScan(part.scan);
  return read?.ok ? read.value : null;
}

/** A key by content: the same picture is kept once, and a damaged one is known. Two runs of FNV-1a, and the length. */
function keyOf(url: string): string {
  let a = 0x811c9dc5;
  let b = 0x01000193;
  for (let i = 0; i < url.length; i += 1) {
    a = Math.imul(a ^ url.charCodeAt(i), 0x01000193);
    b = Math.imul(b ^ url.charCodeAt(url.length - 1 - i), 0x01000193);
  }
  const hex = (sum: number) => (sum >>> 0).toString(16).padStart(8, '0');
  return `kept:${hex(a)}${hex(b)}-${url.length.toString(36)}`;
}
