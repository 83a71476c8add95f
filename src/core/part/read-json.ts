import type { Outcome, Problem } from '../problem.ts';
import { jsonFault } from './json-fault.ts';

/** Largest file that is taken, in bytes; a text has no more characters than its file has bytes. */
export const LARGEST_FILE = 5_000_000;
/** Most values and openings in one file, whatever its size: building them is what takes the time. */
const MOST_VALUES = 2_600_000;
/** Deepest nesting that is opened; a part file needs five levels. */
export const DEEPEST_NESTING = 60;
/** Most fields that one object may have; objects with very many are slow to copy. */
const MOST_FIELDS = 1000;

/** A text on one line, cut short, without control characters: fit for a message. */
export function oneLine(text: string, most = 80): string {
  const flat = text.replace(/[\s\p{Cc}]+/gu, ' ').trim();
  return flat.length <= most ? flat : `${flat.slice(0, most - 1)}…`;
}

/** A problem that refuses a whole file: one line that names the file, the place and the reason. */
export function refusal(code: string, file: string, where: string, reason: string): Problem {
  const place = where === '' ? '' : `${where}: `;
  return {
    code,
    where,
    say: `${oneLine(file, 120)}: ${oneLine(`${place}${reason}`, 300)}`,
    facts: { file, reason },
  };
}

/** Looks over the nesting of a text without parsing it, so that nothing hostile is ever built. */
function overgrown(text: string): 'too-deep' | 'too-wide' | 'too-many' | null {
  const fields: number[] = [];
  let values = 0;
  let inString = false;
  for (let i = 0; i < text.length; i += 1) {
    const c = text[i];
    if (inString) {
      if (c === '\\') i += 1;
      else if (c === '"') inString = false;
    } else if (c === '"') inString = true;
    else if (c === '{' || c === '[') {
      if (fields.push(0) > DEEPEST_NESTING) return 'too-deep';
      values += 1;
    } else if (c === '}' || c === ']') fields.pop();
    else if (c === ',') values += 1;
    else if (c === ':') {
      const count = (fields.pop() ?? 0) + 1;
      if (count > MOST_FIELDS) return 'too-wide';
      fields.push(count);
    }
    if (values > MOST_VALUES) return 'too-many';
  }
  return null;
}

/**
 * The JSON value of a file's text, or why it is refused (`too-large`, `too-deep`, `too-wide`, `too-many`, `not-json` with line
 * and column). `largest` is for files that may be larger than others. Never throws. A byte-order mark at the front is passed over.
 */
export function readJson(text: string, file: string, largest = LARGEST_FILE): Outcome<unknown> {
  const refuse = (code: string, where: string, reason: string) =>
    ({ ok: false, problem: refusal(code, file, where, reason) }) as const;
  if (text.length > largest) return refuse('too-large', '', `the file is larger than ${largest / 1e6} MB`);
  const growth = overgrown(text);
  if (growth === 'too-deep') {
    return refuse(growth, '', `the file is nested deeper than ${DEEPEST_NESTING} levels`);
  }
  if (growth === 'too-many') return refuse(growth, '', `the file has more than ${MOST_VALUES} values`);
  if (growth) return refuse(growth, '', `something in the file has more than ${MOST_FIELDS} fields`);
  const body = text.startsWith('\uFEFF') ? text.slice(1) : text;
  if (body.trim() === '') return refuse('not-json', '', 'the file is empty');
  try {
    return { ok: true, value: JSON.parse(body) as unknown };
  } catch {
    const fault = jsonFault(body);
    return refuse('not-json', `line ${fault.line}, column ${fault.column}`, `not JSON: ${fault.reason}`);
  }
}
