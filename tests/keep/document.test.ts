import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addLength, dropLength, setDiameter, setLengthSize } from '../../src/core/part/commands.ts';
import { setTitle } from '../../src/core/part/part-commands.ts';
import { dropSegment } from '../../src/core/part/segment-commands.ts';
import type { Part } from '../../src/core/part/types.ts';
import { draftReport } from '../../src/core/draft-report.ts';
import { PartDocument } from '../../src/keep/document.svelte.ts';
import { pin } from '../panels/pin.ts';

const opened = (part: Part = pin) => new PartDocument(part, (now) => draftReport(now), tick());
/** A clock on which nothing is near in time. */
const tick = () => {
  let now = 0;
  return () => (now += 60_000);
};

describe('a document', () => {
  test('does, undoes and does again, by name', () => {
    const document = opened();
    document.do(setLengthSize(document.part, 'L2', '.800'));
    expect(document.undoes).toBe('Length B–C to .800');
    const done = document.part;
    expect(document.undo()).toBe('Length B–C to .800');
    expect(document.part).toEqual(pin);
    expect(document.redo()).toBe('Length B–C to .800');
    expect(document.part).toEqual(done);
  });

  test('derives its report from the part', () => {
    const document = opened();
    expect(document.report.chains.state).toBe('closed');
    document.do(dropLength(document.part, 'L2'));
    expect(document.report.chains.state).toBe('open');
    document.undo();
    expect(document.report.chains.state).toBe('closed');
  });

  test('an edit made for another part changes nothing and leaves no step', () => {
    const document = opened();
    const forAnother = setLengthSize({ ...pin, lengths: [...pin.lengths].reverse() }, 'L1', '2');
    document.do(forAnother);
    expect(document.part).toBe(pin);
    expect(document.undoes).toBeNull();
  });

  test('undo brings back the part that was on the board before another was opened', () => {
    const document = opened();
    document.do(setTitle(document.part, 'Changed'));
    const before = document.part;
    document.open({ ...pin, title: 'Other' }, 'Open other.json');
    expect(document.part.title).toBe('Other');
    expect(document.undo()).toBe('Open other.json');
    expect(document.part).toBe(before);
    document.undo();
    expect(document.part).toEqual(pin);
    expect(document.undo()).toBeNull();
  });

  test('undo without end comes back to the beginning, redo to the end, whatever was done', () => {
    const commands: readonly ((part: Part, n: number) => ReturnType<typeof setTitle>)[] = [
      (part, n) => setTitle(part, `title ${n}`),
      (part, n) => setLengthSize(part, `L${(n % 4) + 1}`, `${n + 1}/64`),
      (part, n) => setDiameter(part, `s${(n % 3) + 1}`, `.${100 + n}`),
      (part, n) => addLength(part, 'A', 'BCD'.charAt(n % 3), `${n + 1}/16`),
      (part, n) => dropLength(part, `L${(n % 5) + 1}`),
      (part, n) => dropSegment(part, `s${(n % 3) + 1}`),
    ];
    const anyCommand = fc.tuple(fc.nat(commands.length - 1), fc.nat(500));
    fc.assert(
      fc.property(fc.array(anyCommand, { maxLength: 30 }), (script) => {
        const document = opened();
        for (const [which, n] of script) {
          const command = commands[which];
          if (command) document.do(command(document.part, n));
        }
        const end = document.part;
        while (document.undo() !== null);
        expect(document.part).toEqual(pin);
        while (document.redo() !== null);
        expect(document.part).toEqual(end);
      }),
      { numRuns: 60 },
    );
  });
});
