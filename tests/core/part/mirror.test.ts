import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { mirrorPart } from '../../../src/core/part/mirror.ts';
import { resolvePart } from '../../../src/core/part/resolve.ts';
import type { Part } from '../../../src/core/part/types.ts';
import { textOf } from './check-edit.ts';
import { anyPart, pin } from './samples.ts';

// Many random cases, on machines that may be busy.
vi.setConfig({ testTimeout: 60_000 });

/** Angles as degrees, so that `0°` and `360°`, `1°30'` and `1.5°` are one. */
const resolvedText = (part: Part) => {
  const { errors, warnings, sketched, crossings, ...rest } = resolvePart(part);
  const turned = crossings.map((one) => ({ ...one, angleDeg: (Math.round(one.angleDeg * 1e6) / 1e6) % 360 }));
  const placed = [...sketched].map(([id, place]) => [id, Math.round(place / 1000)] as const);
  return {
    ...rest,
    crossings: turned,
    placed: new Map(placed),
    errors: errors.length,
    warnings: warnings.length,
  };
};

describe('a part drawn the other way round', () => {
  const part = pin(['1/2', { form: 'taper', start: '1/2', end: '3/8', large: 'start' }, '1/4'], {
    points: [{ id: 'P', sketched: 0.5 }, { id: 'Q', sketched: 0.75 }], // prettier-ignore
    lengths: [
      { id: 'L1', from: 'A', to: 'B', size: '1' },
      { id: 'L2', from: 'A', to: 'P', size: '1/2' },
      { id: 'L3', from: 'P', to: 'Q', size: '1/4' },
    ],
    edges: [{ id: 'e', face: 'B', side: 'left', form: 'chamfer', size: '1/64' }],
    holes: [{ id: 'h', from: 'A', form: 'drill', diameter: '1/8', through: true }],
    crossings: [
      { id: 'x1', at: 'P', to: 'Q', form: 'keyseat', width: '1/8', depth: '.07', angle: '90°' },
      { id: 'x2', at: 'P', form: 'hole', diameter: '1/8', reaches: 'axis', angle: '0°' },
    ],
    requirements: [{ id: 'R', from: 'P', to: 'C', min: '1', max: '2' }],
  });
  const turned = mirrorPart(part);

  test('faces and segments run backwards, and the taper with them', () => {
    expect(turned.faces).toEqual([
      { id: 'D', sketched: 0 },
      { id: 'C', sketched: 1 },
      { id: 'B', sketched: 2 },
      { id: 'A', sketched: 3 },
    ]);
    expect(turned.segments.map(({ id }) => id)).toEqual(['s3', 's2', 's1']);
    expect(turned.segments[1]).toEqual({ id: 's2', form: 'taper', start: '3/8', end: '1/2', large: 'end' });
  });

  test('left is right, and the clock runs the other way', () => {
    expect(turned.edges[0]).toMatchObject({ face: 'B', side: 'right' });
    expect(turned.lengths.map(({ from, to }) => from + to)).toEqual(['AB', 'PA', 'QP']);
    expect(turned.crossings[0]).toMatchObject({ at: 'Q', to: 'P', angle: '270°' });
    expect(turned.crossings[1]).toMatchObject({ at: 'P', angle: '0°' });
    expect(turned.requirements[0]).toMatchObject({ from: 'C', to: 'P' });
    expect(resolvePart(turned).holes[0]?.from).toBe('last');
    expect(resolvePart(turned).errors).toEqual([]);
  });

  test('turned twice it says what it said', () => {
    expect(textOf(mirrorPart(turned))).toBe(textOf({ ...part, scan: null }));
    fc.assert(
      fc.property(anyPart, (one) => {
        expect(resolvedText(mirrorPart(mirrorPart(one)))).toEqual(resolvedText(one));
      }),
    );
  });

  test('limits are the same from both sides, and what cannot be read stays so', () => {
    const bands = (one: Part) => {
      const { lengths, segments, errors } = resolvePart(one);
      const sizes = segments.map((segment) =>
        segment.form === 'cylinder'
          ? [segment.diameter]
          : segment.form === 'taper'
            ? [segment.start, segment.end].map((end) => JSON.stringify(end)).sort()
            : [],
      );
      return [
        lengths.map(({ id, size }) => [id, size.min, size.max]),
        new Map(segments.map(({ id }, i) => [id, sizes[i]])),
        errors.map(({ code }) => code).sort(),
      ];
    };
    fc.assert(
      fc.property(anyPart, (one) => {
        expect(bands(mirrorPart(one))).toEqual(bands(one));
      }),
    );
  });
});
