// Run by: node src/tools/run-ts.mjs tests/speed/sheet.ts
// The example's whole sheet: time, time a page and kB a page, beside the limits. A bare writer of the same pages, that is
// pdf-lib copying the finished pages into a new file, stands beside them as a measure of the machine. Ends with code 1
// where a limit is passed.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { PDFDocument } from 'pdf-lib';
import { firstLathe } from '../../src/core/part/first-lathe.ts';
import { readPart } from '../../src/core/part/read-part.ts';
import { report } from '../../src/core/report.ts';
import { makeSheet } from '../../src/sheet/sheet.ts';

/** Milliseconds a page after the first sheet; kB a page; milliseconds for the very first sheet, as after a reload. */
const LIMITS = { ms: 25, kB: 25, first: 1500 } as const;

const at = (path: string): string => fileURLToPath(new URL(`../../static/${path}`, import.meta.url));
const read = readPart(readFileSync(at('examples/blower-shaft.json'), 'utf8'), 'blower-shaft');
if (!read.ok) throw new Error(read.problem.say);
const part = read.value;
const made = report(part, firstLathe);
const font = new Uint8Array(readFileSync(at('fonts/drawing.ttf')));
const sheet = (): Promise<Uint8Array> =>
  makeSheet(part, made, firstLathe, { page: 'letter', date: '2025-11-25', font });

async function milliseconds(job: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await job();
  return performance.now() - start;
}

/** Least of some rounds: other work on the machine can only add to it. */
async function least(job: () => Promise<unknown>, rounds: number): Promise<number> {
  let best = Infinity;
  for (let i = 0; i < rounds; i++) best = Math.min(best, await milliseconds(job));
  return best;
}

const first = await milliseconds(sheet);
const pdf = await sheet();
const pages = (await PDFDocument.load(pdf)).getPageCount();
const warm = await least(sheet, 12);
const copied = await least(async () => {
  const out = await PDFDocument.create();
  const from = await PDFDocument.load(pdf);
  for (const page of await out.copyPages(from, from.getPageIndices())) out.addPage(page);
  return out.save();
}, 12);

const rows: [what: string, value: number, limit: number | null][] = [
  [`first sheet, ${pages} pages, ms`, first, LIMITS.first],
  ['sheet again, ms a page', warm / pages, LIMITS.ms],
  ['copying the same pages, ms a page', copied / pages, null],
  ['kB a page', pdf.length / 1000 / pages, LIMITS.kB],
];
for (const [what, value, limit] of rows) {
  console.log(
    `${what.padEnd(36)} ${value.toFixed(1).padStart(8)}   ${limit === null ? '' : `at most ${limit}`}`,
  );
  if (limit !== null && value > limit) process.exitCode = 1;
}
