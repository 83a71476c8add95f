import { describe, expect, test } from 'vitest';
import { firstLathe } from '../../src/core/part/first-lathe.ts';
import type { Actual, PartLength } from '../../src/core/part/types.ts';
import type { Plan } from '../../src/core/plan/types.ts';
import { report } from '../../src/core/report.ts';
import { makeSheet } from '../../src/sheet/sheet.ts';
import { PAGE_KINDS, type PageKind } from '../../src/sheet/page-kinds.ts';
import { info, pageOperators, pageTexts, pageWords, segments, setText } from './pdf-tools.ts';
import { samplePlan } from './sample-report.ts';
import { a4, example, exampleSheet, letter, sampleSheet } from './sheet-fixtures.ts';

const MM = 25.4 / 72;
const HEADS: Readonly<Record<PageKind, RegExp>> = {
  drawing: /^Drawing/m,
  order: /^Bar and tools/m,
  holdings: /^(Holding|Off the lathe)/m,
  cards: /^Setting cards/m,
  strips: /^Strips at true size/m,
  inspection: /^Inspection/m,
  checks: /^Stacks and chart/m,
  cautions: /^Cautions/m,
};

describe('the kinds of page', () => {
  test.each(PAGE_KINDS)('%s alone', async (kind) => {
    for (const text of pageTexts(await exampleSheet('blower-shaft', { ...letter, pages: [kind] })))
      expect(text).toMatch(HEADS[kind]);
  });

  test('left out, all of them', async () => {
    const text = pageTexts(await exampleSheet('blower-shaft', letter)).join('\n');
    for (const kind of PAGE_KINDS) expect(text).toMatch(HEADS[kind]);
  });

  test('where nothing of what was chosen is there, one page says so', async () => {
    const pages = pageTexts(await sampleSheet({ ...a4, pages: ['strips'] }, {}, { plan: null }));
    expect(pages).toHaveLength(1);
    expect(pages[0]).toContain('Nothing to print');
  });
});

test('inspection has every size with the limits of the report, and lies across', async () => {
  const { part, made } = example('blower-shaft');
  const pdf = await exampleSheet('blower-shaft', { ...letter, pages: ['inspection'] });
  const text = setText(pdf);
  const isReference = ({ role, size }: PartLength): boolean =>
    role === 'reference' || (typeof size !== 'string' && size.role === 'reference');
  for (const length of part.lengths)
    if (!isReference(length)) expect(text).toContain(`length ${length.id}, ${length.from} to ${length.to}`);
  for (const { min_mm, max_mm } of made.diameters)
    for (const mm of [min_mm, max_mm])
      if (mm !== null) expect(text).toContain((mm / 25.4).toFixed(4).replace(/^0/, ''));
  for (const { id } of [...part.holes.filter(({ form }) => form !== 'centre'), ...part.crossings])
    expect(text).toContain(id);
  for (const { width, height } of pageWords(pdf)) expect(width).toBeGreaterThan(height);
});

test('what was measured stands on its line with its verdict in words; what was not has a line to write on', async () => {
  const { part } = example('blower-shaft');
  const measured = (of: string, text: string): Actual => ({ what: 'diameter', of, text });
  const actuals = [measured('left', '.3935'), measured('neck', '.4200'), measured('seat', '.5002')];
  const made = report(part, firstLathe, actuals);
  const pdf = await makeSheet(part, made, firstLathe, { ...letter, pages: ['inspection'] });
  const text = setText(pdf);
  // Limits of the drawing: seat .4995/.4985, neck 7/16 with the general 1/64, left 10 mm h6 (ISO 286-2: 0/-9 um).
  expect(text).toContain('diameter of left Ø10 mm h6 .3933 .3937');
  expect(text).toMatch(/\.3935 in limits/);
  expect(text).toMatch(/\.4200 \.0019 in UNDER/);
  expect(text).toMatch(/\.5002 \.0007 in OVER/);
});

test('the card of a taper has the angle, and how far an indicator goes over an inch of the slide', async () => {
  const plan = example('blower-shaft').made.plan;
  const taper = plan?.holdings.flatMap(({ cuts }) => cuts).find(({ kind }) => kind === 'taper');
  const text = setText(await exampleSheet('blower-shaft', { ...letter, pages: ['cards'] }));
  // 1 : 10 on the diameter is half an angle of atan(1/20) = 2.8624° (2° 52′), whose sine is .0499: tables of natural sines.
  expect(taper?.setting?.compound_deg).toBeCloseTo(2.8624, 4);
  expect(text).toContain('2.862° (2°52′)');
  expect(text).toContain('the indicator changes by .0499 in');
});

test('pecks add up to the depth that the quill reads', async () => {
  const text = setText(await exampleSheet('blower-shaft', { ...letter, pages: ['cards'] }));
  expect(text).toContain('Full depth reads 1 1/16 on the quill');
  expect(text).toContain('9 .0625 1.0625');
});

describe('a printer that makes 99.2 mm of 100 mm', () => {
  const strips = async (measured_mm: number): Promise<{ text: string; bars: number[] }> => {
    const pdf = await sampleSheet({ ...a4, pages: ['strips'], measured_mm });
    const drawn = segments(pageOperators(pdf)[0] ?? '').filter((s) => Math.abs(s.y0 - s.y1) < 1e-6);
    return { text: setText(pdf), bars: drawn.map((s) => Math.abs(s.x1 - s.x0) * MM) };
  };

  test('gets strips that come out right', async () => {
    const { text, bars } = await strips(99.2);
    const onPaper = bars.map((mm) => mm * 0.992);
    expect(onPaper.some((mm) => Math.abs(mm - 100) < 0.001)).toBe(true);
    // The wrap strip: 3.141593 × (diameter + 0.1 mm of paper).
    expect(onPaper.some((mm) => Math.abs(mm - 3.141593 * (0.37475 * 25.4 + 0.1)) < 0.001)).toBe(true);
    expect(text).toContain('this printer made 99.2 mm of 100 mm');
  });

  test('and one that is right gets them as they are', async () => {
    const { text, bars } = await strips(100);
    expect(bars.some((mm) => Math.abs(mm - 100) < 0.001)).toBe(true);
    expect(text).toContain('measured of 100 mm');
  });

  test.each([80, 111, 0, NaN])('what no printer makes of 100 mm is refused: %d', async (measured_mm) => {
    await expect(sampleSheet({ ...a4, measured_mm })).rejects.toThrow(RangeError);
  });
});

test('progress runs from nothing to the last step', async () => {
  const told: [number, number][] = [];
  await sampleSheet({ ...a4, onprogress: (done, of) => told.push([done, of]) });
  expect(told.length).toBeGreaterThan(5);
  expect(told.map(([done]) => done)).toEqual(told.map((_, i) => i));
  for (const [done, of] of told) expect(done).toBeLessThan(of);
});

test(
  '20 holdings with 200 cuts come page by page, each cut once and whole',
  { timeout: 60_000 },
  async () => {
    const [first] = samplePlan.holdings;
    const sample = first?.cuts.find(({ readings }) => readings.length > 1);
    if (!first || !sample) throw new Error('the sample has cuts');
    const holdings = Array.from({ length: 20 }, (_, h) => ({
      ...first,
      id: `H${h + 1}`,
      cuts: Array.from({ length: 10 }, (_, i) => ({
        ...sample,
        n: h * 10 + i + 1,
        say: `Do step ${h * 10 + i + 1} now.`,
      })),
    }));
    const plan: Plan = { ...samplePlan, holdings, off_lathe: [] };
    const pdf = await sampleSheet(a4, {}, { plan });
    const pages = pageTexts(pdf);
    for (let n = 1; n <= 200; n++)
      expect(pages.filter((text) => text.replaceAll('\n', ' ').includes(`Do step ${n} now.`))).toHaveLength(
        1,
      );
    expect(pages.at(-1)).toContain(`page ${pages.length} of ${pages.length}`);
    expect(pages.length).toBeLessThan(90);
    expect(info(pdf)).toContain(`Pages:           ${pages.length}`);
  },
);
