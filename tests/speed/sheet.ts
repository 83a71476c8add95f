// Run by: node src/tools/run-ts.mjs tests/speed/sheet.ts
// The example's whole sheet beside pdfkit writing the same texts, strokes and tags, turn by turn in the same run; beside it
// pdfkit without tags. pdfkit is handed every text with its place, while ours also measures and breaks lines and pages.
// Processor time, least of the rounds. Ends with code 1 where a goal is missed.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { firstLathe } from '../../src/core/part/first-lathe.ts';
import { readPart } from '../../src/core/part/read-part.ts';
import { report } from '../../src/core/report.ts';
import { makeSheet } from '../../src/sheet/sheet.ts';
import { byPdfkit, contentOf } from './tools/by-pdfkit.ts';
import { Goals, table } from './tools/least.ts';

const ROUNDS = 15;

const at = (path: string): string => fileURLToPath(new URL(`../../static/${path}`, import.meta.url));
const read = readPart(readFileSync(at('examples/blower-shaft.json'), 'utf8'), 'blower-shaft');
if (!read.ok) throw new Error(read.problem.say);
const part = read.value;
const made = report(part, firstLathe);
const font = new Uint8Array(readFileSync(at('fonts/drawing.ttf')));
const sheet = (): Promise<Uint8Array> =>
  makeSheet(part, made, firstLathe, { page: 'letter', date: '2025-11-25', font });

/** Milliseconds of processor time. */
async function cost(job: () => Promise<unknown>): Promise<number> {
  const from = process.cpuUsage();
  await job();
  const { user, system } = process.cpuUsage(from);
  return (user + system) / 1000;
}

const goals = new Goals();
const first = await cost(sheet);
const pdf = await sheet();
const content = await contentOf(pdf);
const pdfkit = () => byPdfkit(content, at('fonts/drawing.ttf'), true);
const untagged = () => byPdfkit(content, at('fonts/drawing.ttf'), false);
const firstByPdfkit = await cost(pdfkit);
let [ours, theirs, bare] = [Infinity, Infinity, Infinity];
for (let i = 0; i < ROUNDS; i++) {
  ours = Math.min(ours, await cost(sheet));
  theirs = Math.min(theirs, await cost(pdfkit));
  bare = Math.min(bare, await cost(untagged));
}

const kB = pdf.length / 1000 / content.length;
const texts = content.reduce((sum, { boxes }) => sum + boxes.length, 0);
const strokes = content.reduce((sum, page) => sum + page.strokes.length, 0);
console.log(
  `${content.length} pages, ${texts} texts, ${strokes} strokes; bytes: ours ${pdf.length}, pdfkit ${await pdfkit()}, without tags ${await untagged()}`,
);
const ms = (value: number) => value.toFixed(0);
const times = (a: number, b: number) => (a / b).toFixed(2);
const kept = goals.atMost('times pdfkit', ours / theirs, 1.5);
table(
  ['processor time, ms', 'ours', 'pdfkit', 'times', 'goal', 'kept'],
  [
    ['the first sheet', ms(first), ms(firstByPdfkit), times(first, firstByPdfkit), '', ''],
    ['a sheet', ms(ours), ms(theirs), times(ours, theirs), '1.5', kept],
    ['pdfkit without tags', ms(ours), ms(bare), times(ours, bare), '', ''],
    ['kB a page', kB.toFixed(1), '', '', '25', goals.atMost('kB a page', kB, 25)],
  ],
);
goals.end();
