import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readLathe } from '../../src/core/part/read-lathe.ts';
import { readPart } from '../../src/core/part/read-part.ts';
import { resolveLathe } from '../../src/core/part/resolve-lathe.ts';
import { resolvePart } from '../../src/core/part/resolve.ts';
import { USAGE } from '../../src/cli/options.ts';

const top = new URL('../../', import.meta.url);
const read = (path: string) => readFileSync(new URL(path, top), 'utf8');
const files = (folder: string) =>
  readdirSync(new URL(folder, top), { recursive: true, encoding: 'utf8' }).map((name) => `${folder}/${name}`);

/**
 * Codes that core gives its problems. Not those of the replay, which never reach a reader as such; and lengths makes
 * its three from nouns, so that what it calls a refusal there is a reason, not a code.
 */
function codesInCore(): string[] {
  const sources = files('src/core').filter(
    (file) => file.endsWith('.ts') && !/plan\/replay|core\/lengths/.test(file),
  );
  const patterns = [
    /\bcode: '([a-z0-9-]+)'/g,
    /\b(?:fault|warn|refuse|refusal)\(\s*(?:context,\s*)?'([a-z0-9-]+)'/g,
  ];
  const found = sources.flatMap((file) =>
    patterns.flatMap((pattern) => [...read(file).matchAll(pattern)].map(([, code]) => code ?? '')),
  );
  return [...new Set(found)].sort();
}

describe('docs/problems.md', () => {
  const listed = new Set([...read('docs/problems.md').matchAll(/`([a-z0-9-]+)`/g)].map(([, code]) => code));
  test('codes are found at all', () => expect(codesInCore().length).toBeGreaterThan(40));
  test.each(codesInCore())('lists %s', (code) => expect(listed).toContain(code));
});

describe('examples in docs/part-file.md', () => {
  const [part = '', lathe = ''] = [...read('docs/part-file.md').matchAll(/```json\n(.*?)```/gs)].map(
    ([, json]) => json,
  );

  test('the part is a sound part', () => {
    const outcome = readPart(part, 'docs');
    if (!outcome.ok) throw new Error(outcome.problem.say);
    expect(resolvePart(outcome.value)).toMatchObject({ errors: [], warnings: [] });
  });

  test('the lathe is a sound lathe', () => {
    const outcome = readLathe(lathe, 'docs');
    if (!outcome.ok) throw new Error(outcome.problem.say);
    expect(resolveLathe(outcome.value).errors).toEqual([]);
  });

  test('the command line is the one the program knows', () => {
    const line = /npm run --silent plan -- (PART\.json.*)/.exec(read('docs/part-file.md'))?.[1];
    expect(USAGE).toBe(`usage: plan ${line ?? ''}`);
  });
});

describe('links in the docs lead somewhere', () => {
  const pages = ['README.md', 'DEVELOPERS.md', ...files('docs').filter((file) => file.endsWith('.md'))];
  test.each(pages)('%s', (page) => {
    for (const [, link = ''] of read(page).matchAll(/\]\(([^)#\s]+)[^)]*\)/g)) {
      if (!/^[a-z]+:/.test(link)) expect(existsSync(new URL(link, new URL(page, top))), link).toBe(true);
    }
  });
  test.each(pages)('%s names no path of one machine', (page) => {
    expect(read(page)).not.toMatch(/\/work\/|\.\.\/shared/);
  });
});
