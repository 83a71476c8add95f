// npm run schema: writes docs/part.schema.json and docs/lathe.schema.json.
import { writeFile } from 'node:fs/promises';
import { schemaTexts } from './schema-texts.ts';

for (const [file, content] of schemaTexts())
  await writeFile(new URL(`../../docs/${file}`, import.meta.url), content);
