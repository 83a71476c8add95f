import * as v from 'valibot';
import type { Outcome } from '../problem.ts';
import { oneLine, refusal } from './read-json.ts';

/** A JSON object as it was parsed: own keys of any name. */
export type JsonObject = { readonly [key: string]: unknown };

export const isObject = (value: unknown): value is JsonObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** An own field, never an inherited one: a file may well name a thing `constructor`. */
export const ownField = (object: JsonObject, key: string): unknown =>
  Object.hasOwn(object, key) ? object[key] : undefined;

/** A path in the file as people write it: `lengths[3].size`, `general.lengths`. */
export function pathText(keys: readonly (string | number)[]): string {
  return keys.reduce<string>(
    (path, key) => (typeof key === 'number' ? `${path}[${key}]` : path === '' ? key : `${path}.${key}`),
    '',
  );
}

type Spot = { readonly path: readonly (string | number)[]; readonly issue: v.BaseIssue<unknown> };

/** An issue with its path. Where a union was not met, the nested issue that came farthest says best what is wrong. */
function spotOf(issue: v.BaseIssue<unknown>): Spot {
  const path = (issue.path ?? []).map(({ key }) => (typeof key === 'number' ? key : String(key)));
  const nested = (issue.issues ?? []).filter((one) => one.path).map(spotOf);
  const farthest = nested.sort((a, b) => b.path.length - a.path.length)[0];
  return farthest ? { path: [...path, ...farthest.path], issue: farthest.issue } : { path, issue };
}

function found(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  if (isObject(value)) return 'an object';
  if (typeof value === 'string') return value.length > 200 ? 'a very long text' : JSON.stringify(value);
  return String(value);
}

const KINDS: ReadonlyMap<string, string> = new Map([
  ['string', 'a text in quotes'],
  ['Array', 'a list'],
  ['Object', 'an object'],
  ['number', 'a number'],
  ['boolean', 'true or false'],
  ['(string | Object)', 'a size in quotes'],
]);

function reason(issue: v.BaseIssue<unknown>): string {
  if (issue.input === undefined) return 'it is missing';
  const { type, expected } = issue;
  if (type === 'max_length') return 'it is too long';
  if (type === 'min_length') return Array.isArray(issue.input) ? 'the list is empty' : 'it is empty';
  const wanted = KINDS.get(expected ?? '') ?? (expected ?? 'something else').replace(/[()]/g, '');
  const wanting = wanted.replaceAll(' | ', ' or ').replace(/^>=/, 'at least ').replace(/^<=/, 'at most ');
  return `expected ${wanting}, found ${oneLine(found(issue.input), 60)}`;
}

/**
 * Holds a parsed file against a schema.
 *
 * @returns The very object that came in where it fits: a schema library's own copy would lose own keys named
 *   `__proto__` or `constructor`, which a file may carry and must get back. Else a refusal that names the first
 *   place that does not fit.
 */
export function checkShape(
  schema: v.GenericSchema,
  value: unknown,
  file: string,
  code: string,
): Outcome<JsonObject> {
  if (!isObject(value)) {
    return { ok: false, problem: refusal(code, file, '', `expected an object, found ${found(value)}`) };
  }
  const result = v.safeParse(schema, value, { abortEarly: true });
  if (result.success) return { ok: true, value };
  const { path, issue } = spotOf(result.issues[0]);
  return { ok: false, problem: refusal(code, file, pathText(path), reason(issue)) };
}

/** Refuses a file whose format version is missing, no whole number from 1 up, or newer than `known`. */
export function checkVersion(
  value: unknown,
  key: string,
  known: number,
  file: string,
  kind: 'part' | 'lathe',
): Outcome<JsonObject> {
  const code = `not-a-${kind}`;
  const refuse = (problemCode: string, where: string, why: string) =>
    ({ ok: false, problem: refusal(problemCode, file, where, why) }) as const;
  if (!isObject(value))
    return refuse(code, '', `not a ${kind} file: expected an object, found ${found(value)}`);
  const version = ownField(value, key);
  if (version === undefined) return refuse(code, key, `not a ${kind} file: the field "${key}" is missing`);
  if (typeof version !== 'number') {
    return refuse(
      code,
      key,
      `not a ${kind} file: expected a version number, found ${oneLine(found(version), 60)}`,
    );
  }
  if (version > known) {
    return refuse(
      'newer-version',
      key,
      `format version ${version} is newer than ${known}, the newest known here`,
    );
  }
  if (version !== known) return refuse(code, key, `there is no format version ${version}`);
  return { ok: true, value };
}
