import { describe, expect, test } from 'vitest';
import { fromInches, toMm, type Length } from '../../../src/core/lengths/length.ts';
import { resolvePart } from '../../../src/core/part/resolve.ts';
import type { ResolvedSize } from '../../../src/core/part/resolved.ts';
import type { GeneralRule, SizeText } from '../../../src/core/part/types.ts';
import { faults, pin } from './samples.ts';

/** Inches in millionths, so that a table reads as the shop writes it. */
const inches = (length: Length) => Math.round(length / 25_400);
const band = (size: ResolvedSize | null | undefined) =>
  size && `${inches(size.min)}..${inches(size.nominal)}..${inches(size.max)} ${size.limitsFrom}`;

const lengthOf = (length: object, general: object = {}) =>
  resolvePart(pin(['1/2'], { general, lengths: [{ id: 'L1', from: 'A', to: 'B', ...length }] }));
const diameterOf = (diameter: SizeText, rule?: GeneralRule, unit = 'in') => {
  const part = resolvePart(
    pin([{ form: 'cylinder', diameter }], { unit, ...(rule && { general: { diameters: rule } }) }),
  );
  const segment = part.segments[0];
  return { part, size: segment?.form === 'cylinder' ? segment.diameter : null };
};

describe('limits, in the order of their sources', () => {
  const byDecimals = { rule: 'decimals', fraction: '1/64', '2': '.010', '3': '.005', '4': '.0005' };
  // Written in the size, beside it, inside the record, by class, by rule, not at all. Millionths of an inch.
  const rows: [string, object, object, string][] = [
    ['two limits', { size: '.2500/.2495' }, byDecimals, '249500..249750..250000 written'],
    ['a tolerance in the size', { size: '.500 ±.002' }, byDecimals, '498000..500000..502000 written'],
    ['a tolerance beside it', { size: '.500', tol: '±.003' }, byDecimals, '497000..500000..503000 written'],
    [
      'a tolerance in the record',
      { size: { size: '.500', tol: '+.000/-.002' } },
      byDecimals,
      '498000..500000..500000 written',
    ],
    [
      'a tolerance takes the unit of its size',
      { size: '25.4 mm', tol: '±2.54' },
      byDecimals,
      '900000..1000000..1100000 written',
    ],
    ['a fraction', { size: '1/2' }, byDecimals, '484375..500000..515625 general'],
    ['two decimals', { size: '.50' }, byDecimals, '490000..500000..510000 general'],
    ['three decimals', { size: '.500' }, byDecimals, '495000..500000..505000 general'],
    [
      'more decimals than named take the finest',
      { size: '.50000' },
      byDecimals,
      '499500..500000..500500 general',
    ],
    ['fewer than named take that of fractions', { size: '.5' }, byDecimals, '484375..500000..515625 general'],
    ['a whole number takes that of fractions', { size: '1' }, byDecimals, '984375..1000000..1015625 general'],
    [
      'a whole number by its own name',
      { size: '1' },
      { ...byDecimals, '0': '1/32' },
      '968750..1000000..1031250 general',
    ],
    [
      'a fraction is no whole number',
      { size: '1/2' },
      { ...byDecimals, '0': '1/32' },
      '484375..500000..515625 general',
    ],
    [
      'an unnamed count takes the next coarser',
      { size: '.500' },
      { rule: 'decimals', '2': '.010', '4': '.001' },
      '490000..500000..510000 general',
    ],
    [
      'two decimals of a millimetre are two decimals',
      { size: '25.40 mm' },
      byDecimals,
      '990000..1000000..1010000 general',
    ],
    [
      'a rule with its sign',
      { size: '.500' },
      { rule: 'decimals', '3': '+.002/-.000' },
      '500000..500000..502000 general',
    ],
    ['fixed', { size: '1/2' }, { rule: 'fixed', tol: '±.002' }, '498000..500000..502000 general'],
    [
      'fixed, without its sign',
      { size: '1/2' },
      { rule: 'fixed', tol: '.002' },
      '498000..500000..502000 general',
    ],
    [
      'a fraction with no rule for it',
      { size: '1/2' },
      { rule: 'decimals', '3': '.005' },
      '500000..500000..500000 none',
    ],
    [
      'a reference takes no general limits',
      { size: '1/2', role: 'reference' },
      byDecimals,
      '500000..500000..500000 none',
    ],
    [
      'a reference by its record',
      { size: { size: '1/2', role: 'reference' } },
      byDecimals,
      '500000..500000..500000 none',
    ],
  ];
  test.each(rows)('%s', (_, length, rule, expected) => {
    const part = lengthOf(length, { lengths: rule });
    expect(part.errors).toEqual([]);
    expect(band(part.lengths[0]?.size)).toBe(expected);
  });

  test('where nothing applies the size is exact, and said to be', () => {
    const part = lengthOf({ size: '1/2' }, { diameters: { rule: 'fixed', tol: '±.002' } });
    expect(part.warnings.map(({ code, where }) => `${code} at ${where}`)).toEqual([
      'unknown-material at material',
      'no-limits at lengths[0].size',
    ]);
    expect(part.lengths[0]?.size.limitsFrom).toBe('none');
  });

  test('a reference is marked, and never warned of', () => {
    const part = lengthOf({ size: '1/2', role: 'reference' }, { diameters: { rule: 'fixed', tol: '±.002' } });
    expect(part.lengths[0]?.size.reference).toBe(true);
    expect(part.warnings.map(({ code }) => code)).toEqual(['unknown-material']);
  });

  test('a tolerance said twice: the one in the size holds', () => {
    const part = lengthOf({ size: '.500 ±.002', tol: '±.1' });
    expect(band(part.lengths[0]?.size)).toBe('498000..500000..502000 written');
    expect(part.warnings.map(({ code }) => code)).toContain('tolerance-twice');
  });

  test('a rule wider than the size leaves nothing below zero', () => {
    const edges = [{ face: 'A', side: 'right', form: 'chamfer', size: '1/64' }];
    const part = resolvePart(pin(['1/2'], { edges, general: { lengths: { rule: 'fixed', tol: '1/32' } } }));
    const edge = part.edges[0];
    expect(edge?.form === 'chamfer' && band(edge.size)).toBe('0..15625..46875 general');
  });

  test('how a size was written goes along', () => {
    expect(lengthOf({ size: '12.70 mm' }).lengths[0]?.size).toMatchObject({
      text: '12.70 mm',
      unit: 'mm',
      decimals: 2,
      fraction: false,
    });
    expect(lengthOf({ size: '1 5/8' }).lengths[0]?.size).toMatchObject({
      unit: 'in',
      decimals: null,
      fraction: true,
    });
  });
});

describe('classes of fit', () => {
  // ISO 286-2: h6 at over 6 to 10 mm is 0/-9 µm, k5 over 10 to 18 mm +9/+1 µm. ISO 2768-1, m: ±0.2 mm over 6 to 30 mm.
  test.each([
    [{ size: '10', tol: 'h6' }, undefined, 9.991, 10, 'fit'],
    ['Ø12 k5', undefined, 12.001, 12.009, 'fit'],
    ['18', { rule: 'iso2768', class: 'm' }, 17.8, 18.2, 'general'],
    ['12', { rule: 'fixed', tol: 'h6' }, 11.989, 12, 'general'],
  ] as [SizeText, GeneralRule | undefined, number, number, string][])(
    '%j %j',
    (diameter, rule, min, max, from) => {
      const { part, size } = diameterOf(diameter, rule, 'mm');
      expect(part.errors).toEqual([]);
      expect([toMm(size?.min as Length), toMm(size?.max as Length), size?.limitsFrom]).toEqual([
        min,
        max,
        from,
      ]);
    },
  );

  test('capitals are for holes, on either side of the mistake', () => {
    expect(faults(pin([{ form: 'cylinder', diameter: { size: '12 mm', tol: 'H7' } }]))).toEqual([
      'fit-wrong-side at segments[0].diameter.tol',
    ]);
    const holes = [{ id: 'h', from: 'A', form: 'bore', diameter: '12 mm h6', through: true }];
    expect(faults(pin(['1'], { holes }))).toEqual(['fit-wrong-side at holes[0].diameter']);
    expect(faults(pin([{ form: 'cylinder', diameter: '1/2', mate: { bore: '12 mm g6' } }]))).toEqual([
      'fit-wrong-side at segments[0].mate.bore',
    ]);
  });

  test('a class outside the table is an error, and the size stays for the drawing', () => {
    const { part, size } = diameterOf('900 mm h6');
    expect(part.errors.map(({ where }) => where)).toEqual(['segments[0].diameter']);
    expect(toMm(size?.nominal as Length)).toBe(900);
  });
});

describe('mates', () => {
  const mateOf = (mate: object, unit = 'mm') => {
    const part = resolvePart(pin([{ form: 'cylinder', diameter: '10', mate }], { unit }));
    return { errors: part.errors, mate: part.segments[0]?.mate };
  };
  test('a bearing brings its bore and its corner', () => {
    // ISO 492, normal class: a bore over 2.5 to 10 mm is 0/-8 µm.
    const { mate } = mateOf({ bearing: '6000' });
    expect([toMm(mate?.min as Length), toMm(mate?.max as Length)]).toEqual([9.992, 10]);
    expect(mate?.chamfer).toBeGreaterThan(0);
  });
  test('a bore is read with its limits or its class', () => {
    // ISO 286-2: H7 over 10 to 18 mm is +18/0 µm.
    const byClass = mateOf({ bore: '12 H7' }).mate;
    expect([toMm(byClass?.min as Length), toMm(byClass?.max as Length)]).toEqual([12, 12.018]);
    const byLimits = mateOf({ bore: '.3750/.3755' }, 'in').mate;
    expect([byLimits?.min, byLimits?.max]).toEqual([fromInches(0.375), fromInches(0.3755)]);
  });
  test('one that cannot be read is named, and so is one said twice', () => {
    expect(mateOf({ bearing: 'ball' }).errors.map(({ where }) => where)).toEqual([
      'segments[0].mate.bearing',
    ]);
    expect(mateOf({ bore: 'ball' }).errors.map(({ where }) => where)).toEqual(['segments[0].mate.bore']);
    expect(mateOf({ bearing: '6000', bore: '10' }).errors.map(({ code }) => code)).toEqual(['mate-twice']);
  });
});

describe('tapers', () => {
  const taperOf = (taper: object, unit = 'in') => {
    const part = resolvePart(
      pin([{ form: 'taper', ...taper }], { unit, general: { diameters: { rule: 'fixed', tol: '±.001' } } }),
    );
    const [segment] = part.segments;
    if (segment?.form !== 'taper') throw new Error('no taper');
    return { faults: part.errors.map(({ code, where }) => `${code} at ${where}`), ...segment };
  };

  test.each([
    [{ ratio: '1:10' }, { num: 1, den: 10 }, 0.05],
    [{ ratio: ' 7 : 24 ' }, { num: 7, den: 24 }, 7 / 48],
    [{ ratio: '1:19.212' }, { num: 250, den: 4803 }, 1 / 38.424],
    [{ ratio: '2,5:50' }, { num: 1, den: 20 }, 0.025],
    [{ per_foot: '1/2' }, { num: 1, den: 24 }, 1 / 48],
    [{ per_foot: '.6' }, { num: 1, den: 20 }, 0.025],
    [{ per_foot: '.60235' }, { num: 12047, den: 240000 }, 0.60235 / 24],
    [{ half_angle: '45°' }, null, 1],
    [{ included_angle: '60°' }, null, 1 / Math.sqrt(3)],
  ])('%j', (angle, ratio, tan) => {
    for (const unit of ['in', 'mm']) {
      const taper = taperOf({ start: '1/2', ...angle }, unit);
      expect(taper.faults).toEqual([]);
      expect(taper.angle?.ratio).toEqual(ratio);
      expect(taper.angle?.tan).toBeCloseTo(tan, 14);
    }
  });

  test.each([
    ['both diameters', { start: '1/2', end: '3/8' }, [], 'start'],
    ['both and an angle', { start: '3/8', end: '1/2', ratio: '1:10' }, [], 'end'],
    ['the left diameter and an angle: it is the large one', { start: '1/2', ratio: '1:10' }, [], 'start'],
    ['the right diameter and an angle: it is the large one', { end: '1/2', ratio: '1:10' }, [], 'end'],
    ['the left one, said to be the small one', { start: '1/2', ratio: '1:10', large: 'end' }, [], 'end'],
    ['an end left empty, which follows', { start: '1/2', end: '', ratio: '1:10' }, [], 'start'],
    ['the other end left empty, which follows', { start: ' ', end: '1/2', per_foot: '3/4' }, [], 'end'],
    [
      'an end left empty that nothing tells',
      { start: '1/2', end: '' },
      ['size-unreadable at segments[0].end'],
      'start',
    ],
    ['one diameter', { start: '1/2' }, ['taper-insufficient at segments[0]'], 'start'],
    ['only an angle', { ratio: '1:10' }, ['taper-insufficient at segments[0]'], null],
    ['nothing', {}, ['taper-insufficient at segments[0]'], null],
    [
      'a bracketed diameter binds nothing',
      { start: '1/2', end: { size: '3/8', role: 'reference' } },
      ['taper-insufficient at segments[0]'],
      'start',
    ],
    [
      'two angles',
      { start: '1/2', ratio: '1:10', half_angle: '3°' },
      ['taper-angle-twice at segments[0].ratio'],
      'start',
    ],
    [
      'the wrong end said to be large',
      { start: '1/2', end: '3/8', large: 'end' },
      ['taper-large-contradicts at segments[0].large'],
      'start',
    ],
    [
      'equal diameters with an angle',
      { start: '1/2', end: '.5', ratio: '1:10' },
      ['taper-without-change at segments[0]'],
      null,
    ],
    [
      'a ratio that is none',
      { start: '1/2', ratio: '10' },
      ['taper-unreadable at segments[0].ratio'],
      'start',
    ],
    [
      'a ratio to nothing',
      { start: '1/2', ratio: '1:0' },
      ['taper-unreadable at segments[0].ratio'],
      'start',
    ],
    [
      'a taper of nothing per foot',
      { start: '1/2', per_foot: '0' },
      ['taper-unreadable at segments[0].per_foot'],
      'start',
    ],
    [
      'a face instead of a taper',
      { start: '1/2', half_angle: '90°' },
      ['taper-unreadable at segments[0].half_angle'],
      'start',
    ],
    [
      'a diameter nobody can read',
      { start: 'thick', end: '1/2' },
      ['size-unreadable at segments[0].start'],
      'end',
    ],
  ])('%s', (_, given, expected, large) => {
    const taper = taperOf(given);
    expect(taper.faults).toEqual(expected);
    expect(taper.large).toBe(large);
  });
});

describe('lengths and requirements run to the right', () => {
  const part = pin(['1/2', '3/4'], {
    general: { lengths: { rule: 'fixed', tol: '±.001' } },
    points: [{ id: 'P', sketched: 0.5 }],
    lengths: [
      { id: 'L1', from: 'C', to: 'A', size: '2' },
      { id: 'L2', from: 'P', to: 'A', size: '1/2' },
      { id: 'L3', from: 'A', to: 'P', size: '1/2' },
    ],
    requirements: [
      { id: 'R1', from: 'C', to: 'B', min: '.9', max: '1.1', why: 'fits' },
      { id: 'R2', from: 'P', to: 'B', min: '-.1', max: '0' },
    ],
  });
  const resolved = resolvePart(part);

  test('faces are turned to their order; with a point the first named is the left one', () => {
    expect(resolved.errors).toEqual([]);
    expect(resolved.lengths.map(({ id, from, to }) => id + from + to)).toEqual(['L1AC', 'L2PA', 'L3AP']);
  });

  test('a requirement keeps its distance, which may be nothing or negative', () => {
    expect(
      resolved.requirements.map(({ from, to, min, max, why }) => [from + to, inches(min), inches(max), why]),
    ).toEqual([
      ['BC', 900_000, 1_100_000, 'fits'],
      ['PB', -100_000, 0, ''],
    ]);
  });
});

describe('holes, edges, crossings', () => {
  const general = { lengths: { rule: 'fixed', tol: '±.001' }, diameters: { rule: 'fixed', tol: '±.001' } };
  const resolved = (rest: object) => resolvePart(pin(['1/2', '3/4'], { general, points: [{ id: 'P', sketched: 1 }, { id: 'Q', sketched: 2 }], ...rest })); // prettier-ignore

  test('a tapped hole is drilled three pitches deeper where the plan does not say', () => {
    const [hole] = resolved({
      unit: 'mm',
      holes: [{ id: 'h', from: 'C', form: 'tap', thread: 'M6', depth: '12' }],
    }).holes;
    if (hole?.form !== 'tap') throw new Error('no tap');
    expect([hole.from, toMm(hole.depth.nominal), toMm(hole.drillDepth.nominal)]).toEqual(['last', 12, 15]);
    expect(hole.drillDepth.text).toBe('15');
  });

  test('a centre brings pilot and mouth from the table', () => {
    const [hole] = resolved({ holes: [{ id: 'h', from: 'A', form: 'centre', size: '#2' }] }).holes;
    if (hole?.form !== 'centre') throw new Error('no centre');
    // ANSI B94.11M plain type, No. 2: pilot 5/64, from memory.
    expect(inches(hole.pilot)).toBe(78_125);
    expect(hole.mouth).toBeGreaterThan(hole.pilot);
  });

  test('depths, reaches and angles come through', () => {
    const part = resolved({
      holes: [{ id: 'h', from: 'A', form: 'drill', diameter: '1/8', through: true }],
      edges: [{ face: 'B', side: 'right', form: 'chamfer', size: '1/64' }, { id: 'e', face: 'B', side: 'left', form: 'undercut', width: '1/16', depth: '.02' }], // prettier-ignore
      crossings: [
        { id: 'x1', at: 'P', form: 'hole', diameter: '1/16', reaches: 'axis' },
        { id: 'x2', at: 'P', form: 'hole', diameter: '1/16', reaches: '1/8', angle: '90°' },
        { id: 'x3', at: 'P', form: 'flat', to: 'Q', across: '3/8' },
        { id: 'x4', at: 'P', form: 'keyseat', to: 'Q', width: '1/8', depth: '.07', angle: '180°' },
      ],
    });
    expect(part.errors).toEqual([]);
    expect(part.holes[0]).toMatchObject({ from: 'first', depth: null });
    expect(part.edges.map(({ id }) => id)).toEqual(['edge B right', 'e']);
    expect(part.edges[0]).toMatchObject({ angleDeg: 45 });
    expect(part.crossings.map(({ angleDeg }) => angleDeg)).toEqual([0, 90, 0, 180]);
    expect(part.crossings[0]).toMatchObject({ reaches: 'axis' });
    expect(part.crossings[1]).toMatchObject({ reaches: { text: '1/8' } });
    expect(part.crossings[2]).toMatchObject({ depth: null });
  });

  test('an edge without an id never takes one that is used', () => {
    const edges = [{ face: 'B', side: 'right', form: 'fillet', radius: '1/64' }];
    const part = resolved({
      edges,
      requirements: [{ id: 'edge B right', from: 'A', to: 'B', min: '1', max: '1' }],
    });
    expect(part.edges[0]?.id).toBe("edge B right'");
  });

  test.each([
    [
      { holes: [{ id: 'h', from: 'B', form: 'centre', size: '#2' }] },
      'hole-not-from-an-end at holes[0].from',
    ],
    [{ holes: [{ id: 'h', from: 'Z', form: 'centre', size: '#2' }] }, 'unknown-face at holes[0].from'],
    [
      { holes: [{ id: 'h', from: 'A', form: 'drill', diameter: '1/8' }] },
      'hole-without-depth at holes[0].depth',
    ],
    [
      { holes: [{ id: 'h', from: 'A', form: 'tap', thread: 'M6', depth: '1/2', drill_depth: '3/8' }] },
      'drill-shallower-than-thread at holes[0].drill_depth',
    ],
    [
      { edges: [{ face: 'A', side: 'left', form: 'fillet', radius: '1/64' }] },
      'edge-off-the-part at edges[0].side',
    ],
    [
      { edges: [{ face: 'C', side: 'right', form: 'fillet', radius: '1/64' }] },
      'edge-off-the-part at edges[0].side',
    ],
    [
      { edges: [{ face: 'Z', side: 'right', form: 'fillet', radius: '1/64' }] },
      'unknown-face at edges[0].face',
    ],
    [
      { edges: [{ face: 'B', side: 'right', form: 'chamfer', size: '1/64', angle: '90°' }] },
      'angle-out-of-range at edges[0].angle',
    ],
    [
      { crossings: [{ id: 'x', at: 'Z', form: 'hole', diameter: '1/16', reaches: 'axis' }] },
      'unknown-station at crossings[0].at',
    ],
    [
      { crossings: [{ id: 'x', at: 'P', to: 'P', form: 'keyseat', width: '1/16', depth: '.03' }] },
      'length-to-itself at crossings[0].to',
    ],
    [
      { crossings: [{ id: 'x', at: 'P', to: 'Q', form: 'flat' }] },
      'flat-without-size at crossings[0].across',
    ],
    [
      { crossings: [{ id: 'x', at: 'P', form: 'hole', diameter: '1/16', reaches: 'far' }] },
      'size-unreadable at crossings[0].reaches',
    ],
    [{ lengths: [{ id: 'L', from: 'A', to: 'A', size: '1' }] }, 'length-to-itself at lengths[0].to'],
    [{ lengths: [{ id: 'L', from: 'Y', to: 'A', size: '1' }] }, 'unknown-station at lengths[0].from'],
    [{ lengths: [{ id: 'L', from: 'B', to: 'A', size: '0' }] }, 'size-zero at lengths[0].size'],
    [
      { lengths: [{ id: 'L', from: 'B', to: 'A', size: '.001', tol: '±.002' }] },
      'limits-below-zero at lengths[0].tol',
    ],
    [
      { lengths: [{ id: 'L', from: 'B', to: 'A', size: '1', tol: 'loose' }] },
      'tolerance-unreadable at lengths[0].tol',
    ],
    [
      { requirements: [{ id: 'R', from: 'A', to: 'B', min: '2', max: '1' }] },
      'limits-crossed at requirements[0].min',
    ],
    [
      { requirements: [{ id: 'R', from: 'A', to: 'B', min: '1 ±.1', max: '2' }] },
      'bound-with-tolerance at requirements[0].min',
    ],
    [
      { requirements: [{ id: 'R', from: 'A', to: 'B', min: '', max: '2' }] },
      'size-unreadable at requirements[0].min',
    ],
    [{ matched: [['s1', 'A']] }, 'unknown-segment at matched[0][1]'],
    [
      { general: { ...general, lengths: { rule: 'decimals', '2': 'x' } } },
      'tolerance-unreadable at general.lengths.2',
    ],
    [
      { general: { ...general, lengths: { rule: 'decimals', '2': 'h6' } } },
      'rule-wants-figures at general.lengths.2',
    ],
    [
      { general: { ...general, diameters: { rule: 'iso2768', class: 'z' } } },
      'unknown-general-class at general.diameters.class',
    ],
    [
      { general: { ...general, diameters: { rule: 'fixed', tol: '' } } },
      'tolerance-unreadable at general.diameters.tol',
    ],
  ])('%j: %s', (rest, expected) => {
    expect(resolved(rest).errors.map(({ code, where }) => `${code} at ${where}`)).toEqual([expected]);
  });

  test('one fault leaves the rest standing', () => {
    const part = resolved({
      lengths: [{ id: 'L1', from: 'A', to: 'B', size: '1/0' }, { id: 'L2', from: 'B', to: 'C', size: '1' }], // prettier-ignore
      holes: [{ id: 'h1', from: 'B', form: 'centre', size: '#2' }, { id: 'h2', from: 'C', form: 'centre', size: '#2' }], // prettier-ignore
    });
    expect([part.lengths.map(({ id }) => id), part.holes.map(({ id }) => id)]).toEqual([['L2'], ['h2']]);
    expect(part.lengths[0]?.index).toBe(1);
  });
});

test('matched segments are named once in their group, and a group of one says nothing', () => {
  const matched = [['s1', 's2', 's1'], ['s1'], ['s2', 's2']];
  const part = resolvePart(pin(['1', '1'], { matched }));
  expect([part.matched, part.errors]).toEqual([[['s1', 's2']], []]);
});

test('each segment lies between its two faces', () => {
  const { segments } = resolvePart(pin(['1', '1', '1']));
  expect(segments.map(({ left, id, right }) => left + id + right)).toEqual(['As1B', 'Bs2C', 'Cs3D']);
});

test('sketched places are in the unit of the part', () => {
  const places = (unit: string) => [...resolvePart(pin(['1'], { unit })).sketched];
  expect(places('mm')).toEqual([
    ['A', 0],
    ['B', 1_000_000_000],
  ]);
  expect(places('in')).toEqual([
    ['A', 0],
    ['B', 25_400_000_000],
  ]);
});

test('a material of the table gives no warning, any other one does', () => {
  const warned = (material: string) =>
    resolvePart(pin(['1'], { material })).warnings.some(({ code }) => code === 'unknown-material');
  expect(['mild-steel', 'unobtainium', '__proto__', ''].map(warned)).toEqual([false, true, true, true]);
});
