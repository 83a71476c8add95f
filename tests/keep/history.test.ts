import { describe, expect, test } from 'vitest';
import { setDiameter, setLengthSize } from '../../src/core/part/commands.ts';
import type { Part } from '../../src/core/part/types.ts';
import { emptyHistory, record, redoable, undoable, type Step } from '../../src/keep/history.ts';
import { pin } from '../panels/pin.ts';

const typed = (part: Part, text: string, at: number): Step => ({
  kind: 'change',
  at,
  ...setLengthSize(part, 'L1', text),
});
const after = (...steps: Step[]) => steps.reduce(record, emptyHistory);
const names = (steps: readonly Step[]) => steps.map(({ did }) => did);
const withSize = (size: string): Part => ({
  ...pin,
  lengths: pin.lengths.map((length) => (length.id === 'L1' ? { ...length, size } : length)),
});

describe('a history', () => {
  test('names what undo takes back and what redo does again', () => {
    const history = after(typed(pin, '1', 0), { kind: 'change', at: 9000, ...setDiameter(pin, 's1', '.4') });
    expect(undoable(history)?.did).toBe('Diameter of s1 to .4');
    expect(redoable({ ...history, position: 1 })?.did).toBe('Diameter of s1 to .4');
    expect(redoable(history)).toBeNull();
  });

  test('joins typing that goes on in the same field', () => {
    const history = after(
      typed(pin, '1', 0),
      typed(withSize('1'), '1 5', 300),
      typed(withSize('1 5'), '1 5/8', 600),
    );
    expect(names(history.steps)).toEqual(['Length A–B to 1 5/8']);
  });

  test('keeps typing apart that comes later, or in another field', () => {
    expect(after(typed(pin, '1', 0), typed(withSize('1'), '2', 5000)).steps).toHaveLength(2);
    const elsewhere: Step = { kind: 'change', at: 100, ...setDiameter(withSize('1'), 's1', '.4') };
    expect(after(typed(pin, '1', 0), elsewhere).steps).toHaveLength(2);
  });

  test('forgets what was undone once something else is done', () => {
    const two = after(typed(pin, '1', 0), typed(withSize('1'), '2', 5000));
    const other = record(
      { ...two, position: 1 },
      { kind: 'change', at: 9000, ...setDiameter(pin, 's1', '.4') },
    );
    expect(names(other.steps)).toEqual(['Length A–B to 1', 'Diameter of s1 to .4']);
    expect(other.position).toBe(2);
  });
});
