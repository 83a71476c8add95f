import { type Length, negate, type Unit, ZERO } from '../lengths/length.ts';
import { readSize } from '../lengths/read-size.ts';
import type { Actual } from '../part/types.ts';
import type { Outcome, Problem } from '../problem.ts';

/** Anything that was measured: all but a tick. */
export type Measured = Exclude<Actual, { what: 'done' }>;

/**
 * A figure typed at the lathe: `12.62`, `.4987`, `1/2`, `12.62 mm`. No tolerance belongs to what was measured.
 *
 * @param unit - Of a figure without one: what the readout was in.
 */
export function readMeasured(text: string, unit: Unit): Outcome<Length> {
  const read = readSize(text, unit);
  if (!read.ok) return read;
  if (read.value.limits === null && read.value.fit === null) return { ok: true, value: read.value.nominal };
  return {
    ok: false,
    problem: {
      code: 'plain-size-wanted',
      where: '',
      say: `“${text}” takes no tolerance: type what was measured.`,
    },
  };
}

/** What a readout shows: a figure with a sign, zero included. Null where the text is no such figure. */
export function readShown(text: string, unit: Unit): Length | null {
  const [, sign = '', figure = ''] = /^\s*([-−+]?)(.*)$/s.exec(text) ?? [];
  if (/^[0.,\s]*0[0.,\s]*$/.test(figure)) return ZERO;
  const read = readMeasured(figure, unit);
  if (!read.ok) return null;
  return sign === '-' || sign === '−' ? negate(read.value) : read.value;
}

/** A blade touched off by an edge that was named, with no diameter measured. */
const isEdgeAlone = (actual: Measured): boolean =>
  actual.what === 'touch' && actual.edge !== undefined && actual.text.trim() === '';

/** What was measured that can be read, in the order typed, and what cannot, with its place in the list. */
export function readActuals(
  actuals: readonly Actual[],
  unit: Unit,
): { measured: readonly { actual: Measured; at: number; size: Length }[]; problems: readonly Problem[] } {
  const measured: { actual: Measured; at: number; size: Length }[] = [];
  const problems: Problem[] = [];
  actuals.forEach((actual, at) => {
    if (actual.what === 'done' || isEdgeAlone(actual)) return;
    const read = readMeasured(actual.text, actual.unit ?? unit);
    if (read.ok) measured.push({ actual, at, size: read.value });
    else problems.push({ ...read.problem, where: `actuals[${at}].text` });
  });
  return { measured, problems };
}
