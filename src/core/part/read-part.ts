import type { Outcome, Problem } from '../problem.ts';
import { readJson, refusal } from './read-json.ts';
import { partSchema } from './schema.ts';
import { checkShape, checkVersion, isObject, ownField, type JsonObject } from './shape.ts';
import type { Part } from './types.ts';

/** Lists that hold things with an id, in the order of the file. */
export const ID_LISTS = [
  'faces',
  'segments',
  'points',
  'lengths',
  'edges',
  'holes',
  'crossings',
  'requirements',
] as const;

/** Texts that a thing of each kind must have; where one is missing it reads as empty, and resolving names it. */
const NEEDED_TEXTS: ReadonlyMap<string, readonly string[]> = new Map([
  ['segments/cylinder', ['diameter']],
  ['segments/thread', ['thread']],
  ['lengths/', ['size']],
  ['edges/chamfer', ['size']],
  ['edges/fillet', ['radius']],
  ['edges/undercut', ['width', 'depth']],
  ['holes/drill', ['diameter']],
  ['holes/bore', ['diameter']],
  ['holes/tap', ['thread', 'depth']],
  ['holes/centre', ['size']],
  ['crossings/hole', ['diameter', 'reaches']],
  ['crossings/keyseat', ['width', 'depth', 'to']],
  ['crossings/flat', ['to']],
  ['requirements/', ['min', 'max']],
]);

/** Most faces, steps, points and lengths that are read: the chains of so many are still worked out at once. */
const MOST_STATIONS = 12_000;
/** Most of anything else: well over any shaft, low enough that a hostile file cannot tire the reader out. */
const MOST_THINGS = 1000;
const LONG_LISTS: ReadonlySet<string> = new Set(['faces', 'segments', 'points', 'lengths']);

const CONTROL = /\p{Cc}/u;

const listOf = (file: JsonObject, list: string): readonly JsonObject[] => {
  const items = ownField(file, list);
  return Array.isArray(items) ? items.filter(isObject) : [];
};

function idProblem(value: JsonObject, file: string): Problem | null {
  const seen = new Map<string, string>();
  for (const list of ID_LISTS) {
    for (const [i, item] of listOf(value, list).entries()) {
      const id = ownField(item, 'id');
      if (typeof id !== 'string') continue;
      const where = `${list}[${i}].id`;
      if (CONTROL.test(id))
        return refusal('bad-id', file, where, `the id ${JSON.stringify(id)} has control characters`);
      const first = seen.get(id);
      if (first !== undefined)
        return refusal('duplicate-id', file, where, `the id "${id}" is already used at ${first}`);
      seen.set(id, where);
    }
  }
  return null;
}

function manyProblem(value: JsonObject, file: string): Problem | null {
  for (const list of ID_LISTS) {
    const most = LONG_LISTS.has(list) ? MOST_STATIONS : MOST_THINGS;
    const count = listOf(value, list).length;
    if (count > most)
      return refusal('too-many', file, list, `${count} are more than a part may have here (${most})`);
  }
  return null;
}

function countProblem(value: JsonObject, file: string): Problem | null {
  const faces = listOf(value, 'faces').length;
  const segments = listOf(value, 'segments').length;
  if (faces === segments + 1) return null;
  return refusal(
    'face-count',
    file,
    'faces',
    `${segments} segments have ${segments + 1} faces, found ${faces}`,
  );
}

/** Stations without a sketched place follow one unit after the one before. */
function withSketched(items: readonly JsonObject[]): readonly JsonObject[] {
  let last = -1;
  return items.map((item) => {
    const own = ownField(item, 'sketched');
    last = typeof own === 'number' ? own : last + 1;
    return own === undefined ? { ...item, sketched: last } : item;
  });
}

function withTexts(list: string, item: JsonObject): JsonObject {
  const form = ownField(item, 'form');
  const needed = NEEDED_TEXTS.get(`${list}/${typeof form === 'string' ? form : ''}`) ?? [];
  const missing = needed.filter((key) => !Object.hasOwn(item, key));
  return missing.length === 0 ? item : { ...item, ...Object.fromEntries(missing.map((key) => [key, ''])) };
}

/** The part with what may be left out filled in. Spreading copies own keys one by one, `__proto__` included. */
function filled(value: JsonObject): Part {
  const lists = ID_LISTS.map((list) => {
    const items = listOf(value, list).map((item) => withTexts(list, item));
    return [list, list === 'faces' || list === 'points' ? withSketched(items) : items] as const;
  });
  return {
    ...value,
    title: ownField(value, 'title') ?? '',
    ...Object.fromEntries(lists),
    matched: ownField(value, 'matched') ?? [],
  } as unknown as Part;
}

/**
 * Reads the text of a part file.
 *
 * Refused, as a whole and in one line that names file, place and reason: `not-json`, `too-large`, `too-deep`, `too-wide`,
 * `not-a-part` (no part file, or a field of the wrong kind), `newer-version`, `face-count` (faces are not one more
 * than segments), `too-many` of a kind, `duplicate-id`, `bad-id`. A size that cannot be read or a length that names an unknown face is
 * not refused: `resolvePart` names it, and nothing that was typed is lost.
 *
 * Optional lists that are missing are empty; a size that is missing is an empty text; unknown fields are kept.
 * Never throws, whatever the text.
 */
export function readPart(text: string, file: string): Outcome<Part> {
  const json = readJson(text, file);
  if (!json.ok) return json;
  return partFrom(json.value, file);
}

/** As `readPart`, from a value that is already parsed (a kept record, a backup). */
export function partFrom(value: unknown, file: string): Outcome<Part> {
  const versioned = checkVersion(value, 'shaftwright', 1, file, 'part');
  if (!versioned.ok) return versioned;
  const shaped = checkShape(partSchema, versioned.value, file, 'not-a-part');
  if (!shaped.ok) return shaped;
  const problem =
    manyProblem(shaped.value, file) ?? countProblem(shaped.value, file) ?? idProblem(shaped.value, file);
  return problem ? { ok: false, problem } : { ok: true, value: filled(shaped.value) };
}

/** Whether a text may stand as an id: not empty, not too long, no control characters. */
export const isId = (id: string): boolean => id !== '' && id.length <= 200 && !CONTROL.test(id);
