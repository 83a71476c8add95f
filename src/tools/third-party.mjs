// npm run licences: writes docs/third-party.md from the lock file, so that the list is what is installed.
import { readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const top = fileURLToPath(new URL('../..', import.meta.url));

/** Licences that ask for no more than their text to be carried along: what the app itself may be built from. */
export const OPEN_TO_ALL = new Set([
  'MIT',
  'ISC',
  '0BSD',
  'Apache-2.0',
  'BSD-2-Clause',
  'BSD-3-Clause',
  '(MIT AND Zlib)',
]);

const nameOf = (path) => path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length);
const byName = (a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0);

/**
 * The packages of a lock file. `use`: `asked` (named in dependencies), `brought` (what those need), `tool` (for
 * building and testing only). `licence` is what the package says of itself, or null.
 */
export function packagesOf(lock) {
  const asked = Object.keys(lock.packages['']?.dependencies ?? {});
  const found = Object.entries(lock.packages).filter(([path]) => path !== '');
  return found
    .map(([path, { version, license, dev, devOptional }]) => {
      const use =
        path === `node_modules/${nameOf(path)}` && asked.includes(nameOf(path))
          ? 'asked'
          : dev || devOptional
            ? 'tool'
            : 'brought';
      return { name: nameOf(path), version, licence: license ?? null, use };
    })
    .sort(byName);
}

const table = (packages) =>
  [
    '| Package | Version | Licence |',
    '| --- | --- | --- |',
    ...packages.map(({ name, version, licence }) => `| ${name} | ${version} | ${licence ?? 'not said'} |`),
  ].join('\n');

function countByLicence(packages) {
  const counts = new Map();
  for (const { licence } of packages)
    counts.set(licence ?? 'not said', (counts.get(licence ?? 'not said') ?? 0) + 1);
  return [...counts]
    .sort(([a, n], [b, m]) => m - n || (a < b ? -1 : 1))
    .map(([licence, n]) => `${licence} (${n})`)
    .join(', ');
}

/** The text of docs/third-party.md. */
export function thirdPartyText(lock) {
  const all = packagesOf(lock);
  const of = (use) => all.filter((one) => one.use === use);
  return `# What others made

Written by \`npm run licences\` from the lock file; a test holds it to that. The built app carries the licence texts of
all it contains in \`licences.md\`. Versions are pinned exactly, the lock file keeps a hash of each.

## Asked for by the app

${table(of('asked'))}

## Brought along by those

Some are parts of compilers and never reach a browser, or are for one platform only.

${table(of('brought'))}

## Fonts

In [static/fonts](../static/fonts/README.md), with their licences.

## Tools

For building and testing only, ${of('tool').length} packages: ${countByLicence(of('tool'))}.
`;
}

/**
 * The licence texts of all that the app may contain, as one text to go along with the build. Packages for one platform
 * only are left out: they never reach a browser, and the build is to be the same everywhere.
 */
export async function licenceTexts(folder) {
  const lock = JSON.parse(await readFile(join(folder, 'package-lock.json'), 'utf8'));
  const parts = [];
  for (const [path, { version, license, dev, devOptional, optional }] of Object.entries(lock.packages)) {
    if (path === '' || dev || devOptional || optional) continue;
    const files = await readdir(join(folder, path));
    const file = files.filter((name) => /^licen[cs]e/i.test(name)).sort()[0];
    const text = file ? await readFile(join(folder, path, file), 'utf8') : `Licence: ${license}.\n`;
    parts.push(`## ${nameOf(path)} ${version} (${license})\n\n${text.trim()}\n`);
  }
  return `# What others made\n\nFonts: see fonts/README.md.\n\n${parts.sort().join('\n')}`;
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const lock = JSON.parse(await readFile(`${top}package-lock.json`, 'utf8'));
  await writeFile(`${top}docs/third-party.md`, thirdPartyText(lock));
}
