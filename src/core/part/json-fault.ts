/** Where a text stops being JSON. Lines and columns count from 1. */
export type JsonFault = { readonly line: number; readonly column: number; readonly reason: string };

type Want = 'value' | 'value-or-close' | 'key' | 'key-or-close' | 'colon' | 'next' | 'end';

const WANTED: Readonly<Record<Want, string>> = {
  value: 'a value',
  'value-or-close': 'a value or ]',
  key: 'a name in double quotes',
  'key-or-close': 'a name in double quotes or }',
  colon: 'a colon',
  next: 'a comma or the closing bracket',
  end: 'nothing more',
};

const SPACE = /[ \t\n\r]*/y;
const NAME = /"(?:[^"\\\p{Cc}]|[\u007f-\u009f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"/uy;
const SCALAR = /(?:-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][-+]?\d+)?|true|false|null)(?![\w.+-])/y;

/** The end of what `pattern` matches at `at`; -1 where it does not. */
function past(pattern: RegExp, text: string, at: number): number {
  pattern.lastIndex = at;
  return pattern.test(text) ? pattern.lastIndex : -1;
}

type State = { at: number; want: Want; readonly open: string[] };

function close(state: State): void {
  state.open.pop();
  state.at += 1;
  state.want = state.open.length === 0 ? 'end' : 'next';
}

function takeValue(state: State, text: string): boolean {
  const c = text[state.at];
  if (c === '{' || c === '[') {
    state.open.push(c);
    state.at += 1;
    state.want = c === '{' ? 'key-or-close' : 'value-or-close';
    return true;
  }
  if (c === ']' && state.want === 'value-or-close') {
    close(state);
    return true;
  }
  const end = past(c === '"' ? NAME : SCALAR, text, state.at);
  if (end < 0) return false;
  state.at = end;
  state.want = state.open.length === 0 ? 'end' : 'next';
  return true;
}

function takeKey(state: State, text: string): boolean {
  if (text[state.at] === '}' && state.want === 'key-or-close') {
    close(state);
    return true;
  }
  const end = past(NAME, text, state.at);
  if (end < 0) return false;
  state.at = end;
  state.want = 'colon';
  return true;
}

function takeNext(state: State, text: string): boolean {
  const c = text[state.at];
  const inside = state.open.at(-1);
  if (c === ',') {
    state.at += 1;
    state.want = inside === '{' ? 'key' : 'value';
    return true;
  }
  if (c !== (inside === '{' ? '}' : ']')) return false;
  close(state);
  return true;
}

function take(state: State, text: string): boolean {
  if (state.want === 'end') return false;
  if (state.want === 'next') return takeNext(state, text);
  if (state.want === 'key' || state.want === 'key-or-close') return takeKey(state, text);
  if (state.want !== 'colon') return takeValue(state, text);
  if (text[state.at] !== ':') return false;
  state.at += 1;
  state.want = 'value';
  return true;
}

const BAD_TEXT = 'a text in quotes that is not closed, or holds a line break or a wrong escape';

/** Something in quotes stands where it may, and yet is refused. */
const isBadText = ({ at, want }: State, text: string): boolean =>
  text[at] === '"' && want !== 'colon' && want !== 'next' && want !== 'end';

/**
 * The first place where `text`, which JSON.parse refused, is not JSON (RFC 8259), and what was wanted there. The
 * engines word their own messages differently, and some give no place.
 */
export function jsonFault(text: string): JsonFault {
  const state: State = { at: 0, want: 'value', open: [] };
  do state.at = past(SPACE, text, state.at);
  while (state.at < text.length && take(state, text));
  const before = text.slice(0, state.at).split('\n');
  const found = state.at >= text.length ? 'the file ends' : `found “${text.slice(state.at, state.at + 12)}”`;
  return {
    line: before.length,
    column: (before.at(-1) ?? '').length + 1,
    reason: isBadText(state, text) ? BAD_TEXT : `${found} where ${WANTED[state.want]} was expected`,
  };
}
