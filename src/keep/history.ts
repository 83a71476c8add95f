import { joinEdits, placeOf } from '../core/part/edit-place.ts';
import type { Transaction } from '../core/part/edit.ts';
import type { Part } from '../core/part/types.ts';

/** One thing that undo takes back: edits of the part, or another part put on the board in its place. */
export type Step = Change | Opening;
export type Change = { readonly kind: 'change'; readonly at: number } & Transaction;
export type Opening = {
  readonly kind: 'opening';
  readonly at: number;
  readonly did: string;
  readonly was: Part;
  readonly now: Part;
};

/** All steps in the order they were made; those from `position` on have been undone and can be done again. */
export type History = { readonly steps: readonly Step[]; readonly position: number };

export const emptyHistory: History = { steps: [], position: 0 };

/** Typing within this many milliseconds of the last key is one step with it. */
const NEAR_IN_TIME = 800;

/** The history after a step was made: what had been undone is forgotten, and typing on in one place joins. */
export function record(history: History, step: Step): History {
  const past = history.steps.slice(0, history.position);
  const last = past.at(-1);
  const joined = last && isOneTyping(last, step) ? join(last, step) : null;
  const steps = joined ? [...past.slice(0, -1), joined] : [...past, step];
  return { steps, position: steps.length };
}

/** The step that undo would take back, or null. */
export const undoable = ({ steps, position }: History): Step | null => steps[position - 1] ?? null;
/** The step that redo would do again, or null. */
export const redoable = ({ steps, position }: History): Step | null => steps[position] ?? null;

/** The one place that says whether two steps are one typing: near in time, and the same single field of one thing. */
function isOneTyping(last: Step, next: Step): boolean {
  if (last.kind !== 'change' || next.kind !== 'change') return false;
  if (next.at - last.at > NEAR_IN_TIME || next.at < last.at) return false;
  const [first, second] = [onlyEdit(last), onlyEdit(next)];
  return first !== null && second !== null && placeOf(first) !== null && placeOf(first) === placeOf(second);
}

const onlyEdit = ({ edits }: Change) => (edits.length === 1 ? (edits[0] ?? null) : null);

/** Two steps of one typing as one; null where the second does not go on from the first. */
function join(last: Step, next: Step): Step | null {
  if (last.kind !== 'change' || next.kind !== 'change') return null;
  const [first, second] = [onlyEdit(last), onlyEdit(next)];
  const edit = first && second && joinEdits(first, second);
  return edit ? { ...next, edits: [edit] } : null;
}
