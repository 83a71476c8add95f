import { describe, expect, test } from 'vitest';
import { firstLathe } from '../../src/core/part/first-lathe.ts';
import type { Cut, Plan } from '../../src/core/plan/types.ts';
import { report } from '../../src/core/report.ts';
import { makeSheet } from '../../src/sheet/sheet.ts';
import {
  fontLines,
  info,
  pageOperators,
  pageTexts,
  pageWords,
  qpdfCheck,
  segments,
  setText,
} from './pdf-tools.ts';
import { readPages } from './pdfjs.ts';
import { samplePlan } from './sample-report.ts';
import { a4, example, exampleSheet, letter, sampleSheet } from './sheet-fixtures.ts';

const PT = 72 / 25.4;
const blower = example('blower-shaft');
const sheets: [name: string, pdf: () => Promise<Uint8Array>, plan: Plan | null, title: string][] = [
  ['two holdings, A4', () => sampleSheet(a4), samplePlan, 'Grinder spindle'],
  ['two holdings, letter', () => sampleSheet(letter), samplePlan, 'Grinder spindle'],
  [
    'blower shaft, letter',
    () => exampleSheet('blower-shaft', letter),
    blower.made.plan,
    'Forge-blower shaft',
  ],
  ['idler axle, A4', () => exampleSheet('idler-axle-open', a4), null, 'Idler axle'],
  ['winch spindle, A4', () => exampleSheet('winch-spindle-clash', a4), null, 'Winch spindle'],
];

/** ISO 128-2, line thicknesses: a row of 1 : √2. */
const ISO_128_WIDTHS = [0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1];
const rounded = (mm: number): number => Math.round(mm * 1000) / 1000;

const allCuts = (plan: Plan): Cut[] => [...plan.holdings.flatMap(({ cuts }) => cuts), ...plan.off_lathe];

describe.each(sheets)('%s', (_name, make, plan, title) => {
  const made = make();

  test('qpdf finds nothing wrong, and every font is embedded, cut down and has its Unicode map', async () => {
    const pdf = await made;
    expect(qpdfCheck(pdf)).toContain('No syntax or stream encoding errors found');
    const fonts = fontLines(pdf);
    expect(fonts.length).toBeGreaterThan(0);
    for (const font of fonts) expect(font).toMatch(/yes\s+yes\s+yes/);
  });

  test('each page has title, number, date, the advice on scale and the names of its bars', async () => {
    const pages = pageTexts(await made);
    pages.forEach((text, i) => {
      for (const wanted of [title, `page ${i + 1} of ${pages.length}`, '2025-11-25', 'print at 100 %'])
        expect(text).toContain(wanted);
      expect(text.match(/\b50 mm\b/g)).toHaveLength(2);
      expect(text.match(/\b2 in\b/g)?.length).toBeGreaterThanOrEqual(2);
    });
  });

  test('no text leaves the margins, and none overlaps another', async () => {
    for (const [i, { width, height, words }] of pageWords(await made).entries()) {
      const page = `page ${i + 1}`;
      for (const word of words) {
        expect(word.x0, `${page}: ${word.text}`).toBeGreaterThan(19.9 * PT);
        expect(word.x1, `${page}: ${word.text}`).toBeLessThan(width - 6 * PT);
        expect(word.y0, `${page}: ${word.text}`).toBeGreaterThan(6 * PT);
        expect(word.y1, `${page}: ${word.text}`).toBeLessThan(height - 6 * PT);
      }
      const clashes = words.flatMap((a, k) =>
        words
          .slice(k + 1)
          .filter(
            (b) =>
              Math.min(a.x1, b.x1) - Math.max(a.x0, b.x0) > 0.3 &&
              Math.min(a.y1, b.y1) - Math.max(a.y0, b.y0) > 0.3,
          )
          .map((b) => `${page}: ${a.text} | ${b.text}`),
      );
      expect(clashes).toEqual([]);
    }
  });

  test('black only: no grey or colour that one bit could lose, no line under 0.18 mm', async () => {
    for (const operators of pageOperators(await made)) {
      expect(operators).not.toMatch(/\s(rg|RG|k|K|G|sc|SC|scn|SCN)\b/);
      for (const [, grey] of operators.matchAll(/([\d.]+) g\b/g)) expect(['0', '1']).toContain(grey);
      for (const { width } of segments(operators)) expect(ISO_128_WIDTHS).toContain(rounded(width / PT));
      const drawn = operators.split('\n').filter((row) => /\b[Ss]$/.test(row) || /\bd$/.test(row));
      for (const row of drawn)
        for (const [, width] of row.matchAll(/([\d.]+) w\b/g))
          expect(Number(width)).toBeGreaterThanOrEqual(0.18 * PT - 1e-3);
    }
  });

  test('every reading of the plan stands on its pages, at least 14 points high', async () => {
    if (!plan) return expect(pageTexts(await made).join()).toContain('There is no plan');
    const tall = pageWords(await made)
      .flatMap(({ words }) => words)
      .filter(({ y0, y1 }) => y1 - y0 > 14 * 1.1)
      .map(({ text }) => text);
    const count = (texts: readonly string[]): Map<string, number> => {
      const counts = new Map<string, number>();
      for (const text of texts) counts.set(text, (counts.get(text) ?? 0) + 1);
      return counts;
    };
    const readings = allCuts(plan).flatMap(({ readings }) =>
      readings.flatMap((r) => [r.text, ...(r.other ? [r.other.text] : [])]),
    );
    const marks = plan.holdings.flatMap(({ marks }) => marks.map(({ text }) => text));
    const printed = count(tall);
    for (const [word, times] of count([...readings, ...marks].flatMap((text) => text.split(' '))))
      expect(printed.get(word) ?? 0, word).toBeGreaterThanOrEqual(times);
  });

  test('pdf.js reads every reading of the plan as well, each as one piece of text', async () => {
    if (!plan) return;
    const texts = (await readPages(await made)).flatMap(({ boxes }) => boxes.map(({ text }) => text.trim()));
    const pieces = texts.flatMap((text) => [text, text.replace(/^or /, '')]);
    const readings = allCuts(plan).flatMap(({ readings }) =>
      readings.flatMap((r) => [r.text, ...(r.other ? [r.other.text] : [])]),
    );
    for (const text of readings) expect(pieces).toContain(text);
    for (const { marks } of plan.holdings) for (const { text } of marks) expect(pieces).toContain(text);
  });

  test('every cut stands in order with its instruction', async () => {
    if (!plan) return;
    const text = pageTexts(await made)
      .join(' ')
      .replaceAll(/\s+/g, ' ');
    for (const { say } of allCuts(plan))
      for (const word of say.split(' ').slice(0, 3)) expect(text).toContain(word);
    for (const { id } of plan.holdings) expect(text).toContain(`Holding ${id}`);
  });
});

test('in the drawing the outline is twice as thick as dimension and extension lines, as ISO 128-2 has them', async () => {
  const [drawing = ''] = pageOperators(await exampleSheet('blower-shaft', letter));
  const long = new Map<number, number>();
  for (const { width, x0, y0, x1, y1 } of segments(drawing)) {
    const mm = rounded(width / PT);
    long.set(mm, (long.get(mm) ?? 0) + Math.hypot(x1 - x0, y1 - y0));
  }
  for (const mm of [0.5, 0.25]) expect(long.get(mm) ?? 0, `lines of ${mm} mm`).toBeGreaterThan(500);
});

test('page sizes are those of ISO 216 and ANSI Y14.1, to a thousandth of a millimetre', async () => {
  const sizes: [Uint8Array, number, number, string][] = [
    [await sampleSheet(a4), 210, 297, 'A4'],
    [await sampleSheet(letter), 8.5 * 25.4, 11 * 25.4, 'letter'],
  ];
  for (const [pdf, width, height, name] of sizes) {
    const rows = info(pdf)
      .split('\n')
      .filter((row) => /size:.*pts/.test(row));
    expect(rows.length).toBeGreaterThan(5);
    for (const row of rows) expect(row).toContain(`(${name})`);
    const pages = pageWords(pdf).map((page) => [page.width / PT, page.height / PT] as const);
    expect(pages.some(([w, h]) => w < h)).toBe(true);
    for (const sides of pages) {
      expect(Math.min(...sides)).toBeCloseTo(width, 3);
      expect(Math.max(...sides)).toBeCloseTo(height, 3);
    }
  }
});

test('a part longer than an upright page is drawn across it, its tables upright; a short one upright', async () => {
  const { part } = example('blower-shaft');
  const lying = (pdf: Uint8Array): boolean[] => pageWords(pdf).map(({ width, height }) => width > height);
  const pages = ['drawing' as const];
  expect(lying(await exampleSheet('blower-shaft', { ...letter, pages }))[0]).toBe(false);
  // Three inches between each two faces: 30 in of shaft on a page of 11 in.
  const lengths = part.faces
    .slice(1)
    .map(({ id }, i) => ({ id: `L${i}`, from: part.faces[i]?.id ?? '', to: id, size: '3' }));
  const long = { ...part, lengths, points: [], crossings: [], requirements: [] };
  const drawn = await makeSheet(long, report(long, firstLathe), firstLathe, { ...letter, pages });
  expect(lying(drawn)[0]).toBe(true);
  expect(lying(drawn).at(-1)).toBe(false);
});

test('the same input gives the same bytes, another date others', async () => {
  const [a, b] = [await sampleSheet(a4), await sampleSheet(a4)];
  expect(Buffer.compare(a, b)).toBe(0);
  expect(Buffer.compare(a, await sampleSheet({ ...a4, date: '2025-11-26' }))).not.toBe(0);
});

test('title, language and bookmarks are in the file', async () => {
  const pdf = await sampleSheet(a4);
  expect(info(pdf)).toMatch(/Title:\s+Grinder spindle/);
  expect(info(pdf)).not.toMatch(/Author:/);
  expect(Buffer.from(pdf).length).toBeLessThan(25_000 * pageTexts(pdf).length);
});

test('a blade reads by both edges, named by the side they look to', async () => {
  const text = setText(await sampleSheet(a4));
  expect(text).toContain('-1.7500 at C, headstock edge or -1.6720 tailstock edge');
  expect(text).toContain('-1.7030 at D, headstock edge or -1.6250 tailstock edge');
});

test('without a plan the sheet prints the drawing, the state of the chains and what is wrong', async () => {
  const open = setText(await exampleSheet('idler-axle-open', a4));
  for (const words of [
    'Open: some places are not given',
    'between C and D',
    'D not placed',
    'There is no plan',
  ])
    expect(open).toContain(words);
  const clash = setText(await exampleSheet('winch-spindle-clash', a4));
  for (const words of [
    'Clashing',
    'L2, L3, L6 miss one another by .0090 in',
    'off by .0090',
    'said twice',
    '2.606',
  ])
    expect(clash).toContain(words);
  expect(clash).not.toContain('Bar to order');
});

test('a font that is no TrueType is refused by name', async () => {
  await expect(
    sampleSheet({ ...a4, font: new Uint8Array([0x77, 0x4f, 0x46, 0x32, 0, 0, 0, 0]) }),
  ).rejects.toThrow();
});
