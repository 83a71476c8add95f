import type { Transaction } from '../../core/part/edit.ts';
import { apply } from '../../core/part/edit.ts';
import type { Lathe } from '../../core/part/lathe.ts';
import { setPin } from '../../core/part/part-commands.ts';
import type { Part, Pins } from '../../core/part/types.ts';

export type PinKey = keyof Pins;
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
  { text: 'both-ends', words: 'from both ends' },
  { text: 'centres', words: 'between centres' },
];
const CENTRE: readonly PinChoice[] = [
  { text: 'yes', words: 'bring it up' },
  { text: 'no', words: 'do without' },
];

/** Everything about a plan that can be settled, with what it can be settled to on this part and lathe. */
export function pinFields(part: Part, lathe: Lathe): PinField[] {
  const pins = part.pins ?? {};
  const ends = [part.faces[0]?.id, part.faces.at(-1)?.id].filter((id) => id !== undefined);
  const cylinders = part.segments.filter((s) => s.form === 'cylinder').map(({ id }) => id);
  const blades = lathe.tools.filter((tool) => tool.kind === 'blade');
  const same = (texts: readonly string[]): PinChoice[] => texts.map((text) => ({ text, words: text }));
  const field = (key: PinKey, label: string, choices: readonly PinChoice[]): PinField => {
    const value = textOf(pins[key]);
    const gone = value !== '' && !choices.some((choice) => choice.text === value);
    const all = gone ? [...choices, { text: value, words: `${value} (not there)` }] : choices;
    return { key, label, value, choices: all };
  };
  return [
    field('way', 'Way of holding', WAYS),
    field('first', 'End at the tailstock first', same([...new Set(ends)])),
    field('centre', 'Live centre', CENTRE),
    field('bar', `Bar, ${lathe.unit}`, same(lathe.bars.diameters)),
    field('grip', 'Turned round, grip on', same(cylinders)),
    field(
      'blade',
      'Blade',
      blades.map((b) => ({ text: b.id, words: `${b.id}, ${b.width} ${lathe.unit} wide` })),
    ),
  ];
}

const textOf = (value: Pins[PinKey]): string =>
  value === undefined ? '' : value === true ? 'yes' : value === false ? 'no' : value;

/** Settles one thing by its text; the empty text leaves it to the planner. */
export function settle(part: Part, key: PinKey, text: string): Transaction {
  if (text === '') return setPin(part, key, undefined);
  if (key === 'centre') return setPin(part, key, text === 'yes');
  if (key === 'way') {
    const way = (['bar', 'both-ends', 'centres'] as const).find((each) => each === text);
    return setPin(part, key, way);
  }
  return setPin(part, key, text);
}

/** Several pins in one step of undo. */
function settleAll(part: Part, did: string, pins: readonly (readonly [PinKey, string])[]): Transaction {
  let now = part;
  const edits = pins.flatMap(([key, text]) => {
    const change = settle(now, key, text);
    now = change.edits.reduce(apply, now);
    return change.edits;
  });
  return { edits, did };
}

/** Leaves everything to the planner again, in one step. */
export const letGo = (part: Part): Transaction =>
  settleAll(
    part,
    'Planner chooses everything again',
    pinKeys(part).map((key) => [key, '']),
  );

export const pinKeys = (part: Part): PinKey[] => Object.keys(part.pins ?? {}) as PinKey[];

/** What a way that was left would have settled. */
export type LeftWay = {
  readonly way: NonNullable<Pins['way']>;
  readonly first: string;
  readonly bar: string | null;
};

/**
 * Way, first end and bar of a way that was looked at, out of its name. Null where they cannot be told, or where
 * settling them would not bring it about (a variant of a way by the centre's seat).
 *
 * @param bar - The bar of the plan in hand: settled only where this way takes another.
 */
export function leftWay(name: string, part: Part, lathe: Lathe, bar: string): LeftWay | null {
  const way = name.startsWith('out of the ')
    ? 'bar'
    : name.startsWith('from both ends ')
      ? 'both-ends'
      : name.includes(' blank between centres')
        ? 'centres'
        : null;
  const ends = [part.faces[0]?.id, part.faces.at(-1)?.id];
  const first = ends.find(
    (id) => id !== undefined && new RegExp(`, end ${quoted(id)} (at|first)|, end ${quoted(id)}$`).test(name),
  );
  if (!way || first === undefined || name.endsWith('centre hole left in')) return null;
  const own = lathe.bars.diameters.find((d) =>
    way === 'centres' ? name.startsWith(`${d} blank `) : name.includes(` the ${d} bar,`),
  );
  return { way, first, bar: own !== undefined && own !== bar ? own : null };
}

const quoted = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** Plans the part that way: way, first end and where need be the bar, in one step of undo. */
export const planThisWay = (part: Part, { way, first, bar }: LeftWay): Transaction =>
  settleAll(part, `Planned ${WAYS.find(({ text }) => text === way)?.words ?? way}, end ${first} first`, [
    ['way', way],
    ['first', first],
    ...(bar === null ? [] : [['bar', bar] as const]),
  ]);
