import { ESLint } from 'eslint';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const top = fileURLToPath(new URL('../..', import.meta.url));
const eslint = new ESLint({ cwd: top, overrideConfigFile: 'tests/lint.config.js' });

/** What the lint says of an import in a file of that name. */
async function said(file: string, from: string): Promise<string[]> {
  const results = await eslint.lintText(`import '${from}';\n`, { filePath: `${top}/${file}` });
  return results.flatMap(({ messages }) => messages.map(({ message }) => message));
}

// The first lint of a run loads every plugin, which takes its time on a busy machine.
const slow = { timeout: 60_000 };

describe('imports that point up in the house are refused', slow, () => {
  test.each([
    ['src/core/lengths/x.ts', '../plan/ways.ts'],
    ['src/core/part/x.ts', '../report.ts'],
    ['src/core/plan/x.ts', '../../sheet/sheet.ts'],
    ['src/core/plan/x.ts', '../actuals/section.ts'],
    ['src/core/plan/x.ts', 'svelte'],
    ['src/core/plan/x.ts', 'node:fs'],
    ['src/sheet/x.ts', '../panels/shop.svelte.ts'],
    ['src/keep/x.ts', '../cli/run.ts'],
    ['src/cli/x.ts', '../board/choice.ts'],
  ])('%s from %s', async (file, from) => {
    expect(await said(file, from)).toHaveLength(1);
  });
});

describe('imports that point down are not', slow, () => {
  test.each([
    ['src/core/plan/x.ts', '../lengths/length.ts'],
    ['src/core/actuals/x.ts', '../plan/types.ts'],
    ['src/core/report.ts', './plan/ways.ts'],
    ['src/sheet/x.ts', '../core/report-types.ts'],
    ['src/cli/x.ts', '../sheet/sheet.ts'],
  ])('%s from %s', async (file, from) => {
    expect(await said(file, from)).toEqual([]);
  });
});
