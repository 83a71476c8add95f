import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { draftReport } from '../../../src/core/draft-report.ts';
import { readPart } from '../../../src/core/part/read-part.ts';
import { newPart } from '../../../src/core/part/new-part.ts';
import type { Part } from '../../../src/core/part/types.ts';
import { readScan, type Scan } from '../../../src/core/tracing/scan.ts';
import {
  pickError,
  scaledDiameter,
  scaledLength,
  tracesOf,
  withTall,
  withTrace,
} from '../../../src/core/tracing/trace.ts';

/** 4 px to the mm, placed by 100 mm over 400 px. */
const blank: Scan = {
  ...{ image: 'kept:1', width: 1000, height: 400, scale: 4, angle: 0, origin: [100, 200] },
  known: { from: [100, 200], to: [500, 200], size: '100 mm', within: 2 },
};
const places = { A: 0, B: 40, C: 60, D: 100 } as const;

/** Four faces, traced where `places` has them. */
function traced(
  sizes: readonly (readonly [from: string, to: string, size: string])[],
  over: Partial<Scan> = {},
): Part {
  const scan = (['B', 'C', 'D'] as const).reduce<Scan>(
    (now, id) => withTrace(now, id, places[id], places[id], 2),
    { ...blank, ...over },
  );
  return {
    ...newPart('mm'),
    general: { lengths: { rule: 'fixed', tol: '±0.1' }, diameters: { rule: 'fixed', tol: '±0.1' } },
    faces: Object.entries(places).map(([id, sketched]) => ({ id, sketched })),
    segments: ['s1', 's2', 's3'].map((id) => ({ id, form: 'cylinder', diameter: '10' })),
    lengths: sizes.map(([from, to, size], i) => ({ id: `L${i + 1}`, from, to, size })),
    scan,
  };
}
const said = (part: Part) => draftReport(part).warnings.filter(({ code }) => code.startsWith('scan-'));

// By hand: both picks are within 2 px of 4 to the mm, so 1 mm; the scale was picked within 4 px of 400, so 1 % of the
// length; the paper stretches by half a per cent of it. A length of 40 mm is off by 1 + 0.4 + 0.2 = 1.6 mm at most.
test('how far off a scaled length can be, worked by hand', () => {
  const part = traced([]);
  const [a, b] = tracesOf(part, part.scan as Scan);
  const scaled = a && b && scaledLength(part.scan as Scan, a, b);
  expect(scaled?.mm).toBeCloseTo(40, 6);
  expect(scaled?.within).toBeCloseTo(1.6, 6);
});

describe('a written size and its scaled length', () => {
  test.each([
    ['agree', '40', []],
    ['agree within the tracing error', '41.5', []],
    ['disagree by more', '41.7', ['L1']],
    ['disagree by more, the other way', '38.3', ['L1']],
  ])('%s: %s', (_name, size, where) => {
    expect(said(traced([['A', 'B', size]])).map((note) => [note.code, note.where])).toEqual(
      where.map((id) => ['scan-disagrees', id]),
    );
  });

  test('swapped figures are named, though every chain closes', () => {
    const part = traced([
      ['A', 'B', '40'],
      ['B', 'C', '02'],
      ['A', 'D', '100'],
    ]);
    const report = draftReport(part);
    expect(report.chains.state).toBe('closed');
    expect(said(part)).toHaveLength(1);
    expect(said(part)[0]?.say).toMatch(
      /^L2 is written 02, .* about 20\.0 ± 1\.3 mm\..* 20 with two figures swapped\.$/,
    );
  });

  test('a bracketed size is looked at too', () => {
    const part = traced([]);
    const reference = { id: 'R', from: 'A', to: 'C', size: '70', role: 'reference' };
    expect(said({ ...part, lengths: [reference] }).map(({ where }) => where)).toEqual(['R']);
  });

  test('a scaled length is never a size: what is not written stays open', () => {
    expect(draftReport(traced([])).chains).toMatchObject({
      state: 'open',
      stations: { B: { z_mm: null } },
    });
  });
});

describe('what counts as traced', () => {
  const wrong = [['B', 'C', '55']] as const;

  test('a face that was moved on the sketch since counts no more', () => {
    const part = traced(wrong);
    expect(said(part)).toHaveLength(1);
    const faces = part.faces.map((face) => (face.id === 'C' ? { ...face, sketched: 61 } : face));
    expect(said({ ...part, faces })).toEqual([]);
  });

  test('nothing does before the picture is to scale', () => {
    const scan = traced(wrong).scan as Scan;
    expect(
      said({
        ...traced(wrong),
        scan: Object.fromEntries(Object.entries(scan).filter(([key]) => key !== 'known')),
      }),
    ).toEqual([]);
  });

  test('the first face does not by itself', () => {
    expect(said({ ...traced([['A', 'D', '70']]), scan: blank })).toEqual([]);
  });

  test('marking again takes the place of the mark before', () => {
    const scan = withTrace(withTrace(blank, 'B', 10, 1, 2), 'B', 20, 1, 2);
    expect(scan.traced).toEqual([{ station: 'B', at: [180, 200], sketched: 1, within: 2 }]);
  });

  test('seen from afar a pick is coarser: 2 px of the screen at 1 px to the mm are 8 px of the picture', () => {
    expect(pickError(blank, 1)).toBe(8);
    expect(pickError(blank, 40)).toBe(2);
  });
});

describe('a spoilt picture leaves a part', () => {
  test.each([
    ['a text', 'x'],
    ['a list', []],
    ['no image', { ...blank, image: undefined }],
    ['an address', { ...blank, image: 'https://example.test/a.png' }],
    ['an SVG', { ...blank, image: 'data:image/svg+xml;base64,PHN2Zy8+' }],
    ['an SVG that says it is a PNG', { ...blank, image: 'data:image/png;base64,PHN2Zz48L3N2Zz4=' }],
    ['a header that breaks off', { ...blank, image: 'data:image/png;base64,iVBORw0KGgoA' }],
    ['a scale of nothing', { ...blank, scale: 0 }],
    ['a scale that is no number', { ...blank, scale: Number.NaN }],
    ['an origin of one figure', { ...blank, origin: [1] }],
    ['more pixels than are decoded', { ...blank, width: 20_000, height: 20_000 }],
    ['a mark without a station', { ...blank, traced: [{ at: [0, 0], sketched: 0, within: 1 }] }],
    [
      'a mark at a third end',
      { ...blank, traced_tall: [{ segment: 's1', end: 'middle', at: [0, 0], within: 1 }] },
    ],
    ['a hole without an end', { ...blank, traced_holes: [{ hole: 'H1', from: [0, 0], within: 1 }] }],
    ['a known size that is a number', { ...blank, known: { from: [0, 0], to: [1, 1], size: 3, within: 1 } }],
  ])('%s', (_name, scan) => {
    const part: Part = { ...traced([['A', 'B', '40']]), scan };
    expect(said(part).map(({ code, where }) => [code, where])).toEqual([['scan-unreadable', 'scan']]);
  });

  test('no picture is no problem', () => {
    expect(readScan(null)).toBeNull();
    expect(readScan(undefined)).toBeNull();
    expect(readScan(blank)).toEqual({ ok: true, value: blank });
  });
});

// The plan says 5/8, drawn 250 px to the inch; the example has it as 3/8.
test('the example that ships: the chains close, and the picture tells the one size that was misread', () => {
  const file = new URL('../../../static/examples/grindstone-spindle-traced.json', import.meta.url);
  const read = readPart(readFileSync(file, 'utf8'), 'the example');
  if (!read.ok) throw new Error(read.problem.say);
  expect(draftReport(read.value).chains.state).toBe('closed');
  const notes = said(read.value);
  expect(notes.map(({ where }) => where)).toEqual(['L4']);
  expect(notes[0]?.say).toContain('5/8 would agree');
});

/** The first land as it was pointed to 7.5 mm above the axis, 15 mm thick, at 40 mm along the drawing. */
function tall(diameter: string, over: object = {}): Part {
  const part = traced([]);
  const scan = withTall(part.scan as Scan, 's1', { mm: 40, radius: 7.5, sketched: 15, within: 2 });
  const [first, ...rest] = part.segments;
  return {
    ...part,
    segments: [{ ...first, form: 'cylinder', id: 's1', diameter, sketched: 15, ...over }, ...rest],
    scan,
  } as Part;
}

// By hand: the outline is picked within 2 px and the axis lies within 2 px, at 4 to the mm and on both sides, so 2 mm; and
// 1.5 % of 15 mm as for a length: 2.225 mm.
test('how far off a scaled diameter can be, worked by hand', () => {
  const { scan } = tall('15');
  const [trace] = (scan as Scan).traced_tall ?? [];
  expect(trace?.at).toEqual([260, 170]);
  const scaled = trace && scaledDiameter(scan as Scan, trace);
  expect(scaled?.mm).toBeCloseTo(15, 6);
  expect(scaled?.within).toBeCloseTo(2.225, 6);
});

describe('a written diameter and the one that was traced', () => {
  test.each([
    ['agree', '15', {}, []],
    ['agree within the tracing error', '17.2', {}, []],
    ['disagree by more', '17.3', {}, ['s1']],
    ['disagree by more, the other way', '12.7', {}, ['s1']],
    ['are not compared where the land was sketched anew since', '51', { sketched: 16 }, []],
  ])('%s: %s', (_name, diameter, over, where) => {
    expect(said(tall(diameter, over)).map((note) => [note.code, note.where])).toEqual(
      where.map((id) => ['scan-disagrees', id]),
    );
  });

  test('swapped figures are named', () => {
    expect(said(tall('51'))[0]?.say).toMatch(
      /^s1 is written 51, .* about 15\.0 ± 2\.2 mm\..* 15 with two figures swapped\.$/,
    );
  });

  test('a place on the axis, where only a face was meant, tells nothing of a diameter', () => {
    const { scan } = traced([]);
    const on = withTall(scan as Scan, 's1', { mm: 40, radius: 1, sketched: 2, within: 2 });
    expect(on.traced_tall).toBeUndefined();
  });
});

// A metric thread is named after its outside diameter. Source: ISO 261. 5/8 in are 15.875 mm.
describe('the outside of a thread and the one that was traced', () => {
  test.each([
    ['M16', []],
    ['M16x1.5', []],
    ['5/8-11 UNC', []],
    ['M24', ['s1']],
    ['M10', ['s1']],
    ['3/8-16 UNC', ['s1']],
  ])('%s in a picture that shows 15 mm', (thread, where) => {
    const part = tall('15', { form: 'thread', thread, diameter: undefined });
    expect(said(part).map((note) => note.where)).toEqual(where);
  });
});

// By hand: s1 runs 40 mm from A, pointed at where it ends at B, 15 ± 2.225 mm. The pick along the axis is within 2 px at the
// face and 2 px of its own, 1 mm at 4 to the mm; on a taper of 1 in 4, from 25 to 15 mm, that is another .25 mm.
describe('the end of a taper that was pointed at', () => {
  const taper = (start: string, end: string) => tall('', { form: 'taper', start, end, diameter: undefined });
  test.each([
    ['agrees', '25', '15', []],
    ['agrees within the tracing error', '27.4', '17.4', []],
    ['disagrees by more', '27.6', '17.6', ['s1']],
    ['disagrees by more, the other way', '22.4', '12.4', ['s1']],
    ['has turned round: the ends were taken for each other', '15', '25', ['s1']],
  ])('%s: from %s to %s', (_name, start, end, where) => {
    expect(said(taper(start, end)).map((note) => note.where)).toEqual(where);
  });

  test('swapped figures are named at that end', () => {
    expect(said(taper('25', '51'))[0]?.say).toMatch(
      /^The right end of s1 is written 51, .* 15 with two figures swapped\.$/,
    );
  });

  test('one that was pointed at between its ends, or whose ends are not traced, tells nothing', () => {
    const part = taper('25', '51');
    const [mark] = (part.scan as Scan).traced_tall ?? [];
    if (!mark) throw new Error('nothing is marked');
    const between = { ...mark, at: [180, 170] as const };
    expect(said({ ...part, scan: { ...(part.scan as Scan), traced_tall: [between] } })).toEqual([]);
    expect(said({ ...part, scan: { ...(part.scan as Scan), traced: [] } })).toEqual([]);
  });

  test('its other end is compared where that was pointed at', () => {
    const part = taper('51', '25');
    const [mark] = (part.scan as Scan).traced_tall ?? [];
    if (!mark) throw new Error('nothing is marked');
    const atStart = { ...mark, at: [100, 170] as const };
    const notes = said({ ...part, scan: { ...(part.scan as Scan), traced_tall: [atStart] } });
    expect(notes[0]?.say).toMatch(/^The left end of s1 is written 51,/);
  });
});
