import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Part, Segment } from '../../src/core/part/types.ts';
import type { Cut, Holding, Plan, Reading } from '../../src/core/plan/types.ts';
import type { Report } from '../../src/core/report-types.ts';
import { pageWords, qpdfCheck } from './pdf-tools.ts';
import { readPages } from './pdfjs.ts';
import { samplePlan, sampleReport } from './sample-report.ts';
import { a4, letter, sampleSheet } from './sheet-fixtures.ts';

/** Sheets of plans that nobody would make: long names, long sentences, close lines, many steps. Only the layout is at stake. */
const long = fc.constantFrom(
  'A',
  'shoulder against which the left bearing stands',
  'überlangerZusammengesetzterBauteilname',
  '軸受',
);
const anyScript = fc.oneof(fc.string({ unit: 'grapheme', minLength: 1, maxLength: 6 }), long);
/** Every script takes a font of its own, and time: one in six has letters of any of them. */
const title = fc.oneof({ weight: 1, arbitrary: anyScript }, { weight: 5, arbitrary: long });
const words = fc.array(
  fc.constantFrom('feed', 'to', 'the', 'shoulder', '-1.2345', 'Gegenspitzenkörnerbohrung'),
  { maxLength: 60 },
);
const figure = fc.constantFrom('.0000', '-12.34567', '1 63/64', '304.8', '-.5');

type Name = fc.Arbitrary<string>;

const reading = (name: Name, axis: Reading['axis']): fc.Arbitrary<Reading> =>
  fc
    .record({ text: figure, station: fc.option(name), both: fc.boolean(), other: figure })
    .map(({ text, station, both, other }) => ({
      axis,
      value_mm: 1,
      text,
      station,
      edge: both ? 'left' : null,
      other: both ? { edge: 'right', value_mm: 2, text: other } : null,
    }));

const cut = (name: Name): fc.Arbitrary<Cut> =>
  fc.record({
    n: fc.integer({ min: 1, max: 300 }),
    kind: fc.constantFrom('rough', 'finish', 'groove', 'measure', 'support', 'taper', 'thread'),
    segment: fc.option(name),
    makes: fc.option(name),
    tool: fc.option(name),
    inside: fc.constant(false),
    z0_mm: fc.double({ min: -50, max: 200, noNaN: true }),
    z1_mm: fc.double({ min: -50, max: 200, noNaN: true }),
    d0_mm: fc.double({ min: 1, max: 20, noNaN: true }),
    d1_mm: fc.double({ min: 1, max: 20, noNaN: true }),
    passes: fc.integer({ min: 1, max: 40 }),
    rpm: fc.option(fc.integer({ min: 50, max: 3000 })),
    feed_mm: fc.option(fc.double({ min: 0.01, max: 0.5, noNaN: true })),
    hand_turned: fc.boolean(),
    support: fc.constantFrom(null, ['centre' as const]),
    readings: fc
      .tuple(reading(name, 'X'), reading(name, 'Z'), reading(name, 'quill'))
      .chain((all) => fc.subarray(all)),
    setting: fc.constantFrom(null, { compound_deg: 1.4321, infeeds_mm: [0.1, 0.2, 0.1], die: 'M6x1' }),
    say: words.map((all) => all.join(' ')),
  });

const holding = (name: Name): fc.Arbitrary<Holding> =>
  fc.record({
    id: name,
    device: fc.constantFrom('collet', 'chuck', 'centres'),
    grips: fc.constantFrom(null, { z0_mm: 150, z1_mm: 170, on: 'bar' as const }),
    headstock: fc.constantFrom('left', 'right'),
    stick_out_mm: fc.option(fc.double({ min: 1, max: 200, noNaN: true })),
    support: fc.constantFrom([], ['centre' as const], ['steady' as const, 'travelling-steady' as const]),
    steady_at_mm: fc.option(fc.double({ min: 0, max: 150, noNaN: true })),
    datum: fc.record({ station: name, how: words.map((all) => all.join(' ')) }),
    zero_z_mm: fc.double({ min: -20, max: 150, noNaN: true }),
    z_sign: fc.constantFrom(1, -1),
    marks: fc.array(
      fc.record({
        station: name,
        z_mm: fc.double({ min: 0, max: 140, noNaN: true }),
        reading_mm: fc.constant(1),
        text: figure,
        rule_text: fc.option(figure),
        from: fc.constantFrom('A', 'E'),
        before: fc.integer({ min: 1, max: 300 }),
        waste: fc.constantFrom('left', 'right', 'none'),
      }),
      { maxLength: 16 },
    ),
    cuts: fc.array(cut(name), { maxLength: 7 }),
  });

const segments: fc.Arbitrary<Segment[]> = fc.array(
  fc.constantFrom<Segment>(
    { id: 's', form: 'cylinder', diameter: { size: '.4995/.4985' } },
    { id: 't', form: 'thread', thread: '5/16-24 UNF-2A' },
    { id: 'u', form: 'taper', start: '.500', end: '.375', ratio: '1:10' },
  ),
  { minLength: 1, maxLength: 12 },
);

/** A part with a length between neighbouring faces and some longer ones; places as they come. */
const drawing: fc.Arbitrary<Part> = fc
  .record({ segments, title, seed: fc.integer({ min: 1, max: 9 }) })
  .map(({ segments: all, title, seed }) => {
    const ids = Array.from({ length: all.length + 1 }, (_, i) => (i === 0 ? 'A' : i === 1 ? 'E' : `F${i}`));
    const tied = ids.slice(1).map((to, i) => ({
      id: `L${i}`,
      from: ids[i] ?? 'A',
      to,
      size: i % 2 ? '3/32' : '.4000',
      tol: '±.003',
    }));
    const over = ids.slice(2).map((to, i) => ({ id: `M${i}`, from: 'A', to, size: '2.6500 mm' }));
    return {
      shaftwright: 1,
      title,
      unit: 'in',
      faces: ids.map((id, i) => ({ id, sketched: (i * i) / seed })),
      segments: all.map((segment, i) => ({ ...segment, id: `s${i}` })),
      points: [],
      lengths: [...tied, ...over],
      edges: [],
      holes: [],
      crossings: [],
      requirements: [],
      matched: [],
    };
  });

const chainsOf = (part: Part): Report['chains'] => ({
  ...sampleReport.chains,
  groups: part.faces.map(({ id }) => [id]),
  doubled: [{ lengths: ['L0', 'M0'] }],
  clashes: [{ lengths: ['M1'], gap_mm: 1.23, within_limits: false }],
  stations: {},
});

/** As for titles: one plan in six has names in any script. */
const holdings = fc
  .oneof({ weight: 1, arbitrary: fc.constant(anyScript) }, { weight: 5, arbitrary: fc.constant(long) })
  .chain((name) => fc.array(holding(name), { minLength: 1, maxLength: 2 }));

type Box = { text: string; x0: number; y0: number; x1: number; y1: number };

const overlaps = (all: readonly Box[], by: number): string[] =>
  all.flatMap((a, i) =>
    all
      .slice(i + 1)
      .filter(
        (b) =>
          Math.min(a.x1, b.x1) - Math.max(a.x0, b.x0) > by &&
          Math.min(a.y1, b.y1) - Math.max(a.y0, b.y0) > by,
      )
      .map((b) => `${a.text} | ${b.text}`),
  );

/** Texts beyond the punched holes at the left or the edge that a printer leaves blank. */
const outside = (all: readonly Box[], width: number, height: number): Box[] =>
  all.filter((w) => w.x0 < 56 || w.x1 > width - 15 || w.y0 < 12 || w.y1 > height - 15);

const PLAIN = /^[\p{Script=Latin}\p{N}\p{P}\p{Z}]*$/u;

/** Marks of some scripts stand on their letter and are read back as words of their own. */
const isLetter = ({ text }: Box): boolean => !/^\p{M}+$/u.test(text);

/** `npm run long` makes ten times as many. */
const RUNS = Number(process.env['SHEET_RUNS'] ?? 100);
/** Every so often poppler and qpdf look too: they start a program each time. */
const EVERY = 20;

test(
  'whatever the plan, no text overlaps another or leaves the page',
  { timeout: Math.max(120_000, RUNS * 1200) },
  async () => {
    let run = 0;
    await fc.assert(
      fc.asyncProperty(drawing, holdings, fc.boolean(), async (part, holdings, small) => {
        const plan: Plan = { ...samplePlan, holdings };
        const made = { chains: chainsOf(part), diameters: [], plan, requirements: [] };
        const pdf = await sampleSheet(small ? letter : a4, { ...part, requirements: [] }, made);
        for (const { width, height, boxes } of await readPages(pdf)) {
          // pdf.js counts marks over letters as if they stood beside them.
          const all = boxes.filter(({ text }) => !/\p{M}/u.test(text.normalize('NFD')) || PLAIN.test(text));
          expect(outside(all, width, height)).toEqual([]);
          expect(overlaps(all, 0.4)).toEqual([]);
        }
        if (run++ % EVERY > 0) return;
        expect(qpdfCheck(pdf)).toContain('No syntax');
        for (const { width, height, words } of pageWords(pdf)) {
          const all = words.filter(isLetter);
          expect(outside(all, width, height)).toEqual([]);
          expect(overlaps(all, 0.4)).toEqual([]);
        }
      }),
      { numRuns: RUNS, seed: 123, endOnFailure: true },
    );
    expect(run).toBe(RUNS);
  },
);
