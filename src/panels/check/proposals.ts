import type { Change } from '../../core/chains/misread-sets.ts';
import { inStyleOf } from '../../core/chains/misread.ts';
import type { Length, Unit } from '../../core/lengths/length.ts';
import { nearest, PM_PER } from '../../core/lengths/length.ts';
import { readSize } from '../../core/lengths/read-size.ts';
import { writeDecimal, writeShort } from '../../core/lengths/write.ts';
import { setLengthReference, setLengthSize, setLengthTol, sizeText } from '../../core/part/commands.ts';
import { applyAll, type Transaction } from '../../core/part/edit.ts';
import type { Part } from '../../core/part/types.ts';
import { solveChains } from '../../core/chains/solve.ts';
import { resolvePart } from '../../core/part/resolve.ts';
import { stackRequirements } from '../../core/stacks/requirements.ts';
import type { WorkingLimits } from '../../core/stacks/share-out.ts';

/** Several transactions as one, undone as one; each is made for the part as those before it leave it. */
function together(part: Part, did: string, steps: readonly ((now: Part) => Transaction)[]): Transaction {
  let now = part;
  const edits = steps.flatMap((step) => {
    const change = step(now);
    now = applyAll(now, change);
    return change.edits;
  });
  return { edits, did };
}

/** Reads several lengths afresh, each in the style in which it was written. */
export const readAnew = (part: Part, changes: readonly Change[]): Transaction =>
  together(
    part,
    `${changes.map(({ length }) => length.id).join(', ')} read anew`,
    changes.map(
      ({ length, value }) =>
        (now) =>
          setLengthSize(now, length.id, inStyleOf(length.size, value)),
    ),
  );

/** Brackets several lengths. */
export const bracketAll = (part: Part, ids: readonly string[]): Transaction =>
  together(
    part,
    `${ids.join(', ')} bracketed`,
    ids.map((id) => (now) => setLengthReference(now, id, true)),
  );

/** Tenths of a thousandth of an inch, microns; one place finer where that would leave nothing. */
const DECIMALS: Readonly<Record<Unit, number>> = { in: 4, mm: 3 };

/** Sharing out is right to a nanometre, in pm: a limit so close below a step is that step, as long as all requirements hold. */
const NANOMETRE = 1000;

/** A deviation without its sign, rounded toward nothing. */
function deviation(off: number, unit: Unit, slack: number): string {
  const inward = (decimals: number) => {
    const step = PM_PER[unit] / 10 ** decimals;
    return writeDecimal(nearest(Math.floor((Math.abs(off) + slack) / step) * step), unit, decimals);
  };
  const text = inward(DECIMALS[unit]);
  return off === 0 || /[1-9]/.test(text) ? text : inward(DECIMALS[unit] + 1);
}

/** A tolerance as it is typed, `±.0030` or `+.0030/-.0012`, no wider than the limits. */
export function writtenLimits(nominal: Length, { min, max }: Limits, unit: Unit, slack = 0): string {
  const [lower, upper] = [deviation(nominal - min, unit, slack), deviation(max - nominal, unit, slack)];
  return lower === upper ? `±${upper}` : `+${upper}/-${lower}`;
}

type Limits = Pick<WorkingLimits, 'min' | 'max'>;
type Shared = WorkingLimits & { readonly nominal: Length };

/** Writes shared-out limits beside the sizes, or in place of two limits that a size was written as. */
export const takeLimits = (part: Part, limits: readonly Shared[], slack: number): Transaction =>
  together(
    part,
    'Limits shared out',
    limits.map((limit) => (now) => takeLimit(now, limit, slack)),
  );

function takeLimit(part: Part, limit: Shared, slack: number): Transaction {
  const written = part.lengths.find(({ id }) => id === limit.length);
  const read = written && readSize(sizeText(written.size), part.unit);
  if (!read?.ok) return { edits: [], did: '' };
  const { unit } = read.value;
  const tol = writtenLimits(limit.nominal, limit, unit, slack);
  if (!read.value.limits && read.value.fit === null) return setLengthTol(part, limit.length, tol);
  return together(part, '', [
    (now) => setLengthSize(now, limit.length, writeShort(limit.nominal, unit)),
    (now) => setLengthTol(now, limit.length, tol),
  ]);
}

/** How far limits may be rounded up, in pm, so that every requirement is still always met with all of them written. */
export function slackFor(part: Part, limits: readonly Shared[]): number {
  const resolved = resolvePart(applyAll(part, takeLimits(part, limits, NANOMETRE)));
  const rows = stackRequirements(resolved, solveChains(resolved));
  return rows.every(({ meets_worst }) => meets_worst !== false) ? NANOMETRE : 0;
}
