import { sameJson } from './same-json.ts';
import type { Crossing, Edge, Face, Hole, Part, PartLength, Point, Requirement, Segment } from './types.ts';

/** What each list of a part holds. */
export type Items = {
  faces: Face;
  segments: Segment;
  points: Point;
  lengths: PartLength;
  edges: Edge;
  holes: Hole;
  crossings: Crossing;
  requirements: Requirement;
};
export type ListName = keyof Items;
/** Lists that grow and shrink by one; faces and segments do so together. */
export type OpenList = Exclude<ListName, 'faces' | 'segments'>;
/** Fields of the part itself. */
export type PartField =
  'title' | 'drawing' | 'unit' | 'material' | 'general' | 'matched' | 'actuals' | 'stubs' | 'scan' | 'pins';

type SetField<F extends PartField> = {
  readonly kind: 'set';
  readonly field: F;
  readonly was?: Part[F] | undefined;
  readonly now?: Part[F] | undefined;
};
type ChangeItem<L extends ListName> = {
  readonly kind: 'change';
  readonly list: L;
  readonly at: number;
  readonly was: Items[L];
  readonly now: Items[L];
};
type AddOrDrop<L extends OpenList> = {
  readonly kind: 'add' | 'drop';
  readonly list: L;
  readonly at: number;
  readonly item: Items[L];
};
/** A segment at `at` in segments with one of its faces at `faceAt` in faces: the one left of it, or right of it. */
type SegmentAndFace = {
  readonly kind: 'add-segment' | 'drop-segment';
  readonly at: number;
  readonly faceAt: number;
  readonly segment: Segment;
  readonly face: Face;
};

/** The smallest change to a part, as plain JSON. It carries what it replaces, so that it can be turned round. */
export type Edit =
  | { [F in PartField]: SetField<F> }[PartField]
  | { [L in ListName]: ChangeItem<L> }[ListName]
  | { [L in OpenList]: AddOrDrop<L> }[OpenList]
  | SegmentAndFace;

/** One thing the user did, undone as one. `did` is what it was, for the undo menu: "Length A–B to 1 5/8". */
export type Transaction = { readonly edits: readonly Edit[]; readonly did: string };

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
const ALWAYS_THERE: ReadonlySet<PartField> = new Set<PartField>(['title', 'unit', 'matched']);

/** All ids in the part; an edge without one has none. */
export const idsOf = (part: Part): ReadonlySet<string | undefined> =>
  new Set(LISTS.flatMap((list) => part[list].map((item) => item.id)));

/** Whether anything in the part has this id. */
export const hasId = (part: Part, id: string): boolean =>
  LISTS.some((list) => part[list].some((item) => item.id === id));

/** A part is taken through a list by name; the types of list and item were paired when the edit was made. */
const listOf = (part: Part, list: ListName): readonly Items[ListName][] => part[list];

const spliced = <T>(items: readonly T[], at: number, drop: number, ...put: T[]): T[] => [
  ...items.slice(0, at),
  ...put,
  ...items.slice(at + drop),
];

const isPlace = (at: number, most: number): boolean => Number.isInteger(at) && at >= 0 && at <= most;

function applySet(part: Part, { field, was, now }: Extract<Edit, { kind: 'set' }>): Part {
  if (!sameJson(part[field], was) || sameJson(was, now)) return part;
  if (now !== undefined) return { ...part, [field]: now };
  if (ALWAYS_THERE.has(field)) return part;
  return Object.fromEntries(Object.entries(part).filter(([key]) => key !== field)) as unknown as Part;
}

function applyChange(part: Part, { list, at, was, now }: Extract<Edit, { kind: 'change' }>): Part {
  const items = listOf(part, list);
  if (at >= items.length || !sameJson(items[at], was) || sameJson(was, now)) return part;
  if (now.id !== was.id && now.id !== undefined && hasId(part, now.id)) return part;
  return { ...part, [list]: spliced(items, at, 1, now) };
}

function applyAdd(part: Part, { list, at, item }: AddOrDrop<OpenList>): Part {
  const items = listOf(part, list);
  if (!isPlace(at, items.length) || (item.id !== undefined && hasId(part, item.id))) return part;
  return { ...part, [list]: spliced(items, at, 0, item) };
}

function applyDrop(part: Part, { list, at, item }: AddOrDrop<OpenList>): Part {
  const items = listOf(part, list);
  if (at >= items.length || !sameJson(items[at], item)) return part;
  return { ...part, [list]: spliced(items, at, 1) };
}

const besideIt = ({ at, faceAt }: SegmentAndFace): boolean => faceAt === at || faceAt === at + 1;

function applyAddSegment(part: Part, edit: SegmentAndFace): Part {
  const { at, faceAt, segment, face } = edit;
  if (!isPlace(at, part.segments.length) || !besideIt(edit)) return part;
  if (segment.id === face.id || hasId(part, segment.id) || hasId(part, face.id)) return part;
  return {
    ...part,
    segments: spliced(part.segments, at, 0, segment),
    faces: spliced(part.faces, faceAt, 0, face),
  };
}

function applyDropSegment(part: Part, edit: SegmentAndFace): Part {
  const { at, faceAt, segment, face } = edit;
  if (at >= part.segments.length || !besideIt(edit)) return part;
  if (!sameJson(part.segments[at], segment) || !sameJson(part.faces[faceAt], face)) return part;
  return { ...part, segments: spliced(part.segments, at, 1), faces: spliced(part.faces, faceAt, 1) };
}

/**
 * The part after `edit`. The very same part where the edit was made for another (what it replaces does not stand
 * there, or what it adds has an id that is taken) or changes nothing: never half, never an exception.
 */
export function apply(part: Part, edit: Edit): Part {
  switch (edit.kind) {
    case 'set':
      return applySet(part, edit);
    case 'change':
      return applyChange(part, edit);
    case 'add':
      return applyAdd(part, edit);
    case 'drop':
      return applyDrop(part, edit);
    case 'add-segment':
      return applyAddSegment(part, edit);
    case 'drop-segment':
      return applyDropSegment(part, edit);
  }
}

const OPPOSITE = {
  add: 'drop',
  drop: 'add',
  'add-segment': 'drop-segment',
  'drop-segment': 'add-segment',
} as const;

/** The edit that takes `edit` back: `apply(apply(part, edit), invert(edit))` says the same as `part`. */
export function invert(edit: Edit): Edit {
  if (edit.kind === 'set' || edit.kind === 'change') return { ...edit, was: edit.now, now: edit.was } as Edit;
  return { ...edit, kind: OPPOSITE[edit.kind] } as Edit;
}

/** The part after all edits, in order; the very same part where one of them does not fit. */
export function applyAll(part: Part, { edits }: Pick<Transaction, 'edits'>): Part {
  let now = part;
  for (const edit of edits) {
    const next = apply(now, edit);
    if (next === now) return part;
    now = next;
  }
  return now;
}

/** The transaction that takes another back. */
export const invertAll = ({ edits, did }: Transaction): Transaction => ({
  edits: edits.map(invert).reverse(),
  did,
});
