// Fetches a Chromium out of npm for machines that have none (Linux x64): node src/tools/fetch-chromium.mjs
// It is kept under node_modules/.cache/chromium, where find-chromium.mjs looks, and in no lock file.
import { spawnSync } from 'node:child_process';
import { chmod, mkdir, mkdtemp, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { brotliDecompress } from 'node:zlib';

const unbrotli = promisify(brotliDecompress);
// Newest that runs on Node 20.
const PACKAGED = '@sparticuz/chromium@147.0.0';
const top = fileURLToPath(new URL('../..', import.meta.url));
const home = join(top, 'node_modules', '.cache', 'chromium');

/** Whether the packaged Chromium can run here. */
export const canFetchChromium = () => process.platform === 'linux' && process.arch === 'x64';

/** Unpacks a .tar.br of the package into `folder`; tar is on every Linux that runs the rest. */
async function untar(archive, folder) {
  await mkdir(folder, { recursive: true });
  const tar = spawnSync('tar', ['-x', '-C', folder, '-f', '-'], {
    input: await unbrotli(await readFile(archive)),
  });
  if (tar.status !== 0) throw new Error(`${archive} could not be unpacked: ${tar.error ?? tar.stderr}`);
}

const fontsConf = (folder) => `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
  <dir>${folder}/fonts</dir>
  <dir>/usr/share/fonts</dir>
  <cachedir>${folder}/font-cache</cachedir>
</fontconfig>
`;

const launcher = (folder) => `#!/bin/sh
export LD_LIBRARY_PATH="${folder}/libs/lib" FONTCONFIG_FILE="${folder}/fonts.conf"
exec "${folder}/shell" "$@"
`;

/** Lays the browser out in `from`, to be moved to `folder`: the program, its libraries, its fonts (without any a tab crashes). */
async function layOut(bin, from, folder) {
  await mkdir(from, { recursive: true });
  await writeFile(join(from, 'shell'), await unbrotli(await readFile(join(bin, 'chromium.br'))));
  await chmod(join(from, 'shell'), 0o755);
  await untar(join(bin, 'al2023.tar.br'), join(from, 'libs'));
  await untar(join(bin, 'fonts.tar.br'), from);
  await writeFile(join(from, 'fonts.conf'), fontsConf(folder));
  await writeFile(join(from, 'launch'), launcher(folder), { mode: 0o755 });
}

/**
 * Fetches and unpacks the packaged Chromium. It is installed beside the project, not into it, so that neither the lock
 * file nor node_modules changes.
 * @returns The path of a launcher.
 * @throws Error where npm or unpacking fails.
 */
export async function fetchChromium() {
  if (!canFetchChromium()) throw new Error('The packaged Chromium is for Linux x64 only.');
  const work = await mkdtemp(join(tmpdir(), 'chromium-'));
  try {
    await writeFile(join(work, 'package.json'), '{ "private": true }\n');
    const npm = ['install', '--ignore-scripts', '--no-audit', '--no-fund', '--no-package-lock', PACKAGED];
    const { status } = spawnSync('npm', npm, { cwd: work, stdio: ['ignore', 'ignore', 'inherit'] });
    if (status !== 0) throw new Error(`npm could not install ${PACKAGED}.`);
    const main = createRequire(join(work, 'package.json')).resolve('@sparticuz/chromium');
    const bin = join(main.slice(0, main.lastIndexOf('@sparticuz')), '@sparticuz', 'chromium', 'bin');
    const fresh = `${home}.new`;
    await rm(fresh, { recursive: true, force: true });
    await mkdir(dirname(home), { recursive: true });
    await layOut(bin, fresh, home);
    await rm(home, { recursive: true, force: true });
    await rename(fresh, home);
    return join(home, 'launch');
  } finally {
    await rm(work, { recursive: true, force: true });
  }
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  try {
    console.log(`Chromium is at ${await fetchChromium()}`);
  } catch (fault) {
    console.error(fault instanceof Error ? fault.message : String(fault));
    process.exitCode = 1;
  }
}
