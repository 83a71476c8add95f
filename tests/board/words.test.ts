import { expect, test } from 'vitest';
import { describe as say, sayTarget } from '../../src/board/words.ts';
import { readPart } from '../../src/core/part/read-part.ts';
import type { Part } from '../../src/core/part/types.ts';
import blower from '../../static/examples/blower-shaft.json';
import winch from '../../static/examples/winch-spindle-clash.json';
import { reportOf } from './bench.svelte.ts';

function read(json: unknown): Part {
  const outcome = readPart(JSON.stringify(json), 'test.json');
  if (!outcome.ok) throw new Error(outcome.problem.say);
  return outcome.value;
}
const shaft = read({
  ...blower,
  lengths: [
    { id: 'L1', from: 'A', to: 'B', size: '1 5/8', tol: '±.005' },
    { id: 'L2', from: 'A', to: 'C', size: '' },
    ...blower.lengths.slice(12),
  ],
});
const told = (part: Part, kind: Parameters<typeof say>[2]['kind'], id: string) =>
  say(part, reportOf(part), { kind, id });

test('a length is said as a machinist would say it', () => {
  expect(told(shaft, 'length', 'L1')).toBe(
    'length A to B, one and five eighths, plus or minus five thousandths',
  );
  expect(told(shaft, 'length', 'L2')).toBe('length A to C, no size yet');
  expect(told(shaft, 'length', 'L13')).toMatch(/^length A to M, .*, reference$/);
});

test('segments say what they are for, stations whether they are placed', () => {
  expect(told(shaft, 'segment', 'left')).toBe('journal left from A to B, diameter 10 millimetres, h6');
  expect(told(shaft, 'segment', 'seat')).toContain('.4995/.4985');
  expect(told(shaft, 'segment', 'nut')).toBe('segment nut from K to M, thread M6x1-6g');
  expect(told(shaft, 'station', 'B')).toBe('face B, left bearing stop, placed');
  expect(told(shaft, 'station', 'H')).toBe('face H, right bearing stop, not placed');
  expect(told(shaft, 'crossing', 'key')).toBe('crossing key, keyseat 1/8 by .070 deep');
});

test('an edge that has no id of its own is not called an edge twice', () => {
  expect(told(shaft, 'edge', 'edge A right')).toMatch(/^edge A right, 1\/64 by 45 degrees$/);
  expect(sayTarget(shaft, { kind: 'edge', id: 'edge A right', field: 'size' })).toBe(
    'Chamfer of edge A right',
  );
});

test('a clash and a doubled size are said with the length', () => {
  const spindle = read(winch);
  expect(told(spindle, 'length', 'L3')).toMatch(/clashes with others$/);
  expect(told(spindle, 'length', 'L4')).toMatch(/said twice$/);
});

test('a field says what it asks for', () => {
  expect(sayTarget(shaft, { kind: 'new-length', from: 'C', to: 'D' })).toBe('Length C to D');
  expect(sayTarget(shaft, { kind: 'segment', id: 'cone', end: 'end' })).toBe(
    'Diameter of cone at its right end',
  );
});
