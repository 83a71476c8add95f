import { latheFrom } from '../core/part/read-lathe.ts';
import { readJson, refusal } from '../core/part/read-json.ts';
import { partFrom } from '../core/part/read-part.ts';
import { isObject, ownField, type JsonObject } from '../core/part/shape.ts';
import type { Lathe } from '../core/part/lathe.ts';
import type { Part } from '../core/part/types.ts';
import type { Outcome } from '../core/problem.ts';
import { isDataUrl } from '../core/tracing/data-url.ts';
import { LARGEST_BACKUP } from './looks-like-backup.ts';

export type SavedVersion = { readonly at: number; readonly name: string; readonly part: Part };
export type SavedPart = {
  readonly part: Part;
  readonly trashed: boolean;
  readonly versions: readonly SavedVersion[];
};
/**
 * Everything that a browser keeps, but for the steps of undo. `pictures`: those that parts name by a key, as data URLs;
 * the key follows from the picture.
 */
export type Backup = {
  readonly parts: readonly SavedPart[];
  readonly lathe: Lathe | null;
  readonly pictures: readonly string[];
};

/** 1 had no pictures. */
const VERSION = 2;
const MOST_PICTURES = 2_000;

/** More parts, or versions of one, than anybody keeps. */
const MOST_PARTS = 2_000;
const MOST_VERSIONS = 200;

/** The text of a backup. */
export const writeBackup = ({ parts, lathe, pictures }: Backup): string =>
  `${JSON.stringify({ shaftwright_backup: VERSION, lathe, pictures, parts }, null, 1)}\n`;

/**
 * Reads the text of a backup: whole or not at all. Refused in one line that names file, place and reason: `too-large`,
 * `too-deep`, `too-wide`, `too-many`, `not-json`, `not-a-backup`, `newer-version`, and whatever a part or a lathe in it is refused
 * for. Never throws.
 */
export function readBackup(text: string, file: string): Outcome<Backup> {
  const json = readJson(text, file, LARGEST_BACKUP);
  if (!json.ok) return json;
  const refuse = (code: string, where: string, reason: string): Outcome<never> => ({
    ok: false,
    problem: refusal(code, file, where, reason),
  });
  const { value } = json;
  if (!isObject(value)) return refuse('not-a-backup', '', 'not a backup: expected an object');
  const version = ownField(value, 'shaftwright_backup');
  if (typeof version === 'number' && version > VERSION) {
    return refuse('newer-version', 'shaftwright_backup', 'this backup is newer than this app');
  }
  if (version !== 1 && version !== VERSION)
    return refuse('not-a-backup', 'shaftwright_backup', 'not a backup of Shaftwright');
  const list = ownField(value, 'parts');
  if (!Array.isArray(list)) return refuse('not-a-backup', 'parts', 'expected a list');
  if (list.length > MOST_PARTS) return refuse('not-a-backup', 'parts', `more than ${MOST_PARTS} parts`);
  const pictures = picturesOf(value);
  if (!pictures) return refuse('not-a-backup', 'pictures', 'expected a list of pictures as data URLs');
  const lathe = readLatheOf(value, file);
  if (!lathe.ok) return lathe;
  const parts: SavedPart[] = [];
  for (const [i, item] of list.entries()) {
    const saved = savedPart(item, `${file}, parts[${i}]`);
    if (!saved.ok) return saved;
    parts.push(saved.value);
  }
  return { ok: true, value: { parts, lathe: lathe.value, pictures } };
}

/** Whether each can be shown at all is asked when one is. */
function picturesOf(value: JsonObject): readonly string[] | null {
  const list = ownField(value, 'pictures') ?? [];
  const fits = Array.isArray(list) && list.length <= MOST_PICTURES;
  return fits && list.every((url) => typeof url === 'string' && isDataUrl(url)) ? (list as string[]) : null;
}

function readLatheOf(value: JsonObject, file: string): Outcome<Lathe | null> {
  const lathe = ownField(value, 'lathe');
  return lathe === undefined || lathe === null
    ? { ok: true, value: null }
    : latheFrom(lathe, `${file}, lathe`);
}

function savedPart(item: unknown, file: string): Outcome<SavedPart> {
  const holder = isObject(item) ? item : {};
  const part = partFrom(ownField(holder, 'part'), file);
  if (!part.ok) return part;
  const listed = ownField(holder, 'versions');
  const versions: SavedVersion[] = [];
  for (const [i, one] of (Array.isArray(listed) ? listed.slice(-MOST_VERSIONS) : []).entries()) {
    const version = isObject(one) ? one : {};
    const read = partFrom(ownField(version, 'part'), `${file}, versions[${i}]`);
    if (!read.ok) return read;
    const at = ownField(version, 'at');
    const name = ownField(version, 'name');
    const shortName = typeof name === 'string' ? name.slice(0, 200) : '';
    versions.push({ at: isTime(at) ? at : 0, name: shortName, part: read.value });
  }
  return { ok: true, value: { part: part.value, trashed: ownField(holder, 'trashed') === true, versions } };
}

/** What a date can be made of. */
const isTime = (at: unknown): at is number => typeof at === 'number' && Math.abs(at) < 8e15;
