import { describe, expect, test } from 'vitest';
import { addLand } from '../../src/board/edits.ts';
import { traced } from '../../src/board/traced.ts';
import { drawingPlaces } from '../../src/core/outline/drawing-places.ts';
import { moveFace, setLengthSize } from '../../src/core/part/commands.ts';
import { applyAll, invertAll } from '../../src/core/part/edit.ts';
import type { Part } from '../../src/core/part/types.ts';
import type { Scan } from '../../src/core/tracing/scan.ts';
import { reportOf } from './bench.svelte.ts';

/** 10 px to the mm, the first face at pixel 50. */
const scan: Scan = {
  ...{ image: 'kept:1', width: 900, height: 300, scale: 10, angle: 0, origin: [50, 150] },
  known: { from: [50, 150], to: [850, 150], size: '80', within: 2 },
};
const two: Part = {
  shaftwright: 1,
  title: 'pin',
  unit: 'mm',
  faces: [
    { id: 'A', sketched: 0 },
    { id: 'B', sketched: 20 },
  ],
  segments: [{ id: 's1', form: 'cylinder', diameter: '10' }],
  lengths: [{ id: 'L1', from: 'A', to: 'B', size: '30' }],
  ...{ points: [], edges: [], holes: [], crossings: [], requirements: [], matched: [] },
  scan,
};
const marksOf = (part: Part) =>
  ((part.scan as Scan).traced ?? []).map(({ station, at, within }) => [station, ...at, within]);

/** A land put where the picture shows it, at so many mm of the drawing. */
function landAt(part: Part, mm: number, zoom = 20) {
  const { chains } = reportOf(part);
  const change = addLand(part, drawingPlaces(part, chains), mm, 4);
  return traced(part, chains, change, zoom);
}

describe('what a pointer does over a picture', () => {
  test('a land is marked where it was put, though a size has moved the faces before it off the sketch', () => {
    const next = applyAll(two, landAt(two, 60));
    expect(next.faces.at(-1)?.id).toBe('C');
    // 60 mm from the first face at 10 px to the mm; the sketch itself has it 10 mm farther left, as B stands at 30 for 20.
    expect(marksOf(next)).toEqual([['C', 650, 150, 2]]);
    expect(next.faces.at(-1)?.sketched).toBe(50);
  });

  test('its outline is marked with it, as tall as was pointed to', () => {
    // 4 mm above the axis at 10 px to the mm, with y down from 150.
    const { traced_tall: tall } = applyAll(two, landAt(two, 60)).scan as Scan;
    expect(tall).toEqual([{ segment: 's2', at: [650, 110], sketched: 8, within: 2 }]);
  });

  test('it is one step, taken back as one', () => {
    const change = landAt(two, 60);
    expect(applyAll(applyAll(two, change), invertAll(change))).toEqual(two);
  });

  test('seen from afar it is marked as less certain', () => {
    expect(marksOf(applyAll(two, landAt(two, 60, 2)))).toEqual([['C', 650, 150, 10]]);
  });

  test.each<[string, unknown]>([
    ['hidden', { ...scan, hidden: true }],
    ['not to scale yet', { ...scan, known: undefined }],
    ['spoilt', { ...scan, scale: 0 }],
    ['not there', null],
  ])('a picture that is %s gets no mark', (_name, one) => {
    const part = { ...two, scan: one };
    const { chains } = reportOf(part);
    const change = moveFace(part, 'B', 21);
    expect(traced(part, chains, change, 20)).toBe(change);
  });

  test('a size that is typed marks nothing', () => {
    const change = setLengthSize(two, 'L1', '31');
    expect(traced(two, reportOf(two).chains, change, 20)).toBe(change);
  });

  test('where several faces move at once only one was pointed at, so none is marked', () => {
    const [a, b] = [moveFace(two, 'A', -1), moveFace(two, 'B', 22)];
    const change = { did: 'both', edits: [...a.edits, ...b.edits] };
    expect(traced(two, reportOf(two).chains, change, 20)).toBe(change);
  });
});
