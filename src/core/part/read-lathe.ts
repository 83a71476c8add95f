import type { Outcome, Problem } from '../problem.ts';
import type { Lathe } from './lathe.ts';
import { latheSchema } from './lathe-schema.ts';
import { readJson, refusal } from './read-json.ts';
import { checkShape, checkVersion, isObject, ownField, type JsonObject } from './shape.ts';

/** What a lathe file may leave out, and what it then means. */
const LEFT_OUT = { name: '', collets: null, chucks: [], support: [], between_centres_drive: false };

function toolIdProblem(value: JsonObject, file: string): Problem | null {
  const tools = ownField(value, 'tools');
  const seen = new Map<unknown, number>();
  for (const [i, tool] of (Array.isArray(tools) ? tools : []).entries()) {
    const id: unknown = isObject(tool) ? ownField(tool, 'id') : undefined;
    const first = seen.get(id);
    const where = `tools[${i}].id`;
    if (first !== undefined) {
      return refusal(
        'duplicate-id',
        file,
        where,
        `the id "${String(id)}" is already used at tools[${first}].id`,
      );
    }
    if (/\p{Cc}/u.test(String(id))) {
      return refusal('bad-id', file, where, `the id ${JSON.stringify(id)} has control characters`);
    }
    seen.set(id, i);
  }
  return null;
}

/**
 * Reads the text of a lathe file. Refused, in one line that names file, place and reason: `not-json`, `too-large`,
 * `too-deep`, `too-wide`, `not-a-lathe`, `newer-version`, `duplicate-id` and `bad-id` of tools. A size that cannot be read is
 * named by `resolveLathe`. Without them: no collets, no chucks, no supports, no drive between centres. Never throws.
 */
export function readLathe(text: string, file: string): Outcome<Lathe> {
  const json = readJson(text, file);
  return json.ok ? latheFrom(json.value, file) : json;
}

/** As `readLathe`, from a value that is already parsed. */
export function latheFrom(value: unknown, file: string): Outcome<Lathe> {
  const versioned = checkVersion(value, 'shaftwright_lathe', 1, file, 'lathe');
  if (!versioned.ok) return versioned;
  const shaped = checkShape(latheSchema, versioned.value, file, 'not-a-lathe');
  if (!shaped.ok) return shaped;
  const problem = toolIdProblem(shaped.value, file);
  if (problem) return { ok: false, problem };
  return { ok: true, value: { ...LEFT_OUT, ...shaped.value } as unknown as Lathe };
}
