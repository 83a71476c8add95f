import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fromInches, fromMm } from '../../../src/core/lengths/length.ts';
import { threadFacts } from '../../../src/core/standards/thread-facts.ts';
import { readThread } from '../../../src/core/standards/threads.ts';

const spec = (text: string) => {
  const read = readThread(text);
  if (!read.ok) throw new Error(read.problem.say);
  return read.value;
};
const refused = (text: string) => {
  const read = readThread(text);
  if (read.ok) throw new Error(`read as ${read.value.designation}`);
  return read.problem;
};

// Designations as ASME B1.1 and ISO 965-1 write them, and as plans shorten them.
test.each([
  ['5/16-24', '5/16-24 UNF'],
  ['5/16-24 UNF', '5/16-24 UNF'],
  ['5/16-24 UNF-2A', '5/16-24 UNF-2A'],
  ['5/16"-24 unf 2a', '5/16-24 UNF-2A'],
  ['5/16–24', '5/16-24 UNF'],
  ['5 / 16 - 24', '5/16-24 UNF'],
  ['10/32-24', '5/16-24 UNF'],
  ['.3125-24', '5/16-24 UNF'],
  ['1/4 UNC', '1/4-20 UNC'],
  ['1/2-13 NC', '1/2-13 UNC'],
  ['1/4-20 UNRC-2A', '1/4-20 UNC-2A'],
  ['8-32', '#8-32 UNC'],
  ['#8-32 UNC-2A', '#8-32 UNC-2A'],
  ['No. 8-32 UNC', '#8-32 UNC'],
  ['no 8 - 32', '#8-32 UNC'],
  ['#12-32 UNEF', '#12-32 UNEF'],
  ['M6', 'M6x1'],
  ['M6x1', 'M6x1'],
  ['M6×1-6g', 'M6x1-6g'],
  ['m 8 X 1,25 - 6H', 'M8x1.25-6H'],
  ['M8x1', 'M8x1'],
  ['M2.5', 'M2.5x0.45'],
  ['M10x1 LH', 'M10x1-LH'],
  ['1/2-20 UNF-2A-LH', '1/2-20 UNF-2A-LH'],
] as const)('%s is %s', (text, designation) => expect(spec(text).designation).toBe(designation));

// A bare number is a number size at 24 threads and finer, else inches: the number sizes end at 12-24 and 12-28, and the
// coarsest of them is 24 threads to the inch; ASME B1.1.
test.each([
  ['1-8', 1],
  ['1-12', 1],
  ['1-20', 1],
  ['1-64', 0.073],
  ['1-72', 0.073],
  ['10-24', 0.19],
  ['12-24', 0.216],
  ['8-36', 0.164],
] as const)('the nominal of %s is %d in', (text, inches) =>
  expect(spec(text).nominal).toBe(fromInches(inches)),
);

test('a class is kept as written, and null where none is', () => {
  expect(spec('M6').class).toBeNull();
  expect(spec('M6-6H').class).toBe('6H');
  expect(spec('1/4-20 UNC-2b').class).toBe('2B');
});

test('external limits are those of 6g and 2A where no class is written, and none for a hole', () => {
  expect(spec('M6').major).toEqual(spec('M6-6g').major);
  expect(spec('1/4-20').major).toEqual(spec('1/4-20-2A').major);
  expect(spec('M6-6H').major).toBeNull();
  expect(spec('1/4-20-2B').major).toBeNull();
  expect(spec('M6-4h').major).toBeNull();
  expect(spec('M6-5g6g').major).toEqual(spec('M6-6g').major);
  expect(spec('M6-6h').major).toEqual({ min: fromMm(5.82), max: fromMm(6) });
});

describe('what is not in the tables is said, with the nearest', () => {
  test.each([
    ['5/16-20', ['5/16-18', '5/16-24']],
    ['1/4-20 UNF', ['1/4-20 UNC']],
    ['7-32', ['#6-32', '#8-32']],
    ['M6x0.8', ['M6x1', 'M6x0.75']],
    ['M5.5', ['M5', 'M6']],
    ['1-14', ['1-8', '1-12']],
    ['M40', []],
    ['M1', []],
    ['1 1/8-7', []],
  ] as const)('%s', (text, near) => {
    const { code, facts } = refused(text);
    expect(code).toBe('thread-not-in-table');
    expect([...((facts?.['near'] as string[] | undefined) ?? [])].sort()).toEqual([...near].sort());
  });
  test('the sentence names them', () =>
    expect(refused('5/16-20').say).toBe('The table has no 5/16-20; did you mean 5/16-18 or 5/16-24?'));
  test.each([
    '',
    ' ',
    'foo',
    'M',
    '1/4',
    'M6x',
    '5/0-20',
    '-5',
    '1/4-20 UNC-4A',
    '__proto__',
    'x'.repeat(500),
    'M6'.repeat(40),
  ])('“%s” is unreadable', (text) => expect(refused(text).code).toBe('thread-unreadable'));
});

test('tap drills: the usual one first, the others by size, each with its percentage', () => {
  const facts = threadFacts(spec('1/4-20'));
  const [usual, ...others] = facts?.tapDrills ?? [];
  expect(usual).toMatchObject({ name: '#7', usual: true });
  expect(others.map((d) => d.diameter)).toEqual(others.map((d) => d.diameter).sort((a, b) => a - b));
  // (D - d) / (1.299 P): .250 - .2055 over .06495 is 68.5 %; workshop convention, arithmetic.
  expect(others.find(({ name }) => name === '#5')?.percent).toBeCloseTo(68.5, 1);
  expect(others.every((d) => !d.usual)).toBe(true);
  // Of the inch drills, #3 (.2130) leaves 57 % and #9 (.1960) 83 %; 7/32 would leave 48 %, #10 and 3/16 87 and 96 %.
  expect(others.map(({ name }) => name)).toEqual(['#9', '#8', '13/64', '#6', '#5', '#4', '#3']);
});

test('a thread that nobody read from the tables has no facts', () => {
  expect(threadFacts({ ...spec('M6'), pitch: fromMm(0.9) })).toBeNull();
  expect(threadFacts({ ...spec('1/4-20'), nominal: fromInches(0.251) })).toBeNull();
});

test('no text throws, and what is read reads back as itself', () => {
  const alphabet = fc.constantFrom(...'M#No. 0123456789/-x×,UNCFEABGHgh"LRi'.split(''));
  fc.assert(
    fc.property(
      fc.oneof(
        fc.string(),
        fc.array(alphabet, { maxLength: 24 }).map((a) => a.join('')),
      ),
      (text) => {
        const read = readThread(text);
        if (read.ok) expect(readThread(read.value.designation)).toEqual(read);
        else expect(read.problem.where).toBe('');
      },
    ),
    { numRuns: 3000 },
  );
});
