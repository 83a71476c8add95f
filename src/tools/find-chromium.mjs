import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const names = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome', 'chrome'];
const packaged = fileURLToPath(new URL('../../node_modules/.cache/chromium/launch', import.meta.url));

/** What to tell somebody whose machine has no Chromium. */
export const noChromium =
  'No Chromium found. Install one (Debian: apt-get install chromium), set CHROMIUM=/path/to/chromium, ' +
  'or run "node src/tools/fetch-chromium.mjs" (Linux x64) to take the packaged one from npm.';

/** The browser that Playwright downloads for itself, if somebody had it do so. */
function playwrights() {
  try {
    return createRequire(import.meta.url)('playwright').chromium.executablePath();
  } catch {
    return ''; // not installed, or not for this system
  }
}

/**
 * The Chromium that browser tests drive: CHROMIUM, then /usr/bin and the PATH, then the one unpacked by
 * fetch-chromium.mjs, then a download of Playwright's own. Null where there is none.
 * @throws Error where CHROMIUM names nothing: that is the caller's slip, not a missing browser.
 */
export function findChromium() {
  const named = process.env.CHROMIUM;
  if (named) {
    if (!existsSync(named)) throw new Error(`CHROMIUM=${named} names no file.`);
    return named;
  }
  const folders = ['/usr/bin', ...(process.env.PATH ?? '').split(delimiter)].filter(
    (folder) => folder !== '',
  );
  const installed = folders.flatMap((folder) => names.map((name) => join(folder, name)));
  for (const path of installed) if (existsSync(path)) return path;
  for (const path of [packaged, playwrights()]) if (path !== '' && existsSync(path)) return path;
  return null;
}
