import type { Outcome, Problem } from '../problem.ts';

/** A refusal by the tables. Its place is empty: the caller knows where the text stood. */
export function refuse(code: string, say: string, facts: NonNullable<Problem['facts']>): Outcome<never> {
  return { ok: false, problem: { code, where: '', say, facts } };
}
