import Ajv from 'ajv';
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { firstLathe } from '../../src/core/part/first-lathe.ts';
import { readLathe } from '../../src/core/part/read-lathe.ts';
import { readPart } from '../../src/core/part/read-part.ts';
import { schemaTexts } from '../../src/tools/schema-texts.ts';

const top = new URL('../../', import.meta.url);
const read = (path: string) => readFileSync(new URL(path, top), 'utf8');
type Json = Record<string, unknown>;

describe('the schemas in docs', () => {
  test.each(schemaTexts())('%s is up to date (npm run schema)', (file, content) => {
    expect(read(`docs/${file}`)).toBe(content);
  });
});

// A checker that is not ours reads the schemas as an editor does (JSON Schema draft 7).
const validators = new Map(
  schemaTexts().map(([file, content]) => [
    file,
    new Ajv({ schemaId: '$id' }).compile(JSON.parse(content) as object),
  ]),
);
const passes = (file: string, value: unknown) => validators.get(file)?.(value) === true;

describe('an editor agrees with the program', () => {
  const examples = readdirSync(new URL('static/examples/', top)).filter((name) => name.endsWith('.json'));
  const shaft = () => JSON.parse(read('static/examples/blower-shaft.json')) as Json;
  const lathe = () => structuredClone(firstLathe) as unknown as Json;

  test('there are examples', () => expect(examples.length).toBeGreaterThanOrEqual(3));

  test.each(examples)('%s is right', (name) => {
    const value = JSON.parse(read(`static/examples/${name}`)) as unknown;
    expect(passes('part.schema.json', value)).toBe(true);
    expect(readPart(JSON.stringify(value), name).ok).toBe(true);
  });

  test('so is the first lathe', () => {
    expect(passes('lathe.schema.json', lathe())).toBe(true);
    expect(readLathe(JSON.stringify(lathe()), 'lathe.json').ok).toBe(true);
  });

  const spoiltParts: [what: string, change: Json][] = [
    ['a newer version', { shaftwright: 2 }],
    ['another unit', { unit: 'cm' }],
    ['no faces', { faces: [] }],
    ['a segment of no known form', { segments: [{ id: 's', form: 'cone' }] }],
    ['a number for a size', { lengths: [{ id: 'L', from: 'A', to: 'B', size: 1 }] }],
    ['an edge on no side', { edges: [{ face: 'A', side: 'top', form: 'chamfer', size: '1/64' }] }],
    ['text for a list', { points: 'none' }],
  ];
  test.each(spoiltParts)('a part with %s is wrong', (_what, change) => {
    const spoilt = { ...shaft(), ...change };
    expect(passes('part.schema.json', spoilt)).toBe(false);
    expect(readPart(JSON.stringify(spoilt), 'part.json').ok).toBe(false);
  });

  const spoiltLathes: [what: string, change: Json][] = [
    ['a newer version', { shaftwright_lathe: 2 }],
    ['a readout of no kind', { readout: { x: 'both' } }],
    ['words for speeds', { speeds: 'many' }],
    ['a tool of no known kind', { tools: [{ id: 'T', kind: 'saw' }] }],
  ];
  test.each(spoiltLathes)('a lathe with %s is wrong', (_what, change) => {
    const spoilt = { ...lathe(), ...change };
    expect(passes('lathe.schema.json', spoilt)).toBe(false);
    expect(readLathe(JSON.stringify(spoilt), 'lathe.json').ok).toBe(false);
  });
});
