import { resolve } from 'node:path';
import type { Outcome } from '../core/problem.ts';

export type Page = 'letter' | 'a4';

/** What the command line asks for. `json` is a file, or `-` for standard output. */
export type Options = {
  readonly part: string;
  readonly lathe: string | null;
  readonly json: string | null;
  readonly pdf: string | null;
  readonly page: Page;
};

export const USAGE =
  'usage: plan PART.json [--lathe LATHE.json] [--json OUT|-] [--pdf OUT] [--page letter|a4]';

const NAMES = ['lathe', 'json', 'pdf', 'page'] as const;
type Name = (typeof NAMES)[number];

const isName = (text: string): text is Name => NAMES.some((name) => name === text);
const isPage = (text: string): text is Page => text === 'letter' || text === 'a4';
const wrong = (what: string): Outcome<never> => ({
  ok: false,
  problem: { code: 'usage', where: '', say: `${what}; ${USAGE}` },
});

/** Reads the arguments after the program's name. What it cannot read is one line that ends in the usage. */
export function readOptions(args: readonly string[]): Outcome<Options> {
  const parts: string[] = [];
  const values = new Map<Name, string>();
  const left = [...args];
  for (let arg = left.shift(); arg !== undefined; arg = left.shift()) {
    const [, name, joined] = /^--([^=]*)(?:=(.*))?$/s.exec(arg) ?? [];
    if (name === undefined) {
      if (arg.startsWith('-')) return wrong(`unknown option ${arg}`);
      parts.push(arg);
      continue;
    }
    if (!isName(name)) return wrong(`unknown option --${name}`);
    if (values.has(name)) return wrong(`--${name} is given twice`);
    const value = joined ?? left.shift();
    if (value === undefined || value === '') return wrong(`--${name} wants a value`);
    values.set(name, value);
  }
  const [part, second] = parts;
  if (part === undefined || part === '') return wrong('no part file is named');
  if (second !== undefined) return wrong(`one part file at a time, and ${second} is a second`);
  const page = values.get('page') ?? 'letter';
  if (!isPage(page)) return wrong(`--page is letter or a4, not ${page}`);
  const file = (name: Name) => values.get(name) ?? null;
  const clash = writtenOver(part, file);
  if (clash !== null) return wrong(clash);
  return { ok: true, value: { part, lathe: file('lathe'), json: file('json'), pdf: file('pdf'), page } };
}

/** What would be lost where two of the named files are one; null where none is. */
function writtenOver(part: string, file: (name: Name) => string | null): string | null {
  if (file('pdf') === '-') return '--pdf wants a file: a sheet is no text for the screen';
  const place = (path: string | null) => (path === null || path === '-' ? null : resolve(path));
  const sources = [place(part), place(file('lathe'))];
  for (const name of ['json', 'pdf'] as const) {
    const target = place(file(name));
    if (target !== null && sources.includes(target)) return `--${name} would write over ${file(name)}`;
  }
  const [json, pdf] = [place(file('json')), place(file('pdf'))];
  return json !== null && json === pdf ? '--json and --pdf name one file' : null;
}
