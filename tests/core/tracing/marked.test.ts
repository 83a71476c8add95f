import { describe, expect, test } from 'vitest';
import { draftReport } from '../../../src/core/draft-report.ts';
import { newPart } from '../../../src/core/part/new-part.ts';
import type { Hole, Part, Segment } from '../../../src/core/part/types.ts';
import type { Pixel, Scan } from '../../../src/core/tracing/scan.ts';
import { tracedIds, withHole, withOutline } from '../../../src/core/tracing/trace.ts';

/** 4 px to the mm, placed by 100 mm over 400 px; the axis at 200 px, the first face at 100. */
const scan: Scan = {
  ...{ image: 'kept:1', width: 1000, height: 400, scale: 4, angle: 0, origin: [100, 200] },
  known: { from: [100, 200], to: [500, 200], size: '100 mm', within: 2 },
};
/** The pixel so many mm along the drawing and above the axis, worked by hand. */
const px = (x: number, y: number): Pixel => [100 + 4 * x, 200 - 4 * y];

/** Three lands, 0–40–50–100 mm, of which the middle one is given. */
function shaft(middle: object, lengths: readonly (readonly [string, string, string])[] = []): Part {
  const land = (id: string): Segment => ({ id, form: 'cylinder', diameter: '20' });
  return {
    ...newPart('mm'),
    general: { lengths: { rule: 'fixed', tol: '±0.1' }, diameters: { rule: 'fixed', tol: '±0.1' } },
    faces: Object.entries({ A: 0, B: 40, C: 50, D: 100 }).map(([id, sketched]) => ({ id, sketched })),
    segments: [land('s1'), { ...middle, id: 's2' } as Segment, land('s3')],
    lengths: lengths.map(([from, to, size], i) => ({ id: `L${i + 1}`, from, to, size })),
    scan,
  };
}
function marked(part: Part, id: string, picks: readonly [Pixel, Pixel]): Part {
  const next = withOutline(part.scan as Scan, part, id, picks, 2);
  if (!next) throw new Error('the picks are at one place');
  return { ...part, scan: next };
}
const said = (part: Part) =>
  draftReport(part)
    .warnings.filter(({ code }) => code === 'scan-disagrees')
    .map(({ where, say }) => `${where}: ${say}`);

describe('a groove that is marked by two picks on its floor', () => {
  const picks = [px(40, 8), px(50, 8)] as const;
  const groove = (floor: string, width: string) =>
    marked(shaft({ form: 'cylinder', diameter: floor }, [['B', 'C', width]]), 's2', picks);

  // By hand, at 4 px to the mm with every pick within 2 px: the floor is off by 2·(2 + 2)/4 = 2 mm and 1.5 % of 16 mm,
  // 2.24 mm; the width by (2 + 2)/4 = 1 mm and 1.5 % of 10 mm, 1.15 mm.
  test.each([
    ['agree', '16', '10', []],
    ['the floor agrees within the tracing error', '18.2', '10', []],
    ['the floor disagrees', '18.3', '10', ['s2']],
    ['the floor disagrees, the other way', '13.7', '10', ['s2']],
    ['the width agrees within the tracing error', '16', '11.1', []],
    ['the width disagrees', '16', '11.2', ['L1']],
    ['both disagree', '1.6', '01', ['L1', 's2']],
  ])('%s: Ø%s, %s wide', (_name, floor, width, where) => {
    expect(said(groove(floor, width)).map((text) => text.split(':')[0])).toEqual(where);
  });

  test('the picks may come in either order, on either side of the axis', () => {
    const part = shaft({ form: 'cylinder', diameter: '16' });
    const one = marked(part, 's2', picks).scan;
    expect(marked(part, 's2', [px(50, 8), px(40, 8)]).scan).toEqual(one);
    expect(marked(part, 's2', [px(40, -8), px(50, 8)]).scan).toEqual(one);
    expect(one).toMatchObject({
      traced: [
        { station: 'B', at: px(40, 0), sketched: 40 },
        { station: 'C', at: px(50, 0), sketched: 50 },
      ],
      traced_tall: [{ segment: 's2', at: px(45, 8), within: 2 }],
    });
  });

  test('picks that are not apart along the axis by more than they are off mark nothing', () => {
    const part = shaft({ form: 'cylinder', diameter: '16' });
    expect(withOutline(scan, part, 's2', [px(40, 8), px(41, 8)], 2)).toBeNull();
    expect(withOutline(scan, part, 'nothing', picks, 2)).toBeNull();
  });

  test('marking again takes the place of the marks before', () => {
    const part = groove('16', '10');
    const again = marked(part, 's2', [px(40, 6), px(50, 6)]);
    expect((again.scan as Scan).traced_tall).toHaveLength(1);
    expect(tracedIds(again, again.scan as Scan)).toEqual(['A', 'B', 'C', 's2']);
    expect(said(again)).toHaveLength(1);
  });
});

// By hand: each end is off by 2 mm and 1.5 % of its diameter, 2.3 mm at 20 and 2.15 mm at 10; and along a taper of 1 in 1,
// 20 to 10 mm over 10 mm, a pick within 2 px, .5 mm, along it is another .5 mm: 2.8 and 2.65 mm.
describe('both ends of a taper', () => {
  const taper = (start: string, end: string) =>
    marked(shaft({ form: 'taper', start, end }), 's2', [px(40, 10), px(50, 5)]);
  test.each([
    ['agree', '20', '10', []],
    ['agree within the tracing error', '22.7', '12.6', []],
    ['the left one disagrees', '23', '10', ['The left end of s2 is written 23']],
    ['the right one disagrees', '20', '6.5', ['The right end of s2 is written 6.5']],
    [
      'they were taken for each other',
      '10',
      '20',
      ['The left end of s2 is written 10', 'The right end of s2 is written 20'],
    ],
  ])('%s: from %s to %s', (_name, start, end, says) => {
    expect(said(taper(start, end)).map((text) => text.slice(4).split(',')[0])).toEqual(says);
  });

  test('an end that is not written is not compared', () => {
    const part = shaft({ form: 'taper', start: '20', per_foot: '1/2' });
    expect(said(marked(part, 's2', [px(40, 10), px(50, 5)]))).toEqual([]);
  });
});

describe('a hole along the axis', () => {
  const bored = (over: object): Part => {
    const hole = { id: 'H1', from: 'A', form: 'bore', diameter: '12', depth: '30', ...over } as Hole;
    const marks = withHole(scan, 'H1', [px(0, 6), px(30, 6)], 2);
    return { ...shaft({ form: 'cylinder', diameter: '16' }), holes: [hole], scan: marks };
  };

  // By hand: across it is off by 2 mm and 1.5 % of 12 mm, 2.18 mm; in depth by 1 mm and 1.5 % of 30 mm, 1.45 mm.
  test.each([
    ['agrees', {}, []],
    ['agrees within the tracing error', { diameter: '14.1', depth: '31.4' }, []],
    ['disagrees across', { diameter: '14.2' }, ['H1 is written 14.2']],
    ['disagrees in depth', { depth: '31.5' }, ['The depth of H1 is written 31.5']],
    [
      'is drilled, and disagrees in both',
      { form: 'drill', diameter: '21', depth: '3' },
      ['H1 is written 21', 'The depth of H1 is written 3'],
    ],
    ['goes through: there is no depth', { depth: undefined, through: true }, []],
    [
      'is tapped: a drawing shows two lines',
      { form: 'tap', thread: 'M20', depth: '20', diameter: undefined },
      [],
    ],
  ])('%s', (_name, over, says) => {
    expect(said(bored(over)).map((text) => text.slice(4).split(',')[0])).toEqual(says);
  });

  test('swapped figures are named', () => {
    expect(said(bored({ diameter: '21' }))[0]).toContain('12 with two figures swapped');
  });

  test('one that is gone is not told of, and picks at one place mark nothing', () => {
    const part = bored({ diameter: '30' });
    expect(tracedIds(part, part.scan as Scan)).toEqual(['H1']);
    const without = { ...part, holes: [] };
    expect(tracedIds(without, without.scan as Scan)).toEqual([]);
    expect(said(without)).toEqual([]);
    expect(withHole(scan, 'H1', [px(0, 6), px(0.5, 6)], 2)).toBeNull();
  });
});
