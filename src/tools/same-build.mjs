// npm run same-build: builds once more into a folder of its own, and compares it with dist byte by byte.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

const top = fileURLToPath(new URL('../..', import.meta.url));
const vite = join(dirname(fileURLToPath(import.meta.resolve('vite/package.json'))), 'bin', 'vite.js');

/** Every file of a folder by name, with the hash of its bytes. */
async function hashes(folder) {
  const found = new Map();
  for (const entry of await readdir(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile()) continue;
    const path = join(entry.parentPath ?? entry.path, entry.name);
    found.set(
      relative(folder, path),
      createHash('sha256')
        .update(await readFile(path))
        .digest('hex'),
    );
  }
  return found;
}

const again = await mkdtemp(join(tmpdir(), 'shaftwright-build-'));
try {
  const steps = [
    [vite, 'build', '--logLevel', 'error', '--outDir', again, '--emptyOutDir'],
    [join(top, 'src', 'tools', 'offline.mjs'), again],
  ];
  const built = steps.every(
    (step) => spawnSync(process.execPath, step, { cwd: top, stdio: 'inherit' }).status === 0,
  );
  if (!built) throw new Error('The second build failed.');
  const [first, second] = await Promise.all([hashes(join(top, 'dist')), hashes(again)]);
  const names = [...new Set([...first.keys(), ...second.keys()])].sort();
  const odd = names.filter((name) => first.get(name) !== second.get(name));
  for (const name of odd) console.log(`differs: ${name}`);
  console.log(`${names.length} files, ${odd.length} differ between two builds`);
  process.exitCode = odd.length === 0 ? 0 : 1;
} finally {
  await rm(again, { recursive: true, force: true });
}
