import type { Unit } from '../lengths/length.ts';
import { transaction, withFields } from './draft.ts';
import type { Transaction } from './edit.ts';
import type { GeneralRule, Part, Pins, Stub } from './types.ts';

/** Types another title. */
export const setTitle = (part: Part, title: string): Transaction =>
  transaction(part, `Title to ${title}`, (draft) => draft.set('title', title));

/** Types where the drawing comes from; an empty text takes it away. */
export const setDrawing = (part: Part, drawing: string): Transaction =>
  transaction(part, `Drawing to ${drawing}`, (draft) =>
    draft.set('drawing', drawing === '' ? undefined : drawing),
  );

/** Says what unit a size without one is in. What is written stays, so it then means another size. */
export const setUnit = (part: Part, unit: Unit): Transaction =>
  transaction(part, `Unit to ${unit === 'in' ? 'inches' : 'millimetres'}`, (draft) =>
    draft.set('unit', unit),
  );

/** Chooses the material by its key in the table; an empty key takes it away. */
export const setMaterial = (part: Part, key: string): Transaction =>
  transaction(part, `Material to ${key}`, (draft) => draft.set('material', key === '' ? undefined : key));

/** Sets the limits of sizes that carry none, for lengths or for diameters; null takes the rule away. */
export const setGeneralRule = (
  part: Part,
  of: 'lengths' | 'diameters',
  rule: GeneralRule | null,
): Transaction =>
  transaction(part, `General limits of ${of} changed`, (draft) => {
    const general = withFields(part.general ?? {}, { [of]: rule ?? undefined });
    draft.set('general', Object.keys(general).length === 0 ? undefined : general);
  });

/** Sets the groups of segments to be made alike. Groups of one go. */
export const setMatched = (part: Part, matched: readonly (readonly string[])[]): Transaction =>
  transaction(part, 'Matched diameters changed', (draft) =>
    draft.set(
      'matched',
      matched.filter((group) => group.length > 1).map((group) => [...group]),
    ),
  );

/** Sets or takes away (null) the picture that is traced. @param did - What this does to it, for the undo menu. */
export const setScan = (part: Part, scan: unknown, did = 'Picture placed'): Transaction =>
  transaction(part, scan === null ? 'Picture taken away' : did, (draft) => draft.set('scan', scan));

/** Says what stub stays beyond an end of the part, by its face; null: none. */
export const setStub = (part: Part, end: string, stub: Stub | null): Transaction =>
  transaction(part, stub ? `Stub kept beyond ${end}` : `No stub kept beyond ${end}`, (draft) => {
    const others = (part.stubs ?? []).filter((one) => one.end !== end);
    draft.set('stubs', someOf(stub ? [...others, stub] : others));
  });

/** Says on which segment a line along the axis is scribed and stays; null leaves it to where something crosses. */
export const setIndexLine = (part: Part, id: string | null): Transaction =>
  transaction(
    part,
    id === null ? 'No line along the axis asked for' : `Line along the axis on ${id}`,
    (draft) =>
      part.segments.forEach((segment, at) => {
        const line = segment.id === id ? true : undefined;
        if (segment.index_line !== line) draft.change('segments', at, { index_line: line });
      }),
  );

/** Settles one thing about the plan, or leaves it to the planner again (undefined). */
export const setPin = <Key extends keyof Pins>(
  part: Part,
  key: Key,
  value: Pins[Key] | undefined,
): Transaction =>
  transaction(
    part,
    value === undefined ? `Planner chooses the ${PIN[key]} again` : `Planned with this ${PIN[key]}`,
    (draft) => {
      const pins = withFields(part.pins ?? {}, { [key]: value });
      draft.set('pins', Object.keys(pins).length === 0 ? undefined : pins);
    },
  );

const PIN: { readonly [Key in keyof Pins]-?: string } = {
  way: 'way of holding',
  first: 'first end',
  centre: 'use of the centre',
  bar: 'bar',
  grip: 'grip',
  blade: 'blade',
  seat: 'seat of the centre',
  part_off: 'way off the bar',
  split: 'split between holdings',
  faces: 'choice of holding for faces',
  grips: 'place of a grip',
  measured: 'measuring at the lathe',
};

/** Settles several things about the plan in one step of undo: a field given as undefined is left to the planner. */
export const setPins = (
  part: Part,
  did: string,
  fields: { readonly [Key in keyof Pins]: Pins[Key] | undefined },
): Transaction =>
  transaction(part, did, (draft) => {
    const pins = withFields(part.pins ?? {}, fields);
    draft.set('pins', Object.keys(pins).length === 0 ? undefined : pins);
  });

/** Settles from which end, by its face, a face is cut; null leaves it to the planner. */
export const setFacePin = (part: Part, face: string, from: string | null): Transaction => {
  const others = (part.pins?.faces ?? []).filter((pin) => pin.face !== face);
  return setPin(part, 'faces', someOf(from === null ? others : [...others, { face, from }]));
};

/** Settles how far from the finished end at the tailstock a holding grips; null leaves it to the planner. */
export const setGripPin = (part: Part, holding: string, out: string | null): Transaction => {
  const others = (part.pins?.grips ?? []).filter((pin) => pin.holding !== holding);
  return setPin(part, 'grips', someOf(out === null ? others : [...others, { holding, out }]));
};

/** Settles whether a length is measured at the lathe before its last cut. */
export const setMeasuredPin = (part: Part, length: string, measured: boolean): Transaction => {
  const others = (part.pins?.measured ?? []).filter((id) => id !== length);
  return setPin(part, 'measured', someOf(measured ? [...others, length] : others));
};

const someOf = <T>(list: T[]): T[] | undefined => (list.length > 0 ? list : undefined);
