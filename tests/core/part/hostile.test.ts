import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { describe, expect, test, vi } from 'vitest';
import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import { mirrorPart } from '../../../src/core/part/mirror.ts';
import { latheFrom, readLathe } from '../../../src/core/part/read-lathe.ts';
import { readPart } from '../../../src/core/part/read-part.ts';
import { resolveLathe } from '../../../src/core/part/resolve-lathe.ts';
import { resolvePart } from '../../../src/core/part/resolve.ts';
import { writePart } from '../../../src/core/part/write-part.ts';
import { anyPart } from './samples.ts';

// Many random cases, on machines that may be busy.
vi.setConfig({ testTimeout: 60_000 });

const shaft = JSON.parse(
  readFileSync(new URL('../../../static/examples/blower-shaft.json', import.meta.url), 'utf8'),
) as object;

/** Values that fit nowhere, or only nearly. */
const anyNuisance = fc.oneof(
  fc.jsonValue({ maxDepth: 2 }),
  fc.constantFrom<unknown>(
    '',
    ' ',
    '0',
    '-1',
    '1e9',
    '9'.repeat(150),
    '__proto__',
    'A',
    'left',
    '1/2',
    'Ø12 k5',
    '½',
    '\u202e',
    '🙂',
    '\ud800',
    'H7',
    '1:10',
    '45°',
    1e308,
    -1,
    0.1,
    true,
    null,
    [],
    {},
  ),
);

/** Puts `nuisance` at the place in `value` that `path` leads to by turns; far enough along, adds it or takes away. */
function spoilt(value: unknown, path: readonly number[], nuisance: unknown): unknown {
  const [turn, ...rest] = path;
  if (turn === undefined || typeof value !== 'object' || value === null) return nuisance;
  const entries = Object.entries(value);
  const at = entries.length === 0 ? -1 : turn % (entries.length + 2);
  if (at < 0 || at >= entries.length) {
    const kept =
      at === entries.length ? entries.slice(1) : [...entries, [`k${entries.length}`, nuisance] as const];
    return Array.isArray(value) ? kept.map(([, one]) => one) : Object.fromEntries(kept);
  }
  const changed = entries.map(
    ([key, one], i) => [key, i === at ? spoilt(one, rest, nuisance) : one] as const,
  );
  return Array.isArray(value) ? changed.map(([, one]) => one) : Object.fromEntries(changed);
}

const anySpoiling = fc.array(fc.tuple(fc.array(fc.nat(40), { minLength: 1, maxLength: 5 }), anyNuisance), {
  minLength: 1,
  maxLength: 4,
});
const spoil = (value: unknown, spoiling: readonly [number[], unknown][]) =>
  spoiling.reduce<unknown>((now, [path, nuisance]) => spoilt(now, path, nuisance), value);

/** A problem is fit to be shown: a code, one line, a place. */
function expectShown(problems: readonly { code: string; where: string; say: string }[]): void {
  for (const { code, where, say } of problems) {
    expect(code).toMatch(/^[a-z0-9-]+$/);
    expect(where).not.toBe('');
    expect(say.length).toBeGreaterThan(5);
  }
}

describe('whatever the text, reading gives a part or one line, never an exception', () => {
  test('any text at all', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.json(), fc.string({ unit: 'binary' })), (text) => {
        for (const read of [readPart(text, 'x'), readLathe(text, 'x')]) {
          expect(read.ok ? '' : read.problem.say).not.toMatch(/[\n\r]/);
        }
      }),
      { numRuns: 500 },
    );
  });

  test('a shaft with things put, changed and taken away at random', () => {
    let letIn = 0;
    fc.assert(
      fc.property(anySpoiling, (spoiling) => {
        const read = readPart(JSON.stringify(spoil(shaft, spoiling)), 'x');
        if (!read.ok) expect(read.problem.say).toMatch(/^x: \P{Cc}+$/u);
        if (!read.ok) return;
        letIn += 1;
        const part = resolvePart(read.value);
        expectShown([...part.errors, ...part.warnings]);
        expect(readPart(writePart(read.value), 'x')).toEqual(read);
        resolvePart(mirrorPart(read.value));
      }),
      { numRuns: 1500 },
    );
    expect(letIn).toBeGreaterThan(150);
  });

  test('parts of every kind', () => {
    fc.assert(
      fc.property(anyPart, (part) => {
        const { errors, warnings } = resolvePart(part);
        expectShown([...errors, ...warnings]);
      }),
      { numRuns: 300 },
    );
  });

  test('a lathe with things put, changed and taken away at random', () => {
    let letIn = 0;
    fc.assert(
      fc.property(anySpoiling, (spoiling) => {
        const read = latheFrom(JSON.parse(JSON.stringify(spoil(firstLathe, spoiling))) as unknown, 'x');
        if (!read.ok) return;
        letIn += 1;
        expectShown(resolveLathe(read.value).errors);
      }),
      { numRuns: 1500 },
    );
    expect(letIn).toBeGreaterThan(100);
  });
});

test('a file of 5 MB is read or refused within a second', () => {
  const pad = (text: string, make: (i: number) => string) => {
    const more: string[] = [];
    for (let i = 0, size = text.length; size < 4_900_000; i += 1)
      size += more[more.push(make(i)) - 1]?.length ?? 0;
    return text + more.join('');
  };
  const faces = Array.from({ length: 501 }, (_, i) => `{"id":"f${i}"}`).join(',');
  const segments = Array.from(
    { length: 500 },
    (_, i) => `{"id":"s${i}","form":"cylinder","diameter":"1/2"}`,
  ).join(',');
  const start = `{"shaftwright":1,"unit":"in","faces":[${faces}],"segments":[${segments}],`;
  const texts = [
    `${pad(`${start}"scan":[`, (i) => `{"k":${i}},`)}0]}`,
    `${pad('{"shaftwright":1,', (i) => `"k${i}":1,`)}"z":0}`,
    pad('{"shaftwright":"', () => 'xxxxxxxxxx'),
    pad('{"a":"', () => '\\u00e9'),
    `${pad('[', () => '1111111111')}x`,
    pad('', () => '[]'),
  ];
  // Time of the processor, not of the clock, so that a busy machine does not fail it.
  const spent = texts.map((text) => {
    const begun = process.cpuUsage();
    readPart(text, 'x');
    const { user, system } = process.cpuUsage(begun);
    return (user + system) / 1e6;
  });
  expect(Math.max(...spent)).toBeLessThan(1);
  expect(readPart(texts[0] ?? '', 'x').ok).toBe(true);
});

test('a part of more steps than can be followed is refused', () => {
  const withSteps = (n: number) =>
    JSON.stringify({
      ...{ shaftwright: 1, unit: 'mm' },
      faces: Array.from({ length: n + 1 }, (_, i) => ({ id: `f${i}` })),
      segments: Array.from({ length: n }, (_, i) => ({ id: `s${i}`, form: 'cylinder', diameter: '8' })),
    });
  expect(readPart(withSteps(2000), 'x').ok).toBe(true);
  const over = readPart(withSteps(15_000), 'x');
  expect(over.ok ? null : [over.problem.code, over.problem.where]).toEqual(['too-many', 'faces']);
});
