import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

const names = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome', 'chrome'];

/** What to tell somebody whose machine has no Chromium. */
export const noChromium =
  'No Chromium found. Install one (Debian: apt-get install chromium), set CHROMIUM=/path/to/chromium, ' +
  'or run "node src/tools/fetch-chromium.mjs" (Linux x64) to take the packaged one from npm.';

/**
 * The Chromium that browser tests drive: CHROMIUM, then the PATH, then the one unpacked by fetch-chromium.mjs,
 * then a download of Playwright's own. Null where there is none.
 * @throws Error where CHROMIUM names nothing: that is the caller's slip, not a missing browser.
 */
export function findChromium() {
  const named = process.env.CHROMIUM;
  if (named) {
    if (!existsSync(named)) throw new Error(`CHROMIUM=${named} names no file.`);
    return named;
  }
  const folders = ['/usr/bin', ...(process.env.PATH ?? '').split(delimiter)];
  for (const folder of folders)
    for (const name of names) {
      const path = join(folder, name);
      if (folder && existsSync(path)) return path;
    }
  const packaged = join('node_modules', '.cache', 'chromium', 'launch');
  if (existsSync(packaged)) return packaged;
  return null;
}
