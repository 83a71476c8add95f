import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { firstLathe } from '../../src/core/part/first-lathe.ts';
import { readPart } from '../../src/core/part/read-part.ts';
import type { Part } from '../../src/core/part/types.ts';
import { report } from '../../src/core/report.ts';
import type { Report } from '../../src/core/report-types.ts';
import { makeSheet, type SheetOptions } from '../../src/sheet/sheet.ts';
import { sampleLathe, samplePart, sampleReport } from './sample-report.ts';

const at = (path: string): string => fileURLToPath(new URL(`../../static/${path}`, import.meta.url));

export const fontBytes = (file: string): Uint8Array => new Uint8Array(readFileSync(at(`fonts/${file}`)));
export const loadFont = (file: string): Promise<Uint8Array> => Promise.resolve(fontBytes(file));

export const letter: SheetOptions = {
  page: 'letter',
  date: '2025-11-25',
  font: fontBytes('drawing.ttf'),
  loadFont,
};
export const a4: SheetOptions = { ...letter, page: 'a4' };

export const sampleSheet = (
  options: SheetOptions = a4,
  part: Partial<Part> = {},
  made: Partial<Report> = {},
): Promise<Uint8Array> =>
  makeSheet({ ...samplePart, ...part }, { ...sampleReport, ...made }, sampleLathe, options);

/** One of the app's own examples, planned for the lathe that comes with the app. */
export function example(name: string): { part: Part; made: Report } {
  const read = readPart(readFileSync(at(`examples/${name}.json`), 'utf8'), name);
  if (!read.ok) throw new Error(read.problem.say);
  return { part: read.value, made: report(read.value, firstLathe) };
}

export const exampleSheet = (name: string, options: SheetOptions): Promise<Uint8Array> => {
  const { part, made } = example(name);
  return makeSheet(part, made, firstLathe, options);
};
