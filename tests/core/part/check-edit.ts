import { expect } from 'vitest';
import {
  apply,
  applyAll,
  invert,
  invertAll,
  type Edit,
  type Transaction,
} from '../../../src/core/part/edit.ts';
import { partFrom } from '../../../src/core/part/read-part.ts';
import { writePart } from '../../../src/core/part/write-part.ts';
import type { Part } from '../../../src/core/part/types.ts';

function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null) {
    Object.values(value).forEach(frozen);
    Object.freeze(value);
  }
  return value;
}

/** The text of a part: what "the same" means to a person, the order of things in its lists included. */
export const textOf = (part: Part): string => writePart(part);

function expectFile(part: Part): void {
  const read = partFrom(JSON.parse(JSON.stringify(part)), 'after the edit');
  expect(read.ok ? '' : read.problem.say).toBe('');
}

/**
 * Every law of edits on one example: it changes nothing it was given, keeps a part file a part file, survives JSON,
 * and its reverse takes it back, from both sides. Gives the part after it.
 */
export function checkEdit(part: Part, edit: Edit): Part {
  const after = apply(frozen(part), frozen(edit));
  const read = JSON.parse(JSON.stringify(edit)) as Edit;
  expect(textOf(apply(part, read))).toBe(textOf(after));
  expect(invert(invert(edit))).toEqual(edit);
  if (after === part) return after;
  expectFile(after);
  expect(textOf(after)).not.toBe(textOf(part));
  expect(textOf(apply(after, invert(edit)))).toBe(textOf(part));
  expect(textOf(apply(apply(after, invert(read)), read))).toBe(textOf(after));
  return after;
}

/** The laws for a transaction: each of its edits does something, and all of them are taken back together. */
export function checkTransaction(part: Part, transaction: Transaction): Part {
  let now = part;
  for (const edit of transaction.edits) {
    const next = checkEdit(now, edit);
    expect(next).not.toBe(now);
    now = next;
  }
  const after = applyAll(part, transaction);
  expect(textOf(after)).toBe(textOf(now));
  expect(textOf(applyAll(after, invertAll(transaction)))).toBe(textOf(part));
  return after;
}
