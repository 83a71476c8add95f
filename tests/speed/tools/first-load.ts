import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';

/** Imports that a chunk cannot run without; what is behind `import()` is left out. */
const STATIC = /(?:\bfrom|\bimport)\s*["'](\.\/[^"']+\.js)["']/g;
const NAMED = /<(?:script|link)[^>]+(?:src|href)="\.\/([^"]+\.(?:js|css))"/g;

const matches = (text: string, pattern: RegExp) =>
  [...text.matchAll(pattern)].flatMap(([, name]) => name ?? []);

/**
 * The files of a built folder without which the board does not stand: the page, the scripts and styles it names, and
 * what those scripts import, each with its size in bytes as gzip packs it. Fonts, pictures, the part that is opened, and
 * what the app fetches by `import()` when the board stands are not among them.
 */
export async function firstLoad(folder: string): Promise<Map<string, number>> {
  const sizes = new Map<string, number>();
  const take = async (file: string): Promise<string> => {
    const bytes = await readFile(join(folder, file));
    sizes.set(file, gzipSync(bytes).length);
    return bytes.toString('utf8');
  };
  const waiting = matches(await take('index.html'), NAMED);
  for (let file = waiting.shift(); file !== undefined; file = waiting.shift()) {
    if (sizes.has(file)) continue;
    const text = await take(file);
    const beside = file.slice(0, file.lastIndexOf('/') + 1);
    if (file.endsWith('.js')) waiting.push(...matches(text, STATIC).map((name) => beside + name.slice(2)));
  }
  return sizes;
}
