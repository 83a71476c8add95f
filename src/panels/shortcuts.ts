/** What a key asks of the whole app: a named action, or the number of a place counted from 0. */
export type KeyAction =
  'undo' | 'redo' | 'save' | 'open' | 'print' | 'keys' | 'leave' | 'delete' | 'tables' | number;

/** The keys of the whole app in words: an action without words does not compile. */
export const shortcutWords: Readonly<
  Record<Extract<KeyAction, string> | 'place', readonly [string, string]>
> = {
  undo: ['Ctrl+Z', 'undo'],
  redo: ['Ctrl+Y', 'redo'],
  save: ['Ctrl+S', 'save as a file'],
  open: ['Ctrl+O', 'open a file'],
  print: ['Ctrl+P', 'print the sheet'],
  place: ['1 … 6', 'go to a place'],
  tables: ['T', 'the tables: look up threads, fits, drills, tapers …'],
  delete: ['Delete', 'delete what is chosen'],
  leave: ['Esc', 'leave a field as it was; let go of a choice; close a card'],
  keys: ['?', 'this card'],
};

type Key = Pick<
  KeyboardEvent,
  'key' | 'ctrlKey' | 'metaKey' | 'altKey' | 'shiftKey' | 'target' | 'defaultPrevented'
>;

/**
 * The action of a key, or null. Keys that write (letters, figures, `?`) act only outside fields; undo and redo act
 * everywhere but in a field with unfinished text, which has an undo of its own.
 */
export function keyAction(event: Key): KeyAction | null {
  if (event.defaultPrevented || event.altKey) return null;
  const field = fieldOf(event.target);
  if (event.ctrlKey || event.metaKey) return commandOf(event, field);
  if (event.key === 'Escape') return field ? null : 'leave';
  if (field) return null;
  if (event.key === '?') return 'keys';
  if (event.key === 't' || event.key === 'T') return 'tables';
  if (event.key === 'Delete') return 'delete';
  if (/^[1-6]$/.test(event.key)) return Number(event.key) - 1;
  return null;
}

function commandOf(event: Key, field: HTMLElement | null): KeyAction | null {
  const key = event.key.toLowerCase();
  if (key === 's') return 'save';
  if (key === 'o') return 'open';
  if (key === 'p') return 'print';
  if (field && isUnfinished(field)) return null;
  if (key === 'y' || (key === 'z' && event.shiftKey)) return 'redo';
  return key === 'z' ? 'undo' : null;
}

const fieldOf = (target: EventTarget | null): HTMLElement | null =>
  target instanceof HTMLElement
    ? target.closest<HTMLElement>('input:not([type=checkbox]), select, textarea')
    : null;

/** Fields mark themselves while they hold text that has not been taken yet. */
const isUnfinished = (field: HTMLElement): boolean => field.dataset['unfinished'] === 'true';
