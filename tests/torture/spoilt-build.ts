import { cp, readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

/** Code that goes ahead of a worker of the app, and fails in its midst. */
export const spoils = {
  /** The planner dies as soon as it is asked for a plan. */
  planner: `addEventListener('message', (event) => { event.stopImmediatePropagation(); throw new Error('gone'); });`,
  /** The sheet is begun, its third word of progress fails. */
  sheet: `{ const tell = globalThis.postMessage.bind(globalThis); let told = 0;
    globalThis.postMessage = (word) => {
      if ('done' in word && (told += 1) > 2) throw new Error('half way');
      tell(word);
    }; }`,
} as const;

/** Copies the built app to `folder` with one of its workers spoilt, as no policy of the page lets it be done from outside. */
export async function spoiltBuild(folder: string, worker: keyof typeof spoils): Promise<string> {
  const copy = join(folder, `dist-${worker}`);
  await cp('dist', copy, { recursive: true });
  const assets = join(copy, 'assets');
  const file = (await readdir(assets)).find((name) => name.startsWith(`${worker}.worker-`));
  if (!file) throw new Error(`The build has no ${worker}.worker; npm run build makes it.`);
  await writeFile(join(assets, file), `${spoils[worker]}\n${await readFile(join(assets, file), 'utf8')}`);
  return copy;
}
