import { smallestMisreads, type Change } from './misread-sets.ts';
import { inStyleOf } from './misread.ts';
import type { Situation } from './situation.ts';
import { findSuspects, listSuspects } from './suspects.ts';
import type { ChainsReport } from './types.ts';

/** Which sizes were likely misread where lengths clash. */
export type Detection = {
  readonly suspects: ChainsReport['suspects'];
  /** A sentence on what is likely, with a space before it; empty where nothing is. */
  readonly likely: string;
  /** The likeliest of the lengths of one clash; null where none of them is suspected. */
  readonly wrongIn: (ids: readonly string[]) => string | null;
};

/** Looks for a single length whose change closes all loops; where there is none, for a smallest set of them. */
export function detect(situation: Situation): Detection {
  const suspicions = findSuspects(situation);
  const [first] = suspicions;
  const several = first ? null : smallestMisreads(situation);
  return {
    suspects: listSuspects(suspicions),
    likely: first ? (first.hint ? ` ${first.hint}` : '') : severalWrong(several),
    wrongIn: (ids) =>
      first?.length.id ?? several?.find(({ length }) => ids.includes(length.id))?.length.id ?? null,
  };
}

function severalWrong(several: readonly Change[] | null): string {
  if (!several) return ' No single size closes all loops: read the plan again from the start.';
  const all = several.map(
    ({ length, value }) => `${length.id} ${inStyleOf(length.size, value)} for ${length.size.text}`,
  );
  return ` No single size closes all loops: at least ${several.length} are wrong, perhaps ${all.join(', ')}.`;
}
