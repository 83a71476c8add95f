import { expect, test } from 'vitest';
import { addedBy } from '../../src/board/choice.ts';
import { addLand, drop, moveLoose, setSize } from '../../src/board/edits.ts';
import { missingSizes, refusal, textOf } from '../../src/board/size-target.ts';
import { walk } from '../../src/board/walk.ts';
import { holdersOf } from '../../src/board/holders.ts';
import { drawingPlaces } from '../../src/core/outline/drawing-places.ts';
import { applyAll, invertAll } from '../../src/core/part/edit.ts';
import { mirror } from '../../src/core/part/rearrange.ts';
import { readPart } from '../../src/core/part/read-part.ts';
import type { Part } from '../../src/core/part/types.ts';
import blower from '../../static/examples/blower-shaft.json';
import idler from '../../static/examples/idler-axle-open.json';
import { reportOf } from './bench.svelte.ts';

function read(json: unknown): Part {
  const outcome = readPart(JSON.stringify(json), 'test.json');
  if (!outcome.ok) throw new Error(outcome.problem.say);
  return outcome.value;
}
const [axle, shaft] = [read(idler), read(blower)];
const placesOf = (part: Part) => drawingPlaces(part, reportOf(part).chains);

test('turning the part round puts nothing new into it, though edges are called after other faces', () => {
  expect(shaft.edges.every(({ id }) => id === undefined)).toBe(true);
  expect(addedBy(shaft, applyAll(shaft, mirror(shaft)))).toBeNull();
});

test('every change is taken back exactly', () => {
  const places = placesOf(axle);
  const changes = [
    moveLoose(axle, places, 'D', 3),
    addLand(axle, places, 40, 5),
    addLand(axle, places, 100, 5),
    drop(axle, { kind: 'length', id: 'L1' }),
    drop(axle, { kind: 'segment', id: 's2' }),
    setSize(axle, { kind: 'length', id: 'L2' }, '4 ±.02'),
    setSize(axle, { kind: 'segment', id: 's4', end: 'start' }, 'M10'),
    setSize(axle, { kind: 'new-length', from: 'D', to: 'C' }, '36'),
  ];
  for (const change of changes) {
    const now = applyAll(axle, change);
    expect(now).not.toEqual(axle);
    expect(applyAll(now, invertAll(change))).toEqual(axle);
  }
});

test('a tolerance typed with a length takes the place of the one beside it, a bare size keeps it', () => {
  const typed = (text: string) =>
    applyAll(axle, setSize(axle, { kind: 'length', id: 'L2' }, text)).lengths.find((l) => l.id === 'L2');
  expect(typed('5')).toEqual({ id: 'L2', from: 'B', to: 'C', size: '5', tol: '±0.05' });
  expect(typed('5 ±0.1')).toEqual({ id: 'L2', from: 'B', to: 'C', size: '5 ±0.1' });
});

test('what is placed does not move, and a face is deleted only with its segment', () => {
  expect(moveLoose(axle, placesOf(axle), 'B', 5).edits).toEqual([]);
  expect(drop(axle, { kind: 'station', id: 'B' }).edits).toEqual([]);
  expect(drop(shaft, { kind: 'station', id: 'o1' }).edits.length).toBeGreaterThan(0);
});

test('holes, crossings and edges are sized and dropped by their ids, an edge without one too', () => {
  const typed = applyAll(shaft, setSize(shaft, { kind: 'edge', id: 'edge M left', field: 'size' }, '1/16'));
  expect(typed.edges[1]).toMatchObject({ face: 'M', size: '1/16' });
  expect(applyAll(shaft, drop(shaft, { kind: 'edge', id: 'edge A right' })).edges).toEqual([shaft.edges[1]]);
  expect(applyAll(shaft, drop(shaft, { kind: 'hole', id: 'way' })).holes.map((h) => h.id)).toEqual(['tap']);
  expect(textOf(shaft, { kind: 'hole', id: 'tap', field: 'thread' })).toBe('M5x0.8-6H');
  expect(refusal(shaft, { kind: 'hole', id: 'tap', field: 'thread' }, 'M5 by hand')).not.toBeNull();
  expect(refusal(shaft, { kind: 'crossing', id: 'key', field: 'width' }, '5/32')).toBeNull();
});

test('the sizes still missing are asked for: diameters, then lengths, then what ties the groups', () => {
  const part = applyAll(axle, addLand(axle, placesOf(axle), 100, 5));
  const asked = missingSizes(part, reportOf(part));
  expect(asked[0]).toEqual({ kind: 'segment', id: 's5', end: 'start' });
  expect(asked.slice(1).every((t) => t.kind === 'new-length')).toBe(true);
  expect(asked).toHaveLength(3);
});

test('a face is held by the lengths that end on it, the nearest first; a taper holds where no length does', () => {
  expect(holdersOf(axle, placesOf(axle), 'B')).toEqual(['L2', 'L1']);
  expect(holdersOf(shaft, placesOf(shaft), 'J')).toEqual(['L8']);
  const bare = { ...shaft, lengths: shaft.lengths.filter((l) => l.id !== 'L9') };
  expect(holdersOf(bare, placesOf(bare), 'K')).toEqual(['cone']);
});

test('arrows go along the axis face by face, and every thing of the part can be reached', () => {
  const places = placesOf(shaft);
  const seen: string[] = [];
  let at = walk(shaft, places, null, 'right');
  for (let i = 0; i < 40 && at; i++) {
    seen.push(at.id);
    const next = walk(shaft, places, at, 'right');
    if (next?.id === at.id) break;
    at = next;
  }
  expect(seen.slice(0, 5)).toEqual(['A', 'left', 'B', 'collar', 'C']);
  expect(seen.at(-1)).toBe('M');
  expect(new Set(seen).size).toBe(11 + 10 + 3);
  const down = walk(shaft, places, { kind: 'station', id: 'F' }, 'down');
  expect(down).toEqual({ kind: 'length', id: 'L5' });
  expect(walk(shaft, places, down, 'left')).toEqual({ kind: 'station', id: 'B' });
  expect(walk(shaft, places, { kind: 'station', id: 'F' }, 'up')).toEqual({ kind: 'hole', id: 'way' });
});
