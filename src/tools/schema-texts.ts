import { toJsonSchema } from '@valibot/to-json-schema';
import { latheSchema } from '../core/part/lathe-schema.ts';
import { partSchema } from '../core/part/schema.ts';

const text = (schema: Parameters<typeof toJsonSchema>[0], title: string, description: string) =>
  `${JSON.stringify({ title, description, ...toJsonSchema(schema, { target: 'draft-07' }) }, null, 2)}\n`;

/** The JSON Schemas for editors, file name and content, made from the very schemas that check the files. */
export const schemaTexts = (): readonly (readonly [file: string, content: string])[] => [
  [
    'part.schema.json',
    text(partSchema, 'Part file', 'A turned part as its drawing says it; see part-file.md.'),
  ],
  [
    'lathe.schema.json',
    text(latheSchema, 'Lathe file', 'A manual lathe and what is at hand; see part-file.md.'),
  ],
];
