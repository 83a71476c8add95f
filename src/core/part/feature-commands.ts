import { dropHanging } from './commands.ts';
import { placeIn, transaction } from './draft.ts';
import type { Items, ListName, OpenList, Transaction } from './edit.ts';
import { hasId } from './edit.ts';
import { freshId, type IdPrefix } from './fresh-ids.ts';
import { isId } from './read-part.ts';
import type { Crossing, Edge, Hole, Part, Requirement } from './types.ts';

const NOUNS: Readonly<Record<ListName, string>> = {
  faces: 'Face',
  segments: 'Segment',
  points: 'Point',
  lengths: 'Length',
  edges: 'Edge',
  holes: 'Hole',
  crossings: 'Crossing',
  requirements: 'Requirement',
};

type WithoutId<T> = T extends { id?: string } ? Omit<T, 'id'> : never;

function addItem<L extends OpenList>(part: Part, list: L, prefix: IdPrefix, item: object): Transaction {
  const id = freshId(part, prefix);
  const whole = { id, ...item } as Items[L];
  return transaction(part, `${NOUNS[list]} ${id} added`, (draft) => draft.add(list, whole));
}

/** Adds an edge under a fresh id. */
export const addEdge = (part: Part, edge: WithoutId<Edge>): Transaction => addItem(part, 'edges', 'e', edge);
/** Adds a hole under a fresh id. */
export const addHole = (part: Part, hole: WithoutId<Hole>): Transaction => addItem(part, 'holes', 'h', hole);
/** Adds a crossing under a fresh id. Its point must be there, see `addPoint`. */
export const addCrossing = (part: Part, crossing: WithoutId<Crossing>): Transaction =>
  addItem(part, 'crossings', 'x', crossing);
/** Adds a requirement under a fresh id. */
export const addRequirement = (part: Part, requirement: WithoutId<Requirement>): Transaction =>
  addItem(part, 'requirements', 'R', requirement);
/** Adds a point at a sketched place, in the part's unit. */
export const addPoint = (part: Part, sketched: number): Transaction =>
  addItem(part, 'points', 'P', { sketched });

/**
 * Changes fields of an item by its place in the list, as edges may have no id; a field given as undefined goes.
 * `did` says what it was.
 */
export function setItem(part: Part, list: ListName, at: number, fields: object, did?: string): Transaction {
  const name = part[list][at]?.id ?? String(at + 1);
  return transaction(part, did ?? `${NOUNS[list]} ${name} changed`, (draft) =>
    draft.change(list, at, fields),
  );
}

/** Drops an item by its place in the list; a point goes with what hangs on it. */
export function dropItem(part: Part, list: OpenList, at: number): Transaction {
  const item = part[list][at];
  const name = item?.id ?? String(at + 1);
  return transaction(part, `${NOUNS[list]} ${name} deleted`, (draft) => {
    if (list === 'points' && item?.id !== undefined) dropHanging(draft, item.id);
    draft.drop(list, at);
  });
}

/** Names a face, a point or a segment; an empty name takes it away. */
export function setName(part: Part, id: string, name: string): Transaction {
  const list = (['faces', 'points', 'segments'] as const).find((one) => placeIn(part, one, id) >= 0);
  if (!list) return { edits: [], did: '' };
  const fields = { name: name === '' ? undefined : name };
  return setItem(part, list, placeIn(part, list, id), fields, `${NOUNS[list]} ${id} named`);
}

/** Fields in which one thing of a list names another. */
const REFERENCES: readonly (readonly [list: ListName, fields: readonly string[]])[] = [
  ['lengths', ['from', 'to']],
  ['requirements', ['from', 'to']],
  ['edges', ['face']],
  ['holes', ['from']],
  ['crossings', ['at', 'to']],
];

function renamedFields(item: object, fields: readonly string[], id: string, to: string): object {
  const named = Object.entries(item).filter(([key, value]) => fields.includes(key) && value === id);
  return Object.fromEntries(named.map(([key]) => [key, to]));
}

/** Gives a thing another id, wherever it is named. Nothing where the id is taken, empty or not fit to be one. */
export function renameId(part: Part, id: string, to: string): Transaction {
  const lists = Object.keys(NOUNS) as ListName[];
  const list = lists.find((one) => placeIn(part, one, id) >= 0);
  if (!list || !isId(to) || hasId(part, to)) return { edits: [], did: '' };
  return transaction(part, `${NOUNS[list]} ${id} is now ${to}`, (draft) => {
    draft.change(list, placeIn(part, list, id), { id: to });
    for (const [other, fields] of REFERENCES) {
      part[other].forEach((item, at) => draft.change(other, at, renamedFields(item, fields, id, to)));
    }
    if (list === 'faces')
      draft.set(
        'stubs',
        part.stubs?.map((stub) => (stub.end === id ? { ...stub, end: to } : stub)),
      );
    if (list !== 'segments') return;
    draft.set(
      'matched',
      part.matched.map((group) => group.map((one) => (one === id ? to : one))),
    );
  });
}

/** What a typed text changes in a feature; an empty text takes an optional field out. */
export function typedFields(key: string, text: string): object {
  if (key === 'depth' && text.toLowerCase() === 'through') return { through: true, depth: undefined };
  if (key === 'depth') return { through: undefined, depth: text || undefined };
  return { [key]: text || undefined };
}
