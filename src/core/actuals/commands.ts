import { transaction } from '../part/draft.ts';
import type { Transaction } from '../part/edit.ts';
import type { Actual, Part, StepName } from '../part/types.ts';
import { sameStep } from './step-name.ts';

const logged = (part: Part, did: string, now: readonly Actual[]): Transaction =>
  transaction(part, did, (draft) => draft.set('actuals', now.length > 0 ? [...now] : undefined));

/** Writes down what was measured, behind all that was done before. */
export const addActual = (part: Part, actual: Exclude<Actual, { what: 'done' }>): Transaction =>
  logged(part, nameOf(actual), [...(part.actuals ?? []), actual]);

const nameOf = (actual: Exclude<Actual, { what: 'done' }>): string =>
  actual.text === '' ? `Edge of ${actual.of}` : `Measured ${actual.of}: ${actual.text}`;

/** Takes an entry of the log away, by its number. Nothing where there is none. */
export function dropActual(part: Part, at: number): Transaction {
  const log = part.actuals ?? [];
  const actual = log[at];
  if (!actual) return { edits: [], did: '' };
  const did = actual.what === 'done' ? 'Tick taken back' : `${nameOf(actual)} taken back`;
  return logged(part, did, log.toSpliced(at, 1));
}

/** Types another figure for an entry of the log; its place in the order stays. */
export function correctActual(part: Part, at: number, text: string): Transaction {
  const log = part.actuals ?? [];
  const actual = log[at];
  if (!actual || actual.what === 'done') return { edits: [], did: '' };
  return logged(part, `Measured ${actual.of}: ${text}`, log.with(at, { ...actual, text }));
}

/** Ticks a step. Nothing where it is ticked. */
export function tickStep(part: Part, step: StepName, cut: number): Transaction {
  const log = part.actuals ?? [];
  if (log.some((actual) => actual.what === 'done' && sameStep(actual.step, step)))
    return { edits: [], did: '' };
  return logged(part, `Cut ${cut} ticked`, [...log, { what: 'done', step, cut }]);
}

/** Takes the tick of a step back. Nothing where it has none. */
export function untickStep(part: Part, step: StepName): Transaction {
  const log = part.actuals ?? [];
  const left = log.filter((actual) => actual.what !== 'done' || !sameStep(actual.step, step));
  return left.length === log.length ? { edits: [], did: '' } : logged(part, 'Tick taken back', left);
}

/** Begins again: nothing measured, nothing ticked. */
export const clearActuals = (part: Part): Transaction => logged(part, 'Work at the lathe begun again', []);
