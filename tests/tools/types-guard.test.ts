import { spawnSync } from 'node:child_process';
import { mkdir, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';

// A type check that sees nothing passes as easily as one that finds nothing: so it is given something to find.
const top = fileURLToPath(new URL('../..', import.meta.url));
const folder = join(top, 'test-results', 'types-guard');

const config = (include: string[]) =>
  JSON.stringify({ extends: '../../tsconfig.json', compilerOptions: { types: [] }, include, exclude: [] });
const component = (value: string) =>
  `<script lang="ts">\n  const count: number = ${value};\n</script>\n\n{count}\n`;

beforeAll(async () => {
  await mkdir(join(folder, 'core'), { recursive: true });
  await writeFile(join(folder, 'Right.svelte'), component('1'));
  await writeFile(join(folder, 'Wrong.svelte'), component("'one'"));
  await writeFile(join(folder, 'both.json'), config(['Right.svelte', 'Wrong.svelte']));
  await writeFile(join(folder, 'core', 'dom.ts'), 'export const title = () => document.title;\n');
  const core = { extends: '../../../src/core/tsconfig.json', include: ['dom.ts'], exclude: [] };
  await writeFile(join(folder, 'core', 'tsconfig.json'), JSON.stringify(core));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const bin = (name: string) => join(top, 'node_modules', '.bin', name);
const run = (program: string, ...args: string[]) => {
  const { status, stdout } = spawnSync(bin(program), args, {
    cwd: top,
    encoding: 'utf8',
    shell: process.platform === 'win32',
  });
  return { status, stdout };
};

test(
  'svelte-check finds nothing in a sound component, and what is wrong in the one beside it',
  { timeout: 120_000 },
  () => {
    const files = ['--workspace', folder, '--tsconfig', join(folder, 'both.json')];
    const { status, stdout } = run('svelte-check', '--fail-on-warnings', '--output', 'machine', ...files);
    expect(status).not.toBe(0);
    expect(stdout).toMatch(
      /ERROR "[^"]*Wrong\.svelte" 2:9 "Type 'string' is not assignable to type 'number'/,
    );
    expect(stdout).toMatch(/ COMPLETED \d+ FILES 1 ERRORS 0 WARNINGS /);
  },
);

test('core does not compile where it reaches for the page', { timeout: 120_000 }, () => {
  const { status, stdout } = run('tsc', '--noEmit', '-p', join(folder, 'core'));
  expect(status).not.toBe(0);
  expect(stdout).toContain("Cannot find name 'document'");
});
