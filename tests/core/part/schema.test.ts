import { toJsonSchema } from '@valibot/to-json-schema';
import type * as v from 'valibot';
import { describe, expect, test } from 'vitest';
import type { Lathe } from '../../../src/core/part/lathe.ts';
import { latheSchema } from '../../../src/core/part/lathe-schema.ts';
import { partSchema } from '../../../src/core/part/schema.ts';
import type { Part } from '../../../src/core/part/types.ts';

// These compile only while every part and lathe that the program may hold is one that the schema lets in.
const asInput = (part: Part): v.InferInput<typeof partSchema> => part;
const latheAsInput = (lathe: Lathe): v.InferInput<typeof latheSchema> => lathe;

type Node = { readonly [key: string]: unknown };
const isNode = (value: unknown): value is Node => typeof value === 'object' && value !== null;

/** Every object of a JSON Schema that describes a value of this type. */
function nodes(value: unknown, type: string): Node[] {
  if (!isNode(value)) return [];
  const own = value['type'] === type ? [value] : [];
  return [...own, ...Object.values(value).flatMap((one) => nodes(one, type))];
}

describe.each([
  ['part', partSchema],
  ['lathe', latheSchema],
] as const)('the schema of a %s', (_, schema) => {
  const json = toJsonSchema(schema, { errorMode: 'throw' });

  test('becomes a JSON Schema for editors', () => {
    expect(json).toMatchObject({ type: 'object', properties: expect.any(Object) });
    expect(asInput).not.toBe(latheAsInput);
  });

  test('bounds every list, text and number, so that no file is endless', () => {
    expect(nodes(json, 'string').length + nodes(json, 'number').length).toBeGreaterThan(10);
    for (const node of [...nodes(json, 'string'), ...nodes(json, 'array')]) {
      if (node['const'] === undefined && node['enum'] === undefined)
        expect(node['maxLength'] ?? node['maxItems']).toBeGreaterThan(0);
    }
    for (const node of nodes(json, 'number')) {
      if (node['const'] === undefined)
        expect([node['minimum'], node['maximum']]).toEqual([expect.any(Number), expect.any(Number)]);
    }
  });
});
