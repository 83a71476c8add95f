import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { solveChains } from '../../../src/core/chains/solve.ts';
import { setLengthLane } from '../../../src/core/part/commands.ts';
import { applyAll, type Transaction } from '../../../src/core/part/edit.ts';
import { mirrorPart } from '../../../src/core/part/mirror.ts';
import { pastePiece, pieceOf, readPiece } from '../../../src/core/part/piece.ts';
import { turnInto } from '../../../src/core/part/rebuild.ts';
import { addGroove, joinRight, mirror, repeat, swapRight } from '../../../src/core/part/rearrange.ts';
import { resolvePart } from '../../../src/core/part/resolve.ts';
import type { Part } from '../../../src/core/part/types.ts';
import { checkTransaction, textOf } from './check-edit.ts';
import { anyPart, pin } from './samples.ts';

// Many random cases, on machines that may be busy.
vi.setConfig({ testTimeout: 60_000 });

/** Places of all stations, mm, as the chains give them. */
const placesOf = (part: Part) => {
  const { stations } = solveChains(resolvePart(part)).report;
  return Object.fromEntries(Object.entries(stations).map(([id, { z_mm }]) => [id, z_mm]));
};
/** Letters of faces with what stands between them, as one line: "A 1/2 B 3/8 C". */
const lineOf = (part: Part) =>
  part.faces
    .flatMap(({ id }, k) => {
      const s = part.segments[k];
      return [id, s && (s.form === 'cylinder' ? s.diameter || '?' : s.form === 'thread' ? s.thread : s.form)];
    })
    .filter(Boolean)
    .join(' ');

const three = pin(['1/2', '3/8', '1/4'], {
  unit: 'mm',
  lengths: [
    { id: 'L1', from: 'A', to: 'B', size: '10' },
    { id: 'L2', from: 'B', to: 'C', size: '20', tol: '±0.1' },
    { id: 'L3', from: 'C', to: 'D', size: '30' },
  ],
});

describe('any of it on any part', () => {
  const steps: readonly ((part: Part, id: string, count: number) => Transaction)[] = [
    mirror,
    joinRight,
    swapRight,
    (part, id, count) => repeat(part, [id], count, ''),
    (part, id, count) => repeat(part, [id], count, '1/2'),
    (part, id) => {
      const piece = pieceOf(part, [id]);
      return piece ? pastePiece(part, piece, id) : { edits: [], did: '' };
    },
    (part, id) => {
      const k = part.segments.findIndex((s) => s.id === id);
      const [a, b] = [part.faces[k]?.sketched ?? 0, part.faces[k + 1]?.sketched ?? 0];
      return addGroove(part, id, a + (b - a) / 3, b - (b - a) / 3, 1);
    },
    (part) => setLengthLane(part, part.lengths[0]?.id ?? '', 2),
  ];
  test('is one step that keeps every law of edits, and is undone exactly', () => {
    fc.assert(
      fc.property(
        anyPart,
        fc.nat(),
        fc.integer({ min: 2, max: 4 }),
        fc.constantFrom(...steps),
        (part, n, count, step) => {
          const id = part.segments[n % Math.max(part.segments.length, 1)]?.id ?? '';
          checkTransaction(part, step(part, id, count));
        },
      ),
    );
  });

  test('one part turned into another says what the other says', () => {
    fc.assert(
      fc.property(anyPart, anyPart, (part, other) => {
        const { faces, segments, points, lengths, edges, holes, crossings, requirements, matched, scan } =
          other;
        const lists = { faces, segments, points, lengths, edges, holes, crossings, requirements, matched };
        const target = { ...part, ...lists, ...(scan === undefined ? {} : { scan }) };
        if (!('scan' in part) && 'scan' in target) return;
        expect(textOf(applyAll(part, turnInto(part, target, 'turned')))).toBe(textOf(target));
      }),
    );
  });
});

test('turned round it is the mirrored part', () => {
  fc.assert(
    fc.property(anyPart, (part) => {
      if (part.segments.length === 0) return;
      expect(textOf(applyAll(part, mirror(part)))).toBe(textOf(mirrorPart(part)));
    }),
  );
});

test('joined, the face between goes with its lengths, and a blank one takes the size of its neighbour', () => {
  const joined = applyAll(three, joinRight(three, 's1'));
  expect(lineOf(joined)).toBe('A 1/2 C 1/4 D');
  expect(joined.lengths.map(({ id }) => id)).toEqual(['L3']);
  const blank = pin(['', { form: 'thread', thread: 'M6' }, '1/4']);
  expect(applyAll(blank, joinRight(blank, 's1')).segments[0]).toEqual({
    id: 's1',
    form: 'thread',
    thread: 'M6',
  });
  expect(joinRight(three, 's3').edits).toEqual([]);
});

test('what was split is joined again as it was, but for the name of what is new', () => {
  const split = applyAll(three, addGroove(three, 's2', 1.3, 1.6, 0.2));
  expect(lineOf(split)).toBe('A 1/2 B 3/8 E ? F 3/8 C 1/4 D');
  const back = ['s2', 's2'].reduce((part, id) => applyAll(part, joinRight(part, id)), split);
  expect(textOf(back)).toBe(textOf(three));
});

test('swapped, each takes its own length, edges and points along; places by hand: 10, 20, 30 become 20, 10, 30', () => {
  const part = {
    ...three,
    points: [{ id: 'P', sketched: 0.5 }],
    lengths: [...three.lengths, { id: 'L4', from: 'A', to: 'P', size: '4' }],
    edges: [{ id: 'e', face: 'B', side: 'right' as const, form: 'chamfer' as const, size: '1' }],
  };
  const swapped = applyAll(part, swapRight(part, 's1'));
  expect(lineOf(swapped)).toBe('A 3/8 B 1/2 C 1/4 D');
  expect(placesOf(swapped)).toEqual({ A: 0, B: 20, C: 30, D: 60, P: 24 });
  expect(swapped.edges[0]).toMatchObject({ face: 'A', side: 'right' });
  const back = applyAll(swapped, swapRight(swapped, 's2'));
  expect(placesOf(back)).toEqual(placesOf(part));
});

describe('repeated', () => {
  const comb = pin(['20', '12'], {
    unit: 'mm',
    lengths: [
      { id: 'L1', from: 'A', to: 'B', size: '6' },
      { id: 'L2', from: 'B', to: 'C', size: '40' },
    ],
  });
  test('a land of 6 at a pitch of 10, three times: places by hand', () => {
    const made = applyAll(comb, repeat(comb, ['s1'], 3, '10'));
    expect(lineOf(made)).toBe('A 20 B 12 D 20 E 12 F 20 G 12 C');
    // 0–6, 10–16, 20–26, and the neighbour's 40 hangs on the last land.
    expect(placesOf(made)).toEqual({ A: 0, B: 6, D: 10, E: 16, F: 20, G: 26, C: 66 });
  });
  test('a land with its gap, without a pitch, follows by its own lengths', () => {
    const both = pin(['20', '12', '8'], {
      unit: 'mm',
      lengths: [
        { id: 'L1', from: 'A', to: 'B', size: '6' },
        { id: 'L2', from: 'B', to: 'C', size: '4' },
        { id: 'L3', from: 'C', to: 'D', size: '30' },
      ],
    });
    const made = applyAll(both, repeat(both, ['s1', 's2'], 3, ''));
    expect(lineOf(made)).toBe('A 20 B 12 C 20 E 12 F 20 G 12 H 8 D');
    expect(placesOf(made)).toEqual({ A: 0, B: 6, C: 10, E: 16, F: 20, G: 26, H: 30, D: 60 });
  });
});

describe('copied and pasted', () => {
  test('through text, into a part in the other unit, every size means what it meant', () => {
    const inches = pin(['1/2 ±.002', { form: 'cylinder', diameter: { size: '.375', tol: '+.000/-.001' } }], {
      lengths: [{ id: 'L1', from: 'B', to: 'C', size: '1 1/4', tol: '±.005' }],
      edges: [{ id: 'e', face: 'C', side: 'left', form: 'chamfer', size: '1/64', angle: '45°' }],
    });
    const read = readPiece(JSON.stringify(pieceOf(inches, ['s1', 's2'])));
    if (!read) throw new Error('the piece was not read');
    const made = applyAll(three, pastePiece(three, read, 's1'));
    const resolved = resolvePart(made);
    expect(resolved.errors).toEqual([]);
    // By hand: 1/2 in is 12.7 mm ±.0508, .375 in is 9.525 mm +0/−.0254, 1 1/4 in is 31.75 mm ±.127; pm are 1e-9 mm.
    const diameters = resolved.segments
      .slice(1, 3)
      .map((s) => (s.form === 'cylinder' ? s.diameter : null))
      .map((d) => d && { nominal: d.nominal, min: d.min, max: d.max });
    expect(diameters).toEqual([
      { nominal: 12.7e9, min: 12.6492e9, max: 12.7508e9 },
      { nominal: 9.525e9, min: 9.4996e9, max: 9.525e9 },
    ]);
    expect(resolved.lengths.find(({ to, from }) => from === 'E' && to === 'F')).toMatchObject({
      size: { min: 31.623e9, max: 31.877e9 },
    });
    expect(made.edges).toMatchObject([{ face: 'F', side: 'left', size: '1/64 in' }]);
    // What stood right of B hangs on the pasted end.
    expect(made.lengths.find(({ id }) => id === 'L2')).toMatchObject({ from: 'F', to: 'C' });
  });
  test('text that is no piece is none', () => {
    for (const text of [
      '',
      '{',
      '{}',
      '[]',
      '{"shaftwright_piece":2}',
      '{"shaftwright_piece":1,"faces":[1]}',
    ])
      expect(readPiece(text)).toBeNull();
  });
});
