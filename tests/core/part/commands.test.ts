import { describe, expect, test } from 'vitest';
import * as commands from '../../../src/core/part/commands.ts';
import * as features from '../../../src/core/part/feature-commands.ts';
import { freshFaceId, freshId } from '../../../src/core/part/fresh-ids.ts';
import { newPart } from '../../../src/core/part/new-part.ts';
import { setGeneralRule } from '../../../src/core/part/part-commands.ts';
import { resolvePart } from '../../../src/core/part/resolve.ts';
import { dropSegment, setForm } from '../../../src/core/part/segment-commands.ts';
import type { Part } from '../../../src/core/part/types.ts';
import { checkTransaction } from './check-edit.ts';
import { faults, pin } from './samples.ts';

/** A part in one line: faces with the segments between them, then its lengths. */
function line({ faces, segments, lengths }: Part): string {
  const row = faces.map(({ id }, i) => (segments[i] ? `${id} ${segments[i].id} ` : id)).join('');
  return [row, ...lengths.map(({ id, from, to }) => `${id}:${from}${to}`)].join(' | ');
}

const shaft = pin(['1/4', '1/2', '3/4', '1'], {
  points: [
    { id: 'P1', sketched: 1.5 },
    { id: 'P2', sketched: 3.5 },
  ],
  lengths: [
    { id: 'L1', from: 'A', to: 'B', size: '1' },
    { id: 'L2', from: 'B', to: 'C', size: { size: '1', tol: '±.001', note: 'kept' } },
    { id: 'L3', from: 'P1', to: 'E', size: '1' },
    { id: 'L4', from: 'D', to: 'C', size: '1' },
  ],
  edges: [
    { id: 'e1', face: 'B', side: 'right', form: 'chamfer', size: '1/64' },
    { id: 'e2', face: 'C', side: 'right', form: 'fillet', radius: '1/32' },
    { id: 'e3', face: 'A', side: 'right', form: 'fillet', radius: '1/32' },
  ],
  holes: [{ id: 'h1', from: 'A', form: 'drill', diameter: '1/8', through: true }],
  crossings: [{ id: 'x1', at: 'P1', form: 'hole', diameter: '1/16', reaches: 'axis' }],
  requirements: [{ id: 'R1', from: 'A', to: 'C', min: '1', max: '2' }],
  matched: [
    ['s1', 's2', 's3'],
    ['s2', 's4'],
  ],
});

describe('segments', () => {
  test('a new part grows at both ends', () => {
    let part = newPart('in');
    part = checkTransaction(part, commands.appendSegment(part, 'right', 1, '1/2'));
    part = checkTransaction(part, commands.appendSegment(part, 'right', 0.5, '3/4'));
    part = checkTransaction(part, commands.appendSegment(part, 'left', 0.25, ''));
    expect(line(part)).toBe('D s3 A s1 B s2 C');
    expect(part.faces.map(({ sketched }) => sketched)).toEqual([-0.25, 0, 1, 1.5]);
    expect(faults(part)).toEqual(['size-unreadable at segments[0].diameter']);
  });

  test('a split keeps the left piece and repeats its size on the right', () => {
    const after = checkTransaction(shaft, commands.splitSegment(shaft, 's2', 1.25));
    expect(line(after)).toBe('A s1 B s2 F s5 C s3 D s4 E | L1:AB | L2:BC | L3:P1E | L4:DC');
    expect(after.segments[2]).toEqual({ id: 's5', form: 'cylinder', diameter: '1/2' });
    expect(after.faces[2]).toEqual({ id: 'F', sketched: 1.25 });
  });

  test.each([1, 2, 0.5, NaN])('a split at %d, which is not inside, does nothing', (place) => {
    expect(commands.splitSegment(shaft, 's2', place).edits).toEqual([]);
  });

  test('a dropped segment takes its right face along, and all that hangs on either', () => {
    const after = checkTransaction(shaft, dropSegment(shaft, 's2'));
    expect(line(after)).toBe('A s1 B s3 D s4 E | L1:AB');
    expect(
      [after.points, after.edges, after.crossings, after.requirements].map((list) =>
        list.map(({ id }) => id),
      ),
    ).toEqual([['P2'], ['e3'], [], []]);
    expect(after.matched).toEqual([['s1', 's3']]);
    expect(faults(after)).toEqual([]);
  });

  test('the first segment goes with the left end, and the hole of that end moves on', () => {
    const after = checkTransaction(shaft, dropSegment(shaft, 's1'));
    expect(line(after)).toBe('B s2 C s3 D s4 E | L2:BC | L3:P1E | L4:DC');
    expect(after.holes[0]?.from).toBe('B');
    expect(faults(after)).toEqual([]);
  });

  test('the last one can go too, and leaves a face to start from', () => {
    const single = pin(['1/2']);
    const after = checkTransaction(single, dropSegment(single, 's1'));
    expect([after.faces.length, after.segments.length]).toEqual([1, 0]);
    expect(faults(after)).toEqual(['empty-part at segments']);
  });

  test('another form keeps the diameter, and asks for what it needs besides', () => {
    const taper = checkTransaction(shaft, setForm(shaft, 's2', 'taper'));
    expect(taper.segments[1]).toEqual({ id: 's2', form: 'taper', start: '1/2', end: '' });
    expect(checkTransaction(taper, setForm(taper, 's2', 'cylinder')).segments[1]).toEqual(shaft.segments[1]);
    const thread = checkTransaction(shaft, setForm(shaft, 's2', 'thread'));
    expect(faults(thread)).toEqual([expect.stringMatching(/ at segments\[1\]\.thread$/)]);
  });
});

describe('lengths', () => {
  test('another size leaves tolerance, role and unknown fields alone', () => {
    const after = checkTransaction(shaft, commands.setLengthSize(shaft, 'L2', '1 5/8'));
    expect(after.lengths[1]?.size).toEqual({ size: '1 5/8', tol: '±.001', note: 'kept' });
  });

  test('what was done is said as a person would say it', () => {
    expect(commands.setLengthSize(shaft, 'L1', '1 5/8').did).toBe('Length A–B to 1 5/8');
  });

  test('a tolerance is set and taken away where it stands', () => {
    const inside = checkTransaction(shaft, commands.setLengthTol(shaft, 'L2', ''));
    expect(inside.lengths[1]?.size).toEqual({ size: '1', note: 'kept' });
    const beside = checkTransaction(shaft, commands.setLengthTol(shaft, 'L1', 'h6'));
    expect(beside.lengths[0]).toEqual({ id: 'L1', from: 'A', to: 'B', size: '1', tol: 'h6' });
  });

  test('how sizes fall is kept with them, and what is usual is not written', () => {
    const on = checkTransaction(shaft, commands.setFalls(shaft, ['L1', 'L3', 's2'], 'uniform'));
    expect([on.lengths[0], on.lengths[1], on.lengths[2], on.segments[1]].map((one) => one?.falls)).toEqual([
      ...['uniform', undefined, 'uniform', 'uniform'],
    ]);
    expect([...(resolvePart(on).falls ?? [])].map(([id]) => id)).toEqual(['L1', 'L3', 's2']);
    expect(checkTransaction(on, commands.setFalls(on, ['L1', 'L3', 's2'], 'normal'))).toEqual(shaft);
    expect(commands.setFalls(shaft, ['nothing'], 'uniform').edits).toEqual([]);
  });

  test('a cylinder is aimed at the metal side and back', () => {
    const on = checkTransaction(shaft, commands.setAim(shaft, 's2', true));
    expect(on.segments[1]).toMatchObject({ aim: 'metal' });
    expect(checkTransaction(on, commands.setAim(on, 's2', false))).toEqual(shaft);
    expect(commands.setAim(shaft, 'P1', true).edits).toEqual([]);
  });

  test('brackets go on and off', () => {
    const on = checkTransaction(shaft, commands.setLengthReference(shaft, 'L1', true));
    expect(on.lengths[0]?.role).toBe('reference');
    expect(checkTransaction(on, commands.setLengthReference(on, 'L1', false)).lengths).toEqual(shaft.lengths);
  });

  test('a new length runs to the right however it was drawn, and needs two known stations', () => {
    const after = checkTransaction(shaft, commands.addLength(shaft, 'P2', 'A', '3 1/2'));
    expect(after.lengths.at(-1)).toEqual({ id: 'L5', from: 'A', to: 'P2', size: '3 1/2' });
    expect(commands.addLength(shaft, 'A', 'A', '1').edits).toEqual([]);
    expect(commands.addLength(shaft, 'A', 'Z', '1').edits).toEqual([]);
  });
});

describe('stations and names', () => {
  test('a face stays between its neighbours', () => {
    const placeOf = (id: string, to: number) =>
      checkTransaction(shaft, commands.moveFace(shaft, id, to)).faces.map(({ sketched }) => sketched);
    expect(placeOf('B', 1.75)).toEqual([0, 1.75, 2, 3, 4]);
    expect(placeOf('B', 7)).toEqual([0, 2, 2, 3, 4]);
    expect(placeOf('A', -3)).toEqual([-3, 1, 2, 3, 4]);
    expect(commands.moveFace(shaft, 'B', NaN).edits).toEqual([]);
  });

  test('a new id is carried to wherever the thing is named', () => {
    const after = checkTransaction(shaft, features.renameId(shaft, 'A', '__proto__'));
    expect(line(after)).toBe('__proto__ s1 B s2 C s3 D s4 E | L1:__proto__B | L2:BC | L3:P1E | L4:DC');
    expect([after.edges[2]?.face, after.holes[0]?.from, after.requirements[0]?.from]).toEqual(
      Array(3).fill('__proto__'),
    );
    const segment = checkTransaction(shaft, features.renameId(shaft, 's2', 'collar'));
    expect(segment.matched).toEqual([
      ['s1', 'collar', 's3'],
      ['collar', 's4'],
    ]);
    expect(faults(segment)).toEqual([]);
  });

  test.each(['B', '', 'two\nlines', 'x'.repeat(300)])('%j is refused as a new id', (to) => {
    expect(features.renameId(shaft, 'A', to).edits).toEqual([]);
  });

  test('a point goes with what hangs on it', () => {
    const after = checkTransaction(shaft, features.dropItem(shaft, 'points', 0));
    expect([after.points.length, after.crossings.length]).toEqual([1, 0]);
    expect(line(after)).toContain('L2:BC | L4:DC');
  });

  test('faces skip I and O, and go on with two letters', () => {
    let part = newPart('in');
    const letters = ['A'];
    while (letters.length < 26) {
      letters.push(freshFaceId(part));
      part = checkTransaction(part, commands.appendSegment(part, 'right', 1, '1'));
    }
    expect(letters.join(' ')).toBe('A B C D E F G H J K L M N P Q R S T U V W X Y Z AA AB');
    expect([freshId(part, 's'), freshId(part, 'L')]).toEqual(['s26', 'L1']);
  });

  test('general rules come and go', () => {
    const on = checkTransaction(shaft, setGeneralRule(shaft, 'lengths', { rule: 'fixed', tol: '±.005' }));
    expect(on.general).toEqual({ lengths: { rule: 'fixed', tol: '±.005' } });
    expect(checkTransaction(on, setGeneralRule(on, 'lengths', null)).general).toBeUndefined();
  });
});
