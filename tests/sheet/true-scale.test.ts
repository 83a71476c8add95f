import { describe, expect, test } from 'vitest';
import type { Mark, Plan } from '../../src/core/plan/types.ts';
import type { Report } from '../../src/core/report-types.ts';
import { pageOperators, pageTexts, pageWords, segments, type Segment } from './pdf-tools.ts';
import { samplePlan, sampleReport } from './sample-report.ts';
import { a4, example, exampleSheet, letter, sampleSheet } from './sheet-fixtures.ts';

const MM = 25.4 / 72;
const upright = (s: Segment): boolean => Math.abs(s.x0 - s.x1) < 1e-6;
const level = (s: Segment): boolean => Math.abs(s.y0 - s.y1) < 1e-6;
const long = (s: Segment): number => Math.hypot(s.x1 - s.x0, s.y1 - s.y0) * MM;

test.each([
  ['A4', a4],
  ['letter', letter],
] as const)(
  'each page of %s has bars of 50 mm and 2 in both ways, right to a thousandth of a millimetre',
  async (_size, options) => {
    for (const operators of pageOperators(await sampleSheet(options))) {
      const drawn = segments(operators);
      for (const way of [upright, level])
        for (const wanted of [50, 50.8])
          expect(drawn.filter((s) => way(s) && Math.abs(long(s) - wanted) < 0.001)).toHaveLength(1);
    }
  },
);

/** The strip's ticks as drawn: an upright line with a station's name beside it, within the block under its heading. */
function ticksOn(pdf: Uint8Array, holding: string): Map<string, number[]> {
  const found = new Map<string, number[]>();
  const operators = pageOperators(pdf);
  pageWords(pdf).forEach(({ height, words }, page) => {
    const heads = words.filter((w, i) => w.text === 'Holding' && words[i + 2]?.text === 'from');
    const lines = segments(operators[page] ?? '').filter(upright);
    heads.forEach((head) => {
      const name = words[words.indexOf(head) + 1]?.text;
      if (name !== `${holding},`) return;
      const below = words.filter((w) => w.y0 > head.y1 && w.x0 >= head.x0 - 1);
      const next = Math.min(
        ...words.filter((w) => w.y0 > head.y1 + 1 && /^(Holding|To)$/.test(w.text)).map((w) => w.y0),
        Infinity,
      );
      for (const word of below.filter((w) => w.y0 < next)) {
        const tick = lines.find(
          (s) =>
            Math.abs(word.x0 - s.x0 - 1 / MM) < 0.3 &&
            height - Math.min(s.y0, s.y1) > word.y0 &&
            height - Math.max(s.y0, s.y1) < word.y0 &&
            height - Math.max(s.y0, s.y1) > head.y1,
        );
        if (tick) found.set(word.text, [...(found.get(word.text) ?? []), tick.x0 * MM]);
      }
    });
  });
  return found;
}

const cases: [name: string, pdf: () => Promise<Uint8Array>, plan: Plan, chains: Report['chains']][] = [
  ['two holdings', () => sampleSheet(a4), samplePlan, sampleReport.chains],
];
const blower = example('blower-shaft').made;
if (blower.plan)
  cases.push(['blower shaft', () => exampleSheet('blower-shaft', letter), blower.plan, blower.chains]);

describe.each(cases)('strips of %s', (_name, make, plan, chains) => {
  const made = make();

  test.each(plan.holdings.filter(({ marks }) => marks.length > 0).map((h) => [h.id, h] as const))(
    'the ticks of %s stand where the report has them, within 0.02 mm',
    async (_id, holding) => {
      const ticks = ticksOn(await made, holding.id);
      const [zero] = ticks.get('0') ?? [];
      expect(zero, 'the zero line').toBeDefined();
      const place = (mark: Mark): number => {
        const from = chains.stations[mark.from]?.aim_mm ?? NaN;
        return holding.headstock === 'left' ? mark.z_mm - from : from - mark.z_mm;
      };
      for (const mark of holding.marks) {
        const drawn = (ticks.get(mark.station) ?? []).map((x) => x - (zero ?? NaN));
        const nearest = Math.min(...drawn.map((x) => Math.abs(x - place(mark))));
        expect(nearest, `${mark.station} at ${place(mark)}, drawn at ${drawn.join(', ')}`).toBeLessThan(0.02);
      }
    },
  );
});

test('a strip too long for a page goes on, with a register line that both pieces carry', async () => {
  const z = [30, 190, 260, 410, 600];
  const [first, ...rest] = samplePlan.holdings;
  if (!first) throw new Error('the sample has holdings');
  const station = (i: number): string => ['A', 'B', 'C', 'D', 'P1'][i] ?? 'E';
  const marks = z.map((mm, i): Mark => ({
    station: station(i),
    z_mm: 700 - mm,
    reading_mm: -mm,
    text: `-${mm}.00`,
    rule_text: null,
    from: 'E',
    before: 1,
    waste: 'none',
  }));
  const plan = { ...samplePlan, holdings: [{ ...first, marks }, ...rest] };
  const stations = { ...sampleReport.chains.stations, E: { z_mm: 700, aim_mm: 700 } };
  const pdf = await sampleSheet(a4, {}, { plan, chains: { ...sampleReport.chains, stations } });
  const pages = pageTexts(pdf)
    .map((text, i) => ({ text, i }))
    .filter(({ text }) => text.includes('Strips at true size'));
  const pieces = pages.flatMap(({ text }) =>
    [...text.matchAll(/piece (\d) of (\d)/g)].map(([, n]) => Number(n)),
  );
  expect(pieces.length).toBeGreaterThan(2);
  expect(pieces).toEqual(pieces.map((_, i) => i + 1));
  const operators = pageOperators(pdf);
  const crosses = pages.flatMap(({ i }) =>
    segments(operators[i] ?? '').filter((s) => level(s) && Math.abs(long(s) - 5) < 1e-3),
  );
  expect(crosses).toHaveLength(2 * (pieces.length - 1));
});

test('a wrap strip is π times the diameter and a sheet of paper long, its tick a quarter on', async () => {
  const pdf = await sampleSheet(a4);
  const page = pageTexts(pdf).findIndex((text) => text.includes('To wrap round journal'));
  const drawn = segments(pageOperators(pdf)[page] ?? '');
  // The circumference of a circle of 1 in is 3.1416 in (common tables of circumferences); here 0.37475 in and 0.1 mm of paper.
  const round = 3.141593 * (0.37475 * 25.4 + 0.1);
  const edges = drawn.filter((s) => level(s) && Math.abs(long(s) - round) < 0.001);
  expect(edges.length).toBeGreaterThan(0);
  const left = Math.min(...edges.flatMap((s) => [s.x0, s.x1]));
  expect(drawn.some((s) => upright(s) && Math.abs((s.x0 - left) * MM - round / 4) < 0.001)).toBe(true);
});
