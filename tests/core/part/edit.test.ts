import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import {
  apply,
  applyAll,
  invert,
  type Edit,
  type ListName,
  type OpenList,
  type Transaction,
} from '../../../src/core/part/edit.ts';
import { joinEdits, placeOf } from '../../../src/core/part/edit-place.ts';
import * as commands from '../../../src/core/part/commands.ts';
import * as features from '../../../src/core/part/feature-commands.ts';
import * as fields from '../../../src/core/part/part-commands.ts';
import * as segments from '../../../src/core/part/segment-commands.ts';
import type { Part } from '../../../src/core/part/types.ts';
import { checkEdit, checkTransaction, textOf } from './check-edit.ts';
import { anyPart, anySizeText, pin } from './samples.ts';

// Many random cases, on machines that may be busy.
vi.setConfig({ testTimeout: 60_000 });

const LISTS: readonly ListName[] = [
  'faces',
  'segments',
  'points',
  'lengths',
  'edges',
  'holes',
  'crossings',
  'requirements',
];

/** A command on things that are in the part, or nearly: the number picks which. */
type Deed = (
  part: Part,
  pick: (ids: readonly string[]) => string,
  text: string,
  place: number,
) => Transaction;
const stations = (part: Part) => [...part.faces, ...part.points].map(({ id }) => id);
const ids = (list: readonly { id?: string }[]) => list.map(({ id }) => id ?? '');

const DEEDS: Readonly<Record<string, Deed>> = {
  setLengthSize: (part, pick, text) => commands.setLengthSize(part, pick(ids(part.lengths)), text),
  setLengthTol: (part, pick, text) => commands.setLengthTol(part, pick(ids(part.lengths)), text),
  setLengthReference: (part, pick, _, place) =>
    commands.setLengthReference(part, pick(ids(part.lengths)), place > 2),
  setLengthEnds: (part, pick) =>
    commands.setLengthEnds(part, pick(ids(part.lengths)), pick(stations(part)), pick(stations(part))),
  addLength: (part, pick, text) => commands.addLength(part, pick(stations(part)), pick(stations(part)), text),
  dropLength: (part, pick) => commands.dropLength(part, pick(ids(part.lengths))),
  setDiameter: (part, pick, text, place) =>
    commands.setDiameter(part, pick(ids(part.segments)), text, place > 2 ? 'end' : 'start'),
  moveFace: (part, pick, _, place) => commands.moveFace(part, pick(stations(part)), place),
  splitSegment: (part, pick, _, place) => commands.splitSegment(part, pick(ids(part.segments)), place),
  appendSegment: (part, _, text, place) =>
    commands.appendSegment(part, place > 2 ? 'left' : 'right', place, text),
  dropSegment: (part, pick) => segments.dropSegment(part, pick(ids(part.segments))),
  setForm: (part, pick, _, place) =>
    segments.setForm(part, pick(ids(part.segments)), place > 4 ? 'thread' : place > 2 ? 'taper' : 'cylinder'),
  setThread: (part, pick, text) => segments.setThread(part, pick(ids(part.segments)), text),
  setRole: (part, pick, text) =>
    segments.setSegmentRole(part, pick(ids(part.segments)), text === '' ? null : text),
  setMate: (part, pick, text) =>
    segments.setMate(part, pick(ids(part.segments)), text === '' ? null : { bore: text }),
  addEdge: (part, pick, text) =>
    features.addEdge(part, { face: pick(stations(part)), side: 'left', form: 'fillet', radius: text }),
  addHole: (part, pick, text) =>
    features.addHole(part, { from: pick(stations(part)), form: 'drill', diameter: text, through: true }),
  addPoint: (part, _, __, place) => features.addPoint(part, place),
  addCrossing: (part, pick, text) =>
    features.addCrossing(part, { at: pick(stations(part)), form: 'hole', diameter: text, reaches: 'axis' }),
  addRequirement: (part, pick, text) =>
    features.addRequirement(part, {
      from: pick(stations(part)),
      to: pick(stations(part)),
      min: text,
      max: text,
    }),
  setItem: (part, pick, text, place) =>
    features.setItem(part, 'holes', Math.floor(place) % 3, {
      depth: undefined,
      note: text,
      from: pick(stations(part)),
    }),
  dropItem: (part, pick, _, place) =>
    features.dropItem(
      part,
      pick(['points', 'edges', 'holes', 'crossings', 'requirements']) as OpenList,
      Math.floor(place) % 3,
    ),
  setName: (part, pick, text) =>
    features.setName(part, pick([...stations(part), ...ids(part.segments)]), text),
  renameId: (part, pick, text) =>
    features.renameId(part, pick(LISTS.flatMap((list) => ids(part[list]))), text),
  setTitle: (part, _, text) => fields.setTitle(part, text),
  setDrawing: (part, _, text) => fields.setDrawing(part, text),
  setUnit: (part, _, __, place) => fields.setUnit(part, place > 2 ? 'in' : 'mm'),
  setMaterial: (part, _, text) => fields.setMaterial(part, text),
  setGeneralRule: (part, _, text, place) =>
    fields.setGeneralRule(
      part,
      place > 4 ? 'lengths' : 'diameters',
      text === '' ? null : { rule: 'fixed', tol: text },
    ),
  setMatched: (part, pick) =>
    fields.setMatched(part, [[pick(ids(part.segments)), pick(ids(part.segments))], ['x']]),
  setScan: (part, _, text) => fields.setScan(part, text === '' ? null : { image: text, origin: [0, 1] }),
};

const anyDeed = fc.record({
  name: fc.constantFrom(...Object.keys(DEEDS)),
  picks: fc.array(fc.nat(), { minLength: 4, maxLength: 4 }),
  text: anySizeText,
  place: fc.double({ min: -1, max: 7, noNaN: true }),
});

function doDeed(
  part: Part,
  { name, picks, text, place }: { name: string; picks: number[]; text: string; place: number },
) {
  let next = 0;
  const pick = (from: readonly string[]) =>
    from[(picks[next++ % 4] ?? 0) % Math.max(1, from.length)] ?? 'nobody';
  const deed = DEEDS[name];
  if (!deed) throw new Error(name);
  return deed(part, pick, text, place);
}

describe('laws on random parts', () => {
  test('whatever is done to a part in sequence, each step is a valid part and is taken back exactly', () => {
    fc.assert(
      fc.property(anyPart, fc.array(anyDeed, { maxLength: 12 }), (part, deeds) => {
        const kept: Part[] = [part];
        const done = deeds.map((deed) => {
          const transaction = doDeed(kept.at(-1) ?? part, deed);
          kept.push(checkTransaction(kept.at(-1) ?? part, transaction));
          return transaction;
        });
        const back = done
          .reverse()
          .reduce(
            (now, { edits, did }) =>
              applyAll(now, { edits: edits.map(invert).reverse(), did } as Transaction),
            kept.at(-1) ?? part,
          );
        expect(textOf(back)).toBe(textOf(part));
      }),
      { numRuns: 150 },
    );
  });

  test('a face at 0 that is moved to the negative zero stays, without a step', () => {
    fc.assert(
      fc.property(anyPart, (part) => {
        const [face] = part.faces;
        if (face?.sketched === 0) expect(commands.moveFace(part, face.id, -0).edits).toEqual([]);
      }),
      { numRuns: 20 },
    );
  });

  test('every command does something on some part', () => {
    const idle = new Set(Object.keys(DEEDS));
    fc.assert(
      fc.property(anyPart, anyDeed, (part, deed) => {
        if (doDeed(part, deed).edits.length > 0) idle.delete(deed.name);
      }),
      { numRuns: 3000, seed: 7 },
    );
    expect([...idle]).toEqual([]);
  });

  test('an edit for another part gives the very same part, or fits it and is taken back', () => {
    fc.assert(
      fc.property(
        anyPart,
        anyPart,
        fc.array(anyDeed, { minLength: 1, maxLength: 4 }),
        (part, other, deeds) => {
          for (const deed of deeds) for (const edit of doDeed(other, deed).edits) checkEdit(part, edit);
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('an edit that does not fit changes nothing', () => {
  const part = pin(['1/2', '3/4'], { lengths: [{ id: 'L1', from: 'A', to: 'B', size: '1' }] });
  const length = { id: 'L1', from: 'A', to: 'B', size: '1' };
  const face = { id: 'Z', sketched: 9 };
  const segment = { id: 's9', form: 'cylinder' as const, diameter: '1' };
  const misfits: [string, Edit][] = [
    ['the old title is another', { kind: 'set', field: 'title', was: 'x', now: 'y' }],
    ['nothing is changed', { kind: 'set', field: 'title', was: '', now: '' }],
    ['a title cannot be taken away', { kind: 'set', field: 'title', was: '' }],
    ['the unit cannot be taken away', { kind: 'set', field: 'unit', was: 'in' }],
    [
      'the old length is another',
      { kind: 'change', list: 'lengths', at: 0, was: { ...length, size: '2' }, now: length },
    ],
    [
      'there is no such place',
      { kind: 'change', list: 'lengths', at: 1, was: length, now: { ...length, size: '2' } },
    ],
    ['the place is before the list', { kind: 'drop', list: 'lengths', at: -1, item: length }],
    [
      'the place is no whole number',
      { kind: 'add', list: 'lengths', at: 0.5, item: { ...length, id: 'L2' } },
    ],
    ['the place is past the list', { kind: 'add', list: 'lengths', at: 2, item: { ...length, id: 'L2' } }],
    ['the new id is taken by a length', { kind: 'add', list: 'lengths', at: 0, item: length }],
    ['the new id is taken by a face', { kind: 'add', list: 'points', at: 0, item: { id: 'A', sketched: 1 } }],
    [
      'the changed id is taken',
      { kind: 'change', list: 'lengths', at: 0, was: length, now: { ...length, id: 's1' } },
    ],
    ['the face is not beside its segment', { kind: 'add-segment', at: 0, faceAt: 2, segment, face }],
    [
      'segment and face have one id',
      { kind: 'add-segment', at: 0, faceAt: 0, segment, face: { ...face, id: 's9' } },
    ],
    [
      'the dropped segment is another',
      { kind: 'drop-segment', at: 0, faceAt: 0, segment, face: { id: 'A', sketched: 0 } },
    ],
    [
      'the dropped face is another',
      {
        kind: 'drop-segment',
        at: 0,
        faceAt: 0,
        segment: { id: 's1', form: 'cylinder', diameter: '1/2' },
        face,
      },
    ],
  ];
  test.each(misfits)('%s', (_, edit) => {
    expect(apply(part, edit)).toBe(part);
  });

  test('one misfit in a transaction keeps all of it from being done', () => {
    const edits: Edit[] = [
      { kind: 'set', field: 'title', was: '', now: 'axle' },
      { kind: 'set', field: 'title', was: 'pin', now: 'x' },
    ];
    expect(applyAll(part, { edits })).toBe(part);
  });
});

describe('typing in one place', () => {
  const part = pin(['1/2'], { lengths: [{ id: 'L1', from: 'A', to: 'B', size: '1' }] });
  const first = commands.setLengthSize(part, 'L1', '1 5');
  const second = commands.setLengthSize(applyAll(part, first), 'L1', '1 5/8');
  const [one, two] = [first.edits[0], second.edits[0]] as [Edit, Edit];

  test('two edits of one size are of one place, and join to one edit that undoes both', () => {
    expect(placeOf(one)).toBe(placeOf(two));
    const joined = joinEdits(one, two);
    if (!joined) throw new Error('not joined');
    const after = checkEdit(part, joined);
    expect(textOf(after)).toBe(textOf(applyAll(applyAll(part, first), second)));
  });

  test('edits of two fields, of two things and edits that add are not', () => {
    const tol = commands.setLengthTol(part, 'L1', '±.005').edits[0] as Edit;
    const diameter = commands.setDiameter(part, 's1', '1').edits[0] as Edit;
    const added = commands.addLength(part, 'A', 'B', '1').edits[0] as Edit;
    const renamed = features.renameId(part, 'L1', 'L7').edits[0] as Edit;
    expect(new Set([one, tol, diameter].map(placeOf)).size).toBe(3);
    expect([added, renamed].map(placeOf)).toEqual([null, null]);
    expect(joinEdits(one, tol)).toBeNull();
    expect(joinEdits(one, one)).toBeNull();
  });
});
