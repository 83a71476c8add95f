import {
  apply,
  type Edit,
  type Items,
  type ListName,
  type OpenList,
  type PartField,
  type Transaction,
} from './edit.ts';
import { sameJson } from './same-json.ts';
import type { Face, Part, Segment } from './types.ts';

/** An item with fields put in; a field that is undefined is taken out. Fields nobody knows stay. */
export function withFields<T extends object>(item: T, fields: object): T {
  const merged = { ...item, ...fields };
  return Object.fromEntries(Object.entries(merged).filter(([, value]) => value !== undefined)) as T;
}

/** Collects edits, each made for the part as the ones before it leave it. */
export class Draft {
  part: Part;
  readonly edits: Edit[] = [];

  constructor(part: Part) {
    this.part = part;
  }

  #do(edit: Edit): void {
    const next = apply(this.part, edit);
    if (next === this.part) return;
    this.part = next;
    this.edits.push(edit);
  }

  set<F extends PartField>(field: F, now: Part[F] | undefined): void {
    this.#do({ kind: 'set', field, was: this.part[field], now } as Edit);
  }

  /** Changes fields of the item at `at`; a field given as undefined goes. */
  change(list: ListName, at: number, fields: object): void {
    const was = this.part[list][at];
    if (!was) return;
    const now = withFields(was, fields);
    if (!sameJson(was, now)) this.#do({ kind: 'change', list, at, was, now } as Edit);
  }

  add<L extends OpenList>(list: L, item: Items[L], at: number = this.part[list].length): void {
    this.#do({ kind: 'add', list, at, item } as Edit);
  }

  drop(list: OpenList, at: number): void {
    const item = this.part[list][at];
    if (item) this.#do({ kind: 'drop', list, at, item } as Edit);
  }

  addSegment(at: number, segment: Segment, faceAt: number, face: Face): void {
    this.#do({ kind: 'add-segment', at, segment, faceAt, face });
  }

  dropSegment(at: number, faceAt: number): void {
    const segment = this.part.segments[at];
    const face = this.part.faces[faceAt];
    if (segment && face) this.#do({ kind: 'drop-segment', at, segment, faceAt, face });
  }

  /** Drops all items that `goes` picks. */
  dropWhere<L extends OpenList>(list: L, goes: (item: Items[L]) => boolean): void {
    const items: readonly Items[L][] = this.part[list] as unknown as readonly Items[L][];
    for (let at = items.length - 1; at >= 0; at -= 1) {
      const item = items[at];
      if (item && goes(item)) this.drop(list, at);
    }
  }
}

/**
 * A transaction from steps on a draft. Without edits where the steps find nothing to do: what they name is not in
 * the part, or it stands so already.
 */
export function transaction(part: Part, did: string, steps: (draft: Draft) => void): Transaction {
  const draft = new Draft(part);
  steps(draft);
  return { edits: draft.edits, did };
}

/** Place of the item with this id; -1 where there is none. */
export const placeIn = (part: Part, list: ListName, id: string): number =>
  part[list].findIndex((item) => item.id === id);
