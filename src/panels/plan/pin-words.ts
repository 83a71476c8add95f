import type { Transaction } from '../../core/part/edit.ts';
import type { Lathe } from '../../core/part/lathe.ts';
import { setLengthTol } from '../../core/part/commands.ts';
import { setFacePin, setGripPin, setMeasuredPin, setPin, setPins } from '../../core/part/part-commands.ts';
import type { Part, Pins } from '../../core/part/types.ts';
import type { ChartAdvice } from '../../core/plan/chart-advice.ts';

/** What is settled by choosing one of a few. */
export type PinKey = Exclude<keyof Pins, 'faces' | 'grips' | 'measured'>;
export type PinChoice = { readonly text: string; readonly words: string };
export type PinField = {
  readonly key: PinKey;
  readonly label: string;
  /** The value as a text; empty where the planner chooses. */
  readonly value: string;
  readonly choices: readonly PinChoice[];
};

const WAYS: readonly PinChoice[] = [
  { text: 'bar', words: 'out of the bar' },
  { text: 'stages', words: 'out of the bar in stages' },
  { text: 'both-ends', words: 'from both ends' },
  { text: 'centres', words: 'between centres' },
];
const CENTRE: readonly PinChoice[] = [
  { text: 'yes', words: 'bring it up' },
  { text: 'no', words: 'do without' },
];
const SEATS: readonly PinChoice[] = [
  { text: 'drawn', words: 'in the drawn centre hole' },
  { text: 'mouth', words: 'in the mouth of a hole' },
  { text: 'stub', words: 'in a stub, faced off later' },
  { text: 'left', words: 'in a centre hole left in' },
];
const PARTING: readonly PinChoice[] = [{ text: 'no', words: 'sawn blank, nothing parted off' }];

const same = (texts: readonly string[]): PinChoice[] => texts.map((text) => ({ text, words: text }));
const endsOf = (part: Part): string[] => [
  ...new Set([part.faces[0]?.id, part.faces.at(-1)?.id].filter((id) => id !== undefined)),
];
const innerFaces = (part: Part): string[] => part.faces.slice(1, -1).map(({ id }) => id);

/** Everything about a plan that is settled by a choice, with what it can be on this part and lathe. */
export function pinFields(part: Part, lathe: Lathe): PinField[] {
  const pins = part.pins ?? {};
  const cylinders = part.segments.filter((s) => s.form === 'cylinder').map(({ id }) => id);
  const blades = lathe.tools.filter((tool) => tool.kind === 'blade');
  const field = (key: PinKey, label: string, choices: readonly PinChoice[]): PinField => {
    const value = textOf(pins[key]);
    const gone = value !== '' && !choices.some((choice) => choice.text === value);
    const all = gone ? [...choices, { text: value, words: `${value} (not there)` }] : choices;
    return { key, label, value, choices: all };
  };
  return [
    field('way', 'Way of holding', WAYS),
    field('first', 'End at the tailstock first', same(endsOf(part))),
    field('centre', 'Live centre', CENTRE),
    field('seat', 'Centre bears', SEATS),
    field('bar', `Bar, ${lathe.unit}`, same(lathe.bars.diameters)),
    field('part_off', 'Off the bar', PARTING),
    field('grip', 'Turned round, grip on', same(cylinders)),
    field('split', 'From both ends, split at face', same(innerFaces(part))),
    field(
      'blade',
      'Blade',
      blades.map((b) => ({ text: b.id, words: `${b.id}, ${b.width} ${lathe.unit} wide` })),
    ),
  ];
}

const textOf = (value: Pins[PinKey]): string =>
  value === undefined ? '' : value === true ? 'yes' : value === false ? 'no' : value;

const oneOf = <T extends string>(all: readonly T[], text: string): T | undefined =>
  all.find((each) => each === text);

/** Settles one thing by its text; the empty text leaves it to the planner. */
export function settle(part: Part, key: PinKey, text: string): Transaction {
  if (text === '') return setPin(part, key, undefined);
  if (key === 'centre') return setPin(part, key, text === 'yes');
  if (key === 'part_off') return setPin(part, key, false);
  if (key === 'way') return setPin(part, key, oneOf(['bar', 'stages', 'both-ends', 'centres'], text));
  if (key === 'seat') return setPin(part, key, oneOf(['drawn', 'mouth', 'stub', 'left'], text));
  return setPin(part, key, text);
}

/** A face and the end from which it can be settled to be cut; empty where the planner chooses. */
export type FaceField = { readonly face: string; readonly value: string; readonly choices: PinChoice[] };

export function faceFields(part: Part): FaceField[] {
  const choices = endsOf(part).map((end) => ({ text: end, words: `with end ${end} at the tailstock` }));
  const settled = new Map((part.pins?.faces ?? []).map(({ face, from }) => [face, from]));
  return innerFaces(part).map((face) => ({ face, value: settled.get(face) ?? '', choices }));
}

export const settleFace = (part: Part, face: string, from: string): Transaction =>
  setFacePin(part, face, from === '' ? null : from);

/** One thing that is settled, in words, and the change that leaves it to the planner again. */
export type Settled = { readonly where: string; readonly words: string; readonly letGo: Transaction };

/** Everything settled, each with its place in the part file as problems name it. */
export function settledItems(part: Part, lathe: Lathe): Settled[] {
  const { faces = [], grips = [], measured = [] } = part.pins ?? {};
  const single = pinFields(part, lathe)
    .filter(({ value }) => value !== '')
    .map(({ key, label, value, choices }) => ({
      where: `pins.${key}`,
      words: `${label}: ${choices.find((c) => c.text === value)?.words ?? value}`,
      letGo: setPin(part, key, undefined),
    }));
  return [
    ...single,
    ...faces.map(({ face, from }, i) => ({
      where: `pins.faces[${i}]`,
      words: `Face ${face}: cut with end ${from} at the tailstock`,
      letGo: setFacePin(part, face, null),
    })),
    ...grips.map(({ holding, out }, i) => ({
      where: `pins.grips[${i}]`,
      words: `Grip of ${holding}: begins ${out} from the end at the tailstock`,
      letGo: setGripPin(part, holding, null),
    })),
    ...measured.map((length, i) => ({
      where: `pins.measured[${i}]`,
      words: `${length}: measured at the lathe before its last cut`,
      letGo: setMeasuredPin(part, length, false),
    })),
  ];
}

/** Leaves everything to the planner again, in one step. */
export const letGo = (part: Part): Transaction =>
  setPins(
    part,
    'Planner chooses everything again',
    Object.fromEntries(Object.keys(part.pins ?? {}).map((key) => [key, undefined])),
  );

/** How many things are settled. */
export const pinCount = (part: Part): number =>
  Object.values(part.pins ?? {}).reduce((sum, value) => sum + (Array.isArray(value) ? value.length : 1), 0);

/**
 * Plans the part in a way that was left, in one step of undo. What had been settled about the way before goes with it:
 * the centre, the split, and where holdings grip, as those are other holdings now.
 */
export function planThisWay(part: Part, { way, first, bar, seat }: Pins): Transaction {
  const words = WAYS.find(({ text }) => text === way)?.words ?? way ?? 'as before';
  const cleared = { centre: undefined, split: undefined, grips: undefined };
  const bars = bar === undefined ? {} : { bar };
  return setPins(part, `Planned ${words}, end ${first ?? ''} first`, {
    ...cleared,
    ...bars,
    way,
    first,
    seat,
  });
}

/** Does what was advised for a length that is not held, in one step of undo. */
export const takeAdvice = (part: Part, { length, pins, tol, say }: ChartAdvice): Transaction =>
  pins === null ? setLengthTol(part, length, tol ?? '') : setPins(part, say.replace(/\.$/, ''), pins);
