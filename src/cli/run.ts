import { readFile } from 'node:fs/promises';
import { firstLathe } from '../core/part/first-lathe.ts';
import type { Lathe } from '../core/part/lathe.ts';
import { readLathe } from '../core/part/read-lathe.ts';
import { oneLine } from '../core/part/read-json.ts';
import { readPart } from '../core/part/read-part.ts';
import type { Part } from '../core/part/types.ts';
import type { Outcome } from '../core/problem.ts';
import type { Report } from '../core/report-types.ts';
import { report } from '../core/report.ts';
import { readText, writeOut } from './files.ts';
import { readOptions, type Options, type Page } from './options.ts';
import { printPlan } from './print-plan.ts';

/** What the program leaves behind: its exit code and the text for standard output and standard error. */
export type Outcomes = { readonly code: 0 | 1 | 2; readonly out: string; readonly err: string };

const FONT = new URL('../../static/fonts/drawing.ttf', import.meta.url);

const failed = (line: string): Outcomes => ({ code: 2, out: '', err: `${oneLine(line, 500)}\n` });

/**
 * Plans the part that `args` name. Code 0: planned. Code 1: read, but not to be planned as it stands; the report is
 * still written. Code 2: not to be read, or a result that cannot be written: one line in `err`, file, place, reason.
 * `today` (as 2031-04-01) is the date on the sheet.
 */
export async function run(args: readonly string[], today: string): Promise<Outcomes> {
  const options = readOptions(args);
  if (!options.ok) return failed(options.problem.say);
  const part = await load(options.value.part, readPart);
  if (!part.ok) return failed(part.problem.say);
  const lathe = options.value.lathe === null ? ours() : await load(options.value.lathe, readLathe);
  if (!lathe.ok) return failed(lathe.problem.say);
  return deliver(options.value, part.value, lathe.value, today);
}

const ours = (): Outcome<Lathe> => ({ ok: true, value: firstLathe });

async function load<T>(path: string, read: (text: string, file: string) => Outcome<T>): Promise<Outcome<T>> {
  const text = await readText(path);
  return text.ok ? read(text.value, path) : text;
}

async function deliver(options: Options, part: Part, lathe: Lathe, today: string): Promise<Outcomes> {
  const made = report(part, lathe);
  const code = made.plan === null || made.errors.length > 0 ? 1 : 0;
  if (options.pdf !== null) {
    const pdf = await sheetOf(part, made, lathe, options.page, today);
    const fault = await writeOut(options.pdf, pdf);
    if (fault) return failed(fault.say);
  }
  if (options.json === null) return { code, out: printPlan(made), err: '' };
  const json = `${JSON.stringify(made, null, 2)}\n`;
  if (options.json === '-') return { code, out: json, err: '' };
  const fault = await writeOut(options.json, json);
  return fault ? failed(fault.say) : { code, out: '', err: '' };
}

/** The sheet's code and font load only where a sheet is wanted. */
async function sheetOf(
  part: Part,
  made: Report,
  lathe: Lathe,
  page: Page,
  date: string,
): Promise<Uint8Array> {
  const { makeSheet } = await import('../sheet/sheet.ts');
  const font = new Uint8Array(await readFile(FONT));
  const loadFont = async (file: string): Promise<Uint8Array> =>
    new Uint8Array(await readFile(new URL(file, FONT)));
  return makeSheet(part, made, lathe, { page, date, font, loadFont });
}
