import type { Edit } from './edit.ts';
import { sameJson } from './same-json.ts';
import { isObject } from './shape.ts';

/** The one field in which two objects differ; null where it is none or several. */
function onlyDifference(was: object, now: object): string | null {
  const one = new Map<string, unknown>(Object.entries(was));
  const other = new Map<string, unknown>(Object.entries(now));
  const keys = [...new Set([...one.keys(), ...other.keys()])];
  const changed = keys.filter((key) => !sameJson(one.get(key), other.get(key)));
  return changed.length === 1 ? (changed[0] ?? null) : null;
}

/**
 * The single field that an edit types in, as a text that is equal for equal places; null for edits that add, drop
 * or change several fields. Typing goes on in one place: whoever keeps the history joins such edits.
 */
export function placeOf(edit: Edit): string | null {
  // Pins are chosen, not typed: each choice is a step of its own, however quickly one follows another. So is what is
  // said of a stub: its length and its diameter are two things.
  if (edit.kind === 'set' && (edit.field === 'pins' || edit.field === 'stubs')) return null;
  if (edit.kind === 'set') return edit.field === 'scan' ? placeInScan(edit) : JSON.stringify([edit.field]);
  if (edit.kind !== 'change') return null;
  const field = onlyDifference(edit.was, edit.now);
  return field === null || field === 'id' ? null : JSON.stringify([edit.list, edit.at, edit.was.id, field]);
}

/** A picture is one field of the part and many to whoever places it: fading it and locking it are two things. */
function placeInScan({ was, now }: Extract<Edit, { field: 'scan' }>): string | null {
  const field = isObject(was) && isObject(now) ? onlyDifference(was, now) : null;
  return field === null ? null : JSON.stringify(['scan', field]);
}

/** Two edits of one place as one; null where the second does not go on from the first. */
export function joinEdits(first: Edit, second: Edit): Edit | null {
  const place = placeOf(first);
  if (place === null || place !== placeOf(second)) return null;
  if (!('now' in first) || !('was' in second) || !sameJson(first.now, second.was)) return null;
  return { ...first, now: second.now } as Edit;
}
