import type { Unit } from '../lengths/length.ts';
import { transaction, withFields } from './draft.ts';
import type { Transaction } from './edit.ts';
import type { GeneralRule, Part, Pins } from './types.ts';

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

/** Sets or takes away (null) the picture that is traced. */
export const setScan = (part: Part, scan: unknown): Transaction =>
  transaction(part, scan === null ? 'Picture taken away' : 'Picture placed', (draft) =>
    draft.set('scan', scan),
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
};
