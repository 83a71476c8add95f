import { render, screen } from '@testing-library/svelte';
import { expect, test } from 'vitest';
import KeysCard from '../../src/panels/KeysCard.svelte';
import { keyAction } from '../../src/panels/shortcuts.ts';

const named = () => {
  render(KeysCard, { onclose: () => undefined });
  return [...document.querySelectorAll('kbd')].map((key) => key.textContent);
};

test('the card of keys names what keys do on the board', () => {
  const keys = named().join(' | ');
  for (const key of ['A', 'L', 'D', 'Z', 'Shift+↑ ↓', 'Shift+← →', 'Alt while dragging', 'Enter', 'Tab'])
    expect(keys).toContain(key);
  for (const key of ['Ctrl+A', 'Ctrl+C, X, V', 'Delete', 'Esc', 'Space and drag'])
    expect(keys).toContain(key);
  expect(screen.getByText('put a length in another lane')).toBeVisible();
});

test('no letter does anything in the whole app that the card does not name', () => {
  const keys = named();
  const letters = [...'abcdefghijklmnopqrstuvwxyz'];
  const does = (key: string, ctrlKey: boolean) =>
    keyAction(new KeyboardEvent('keydown', { key, ctrlKey })) !== null;
  const plain = letters.filter((key) => does(key, false)).map((key) => key.toUpperCase());
  const commands = letters.filter((key) => does(key, true)).map((key) => `Ctrl+${key.toUpperCase()}`);
  expect(commands.length).toBeGreaterThan(4);
  for (const key of [...plain, ...commands]) expect(keys).toContain(key);
});

test('when the card goes the keys are again where they were', () => {
  const board = document.createElement('div');
  board.tabIndex = 0;
  document.body.append(board);
  board.focus();
  const { unmount } = render(KeysCard, { onclose: () => undefined });
  expect(document.activeElement).not.toBe(board);
  unmount();
  expect(document.activeElement).toBe(board);
  board.remove();
});
