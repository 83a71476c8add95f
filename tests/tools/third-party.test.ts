import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { OPEN_TO_ALL, packagesOf, thirdPartyText, type Lock } from '../../src/tools/third-party.mjs';

const read = (name: string) => readFileSync(new URL(`../../${name}`, import.meta.url), 'utf8');
const lock = JSON.parse(read('package-lock.json')) as Lock;
const inApp = packagesOf(lock).filter(({ use }) => use !== 'tool');

describe('what others made', () => {
  test('docs/third-party.md is what `npm run licences` writes from the lock file', () => {
    expect(read('docs/third-party.md')).toBe(thirdPartyText(lock));
  });

  test('the app is built from few packages, each named there with its version', () => {
    const asked = inApp.filter(({ use }) => use === 'asked');
    expect(asked.length).toBeLessThanOrEqual(12);
    for (const { name, version } of asked)
      expect(read('docs/third-party.md')).toContain(`| ${name} | ${version} |`);
  });

  test.each(inApp.map(({ name, licence }) => [name, licence] as const))(
    '%s is under a licence that everybody may build on (%s)',
    (_name, licence) => expect(OPEN_TO_ALL).toContain(licence),
  );

  test('a package without a licence is listed as such, and told apart from tools', () => {
    const odd: Lock = {
      packages: {
        '': { dependencies: { one: '1.0.0' } },
        'node_modules/one': { version: '1.0.0' },
        'node_modules/one/node_modules/two': { version: '2.0.0', license: 'MIT' },
        'node_modules/three': { version: '3.0.0', license: 'ISC', dev: true },
      },
    };
    expect(packagesOf(odd)).toEqual([
      { name: 'one', version: '1.0.0', licence: null, use: 'asked' },
      { name: 'three', version: '3.0.0', licence: 'ISC', use: 'tool' },
      { name: 'two', version: '2.0.0', licence: 'MIT', use: 'brought' },
    ]);
    expect(thirdPartyText(odd)).toContain('| one | 1.0.0 | not said |');
  });
});
