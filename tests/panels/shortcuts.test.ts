import { afterEach, expect, test } from 'vitest';
import { keyAction } from '../../src/panels/shortcuts.ts';

afterEach(() => document.body.replaceChildren());

const pressed = (
  key: string,
  init: KeyboardEventInit = {},
  on: HTMLElement = document.createElement('div'),
) => {
  document.body.append(on);
  let action: ReturnType<typeof keyAction> = null;
  on.addEventListener('keydown', (event) => (action = keyAction(event)), { once: true });
  on.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true, ...init }));
  return action;
};
const ctrl = { ctrlKey: true };
const field = (unfinished = false) => {
  const input = document.createElement('input');
  input.dataset['unfinished'] = String(unfinished);
  return input;
};

test.each([
  ['z', ctrl, 'undo'],
  ['y', ctrl, 'redo'],
  ['Z', { ctrlKey: true, shiftKey: true }, 'redo'],
  ['s', ctrl, 'save'],
  ['o', ctrl, 'open'],
  ['p', ctrl, 'print'],
  ['z', { metaKey: true }, 'undo'],
  ['?', { shiftKey: true }, 'keys'],
  ['Escape', {}, 'leave'],
  ['4', {}, 3],
  ['Delete', {}, 'delete'],
  ['7', {}, null],
  ['s', {}, null],
] as const)('%s %j means %j', (key, init, action) => {
  expect(pressed(key, init)).toBe(action);
});

test('keys that write stay with the field', () => {
  expect(pressed('?', {}, field())).toBeNull();
  expect(pressed('4', {}, field())).toBeNull();
  expect(pressed('Escape', {}, field())).toBeNull();
});

test('a field with unfinished text keeps its own undo; else undo is for the part', () => {
  expect(pressed('z', ctrl, field(true))).toBeNull();
  expect(pressed('z', ctrl, field(false))).toBe('undo');
  expect(pressed('s', ctrl, field(true))).toBe('save');
});
