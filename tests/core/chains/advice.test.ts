import { describe, expect, test } from 'vitest';
import { bracketAdvice } from '../../../src/core/chains/bracket-advice.ts';
import { smallestMisreads } from '../../../src/core/chains/misread-sets.ts';
import { takeStock } from '../../../src/core/chains/situation.ts';
import { solveChains } from '../../../src/core/chains/solve.ts';
import { cylinder, drawing, requirement } from './drawing.ts';

describe('which doubled length to bracket', () => {
  const lines = ['A-B 10 ±.1', 'B-C 10 ±.2', 'A-C 20 ±.1'];

  test('the one with the widest limits, as it says least', () => {
    expect(bracketAdvice(drawing('A B C', lines))).toMatchObject([
      { loop: ['L1', 'L2', 'L3'], bracket: 'L2' },
    ]);
  });

  test('never one that a requirement runs along', () => {
    const part = { ...drawing('A B C', lines), requirements: [requirement(0, 'B', 'C', 9.9e9, 10.1e9)] };
    expect(bracketAdvice(part)[0]?.bracket).toBe('L3');
  });

  test('never one without which a requirement is no longer met', () => {
    const tight = ['A-B 10 ±.1', 'B-C 10 ±.2', 'A-C 20 ±.3'];
    const part = { ...drawing('A B C', tight), requirements: [requirement(0, 'A', 'C', 19.7e9, 20.3e9)] };
    expect(solveChains(part).span('A', 'C')).toEqual({ min: 19.7e9, max: 20.3e9 });
    expect(bracketAdvice(part)[0]?.bracket).toBe('L2');
  });

  test('never one that spans a segment with a mate', () => {
    const mate = { text: '6000', min: 0, max: 0 } as NonNullable<ReturnType<typeof cylinder>['mate']>;
    const segments = [cylinder(0, 'A', 'B'), { ...cylinder(1, 'B', 'C'), mate }];
    expect(bracketAdvice(drawing('A B C', lines, { segments }))[0]?.bracket).toBe('L3');
  });

  test('advice for several loops, taken together, leaves the part closed', () => {
    const part = drawing('A B C D', [
      'A-B 10 ±.1',
      'B-C 10 ±.1',
      'C-D 10 ±.1',
      'A-C 20 ±.5',
      'A-D 30 ±.4',
      'B-D 20 ±.3',
    ]);
    const brackets = bracketAdvice(part).map(({ bracket }) => bracket);
    expect(brackets).toEqual(['L4', 'L5', 'L6']);
    const lengths = part.lengths.map((l) => ({
      ...l,
      size: { ...l.size, reference: brackets.includes(l.id) },
    }));
    expect(solveChains({ ...part, lengths }).report.state).toBe('closed');
  });

  test('a loop that is leant on everywhere gets no advice', () => {
    const wishes = [
      requirement(0, 'A', 'B', 0, 1e12),
      requirement(1, 'B', 'C', 0, 1e12),
      requirement(2, 'A', 'C', 0, 1e12),
    ];
    const part = { ...drawing('A B C', lines), requirements: wishes };
    expect(bracketAdvice(part)).toMatchObject([{ bracket: null }]);
  });
});

describe('several misreads at once', () => {
  const found = (part: ReturnType<typeof drawing>) =>
    smallestMisreads(takeStock(part))?.map(({ length, value }) => [length.id, value / 1e9]) ?? null;

  test('a sound part needs no change', () => {
    expect(found(drawing('A B', ['A-B 10', 'A-B 10']))).toBeNull();
  });

  test('in separate tangles each gives its own', () => {
    const part = drawing('A B C', [
      'A-B 10.53',
      'A-B 10.35',
      'A-B 10.35',
      'B-C 51.2',
      'B-C 15.2',
      'B-C 15.2',
    ]);
    expect(found(part)).toEqual([
      ['L1', 10.35],
      ['L4', 15.2],
    ]);
    const [error] = solveChains(part).errors;
    expect(error?.say).toMatch(/at least 2 are wrong, perhaps L1 10.35 for 10.53, L4 15.2 for 51.2/);
  });

  test('in one tangle the likelier pair is offered', () => {
    const lines = [
      'A-B 12.4',
      'B-C 8.3',
      'C-D 17.5',
      'A-C 27.0',
      'A-C 20.7',
      'B-D 25.8',
      'B-D 28.5',
      'A-D 38.2',
    ];
    expect(found(drawing('A B C D', lines))).toEqual([
      ['L4', 20.7],
      ['L7', 25.8],
    ]);
  });

  test('more than three in one tangle are not guessed at', () => {
    const lines = ['A-B 1', 'A-B 2', 'A-B 3', 'A-B 4', 'A-B 5'];
    expect(found(drawing('A B', lines))).toBeNull();
    expect(solveChains(drawing('A B', lines)).errors[0]?.say).toMatch(/read the plan again/);
  });
});
