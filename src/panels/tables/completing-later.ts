import type { SizeTarget } from '../../board/size-target.ts';
import type { Part } from '../../core/part/types.ts';

/** What a size on the board is completed from; null where nothing in the tables fits. */
export type Completed =
  | 'threads'
  | 'shaftSizes'
  | 'holeSizes'
  | 'centreDrills'
  | 'ratio'
  | 'per_foot'
  | 'half_angle'
  | 'included_angle';

/** From which table a size on the board is completed. */
export function completedFrom(part: Part, target: SizeTarget): Completed | null {
  if (target.kind === 'hole') {
    if (target.field === 'thread') return 'threads';
    const form = part.holes.find(({ id }) => id === target.id)?.form;
    if (form === 'centre') return 'centreDrills';
    return target.field === 'diameter' ? 'holeSizes' : null;
  }
  if (target.kind !== 'segment') return null;
  const segment = part.segments.find(({ id }) => id === target.id);
  if (segment?.form === 'thread') return 'threads';
  if (segment?.form !== 'taper' || target.end !== 'angle') return segment ? 'shaftSizes' : null;
  const ways = ['ratio', 'per_foot', 'half_angle', 'included_angle'] as const;
  return ways.find((way) => segment[way] !== undefined) ?? 'ratio';
}

/** Gives a field on the board its list to complete from, which is fetched with the tables when the field is first there. */
export function completingLater(
  part: Part,
  target: SizeTarget,
): ((input: HTMLInputElement) => () => void) | undefined {
  const from = completedFrom(part, target);
  if (from === null) return undefined;
  return (input) => {
    let off: (() => void) | undefined;
    let gone = false;
    const fetched = Promise.all([import('./completing.svelte.ts'), import('./completions.ts')]);
    // Without the tables (the network is gone before they were kept) the field is an ordinary one.
    fetched
      .then(([{ completing }, tables]) => {
        if (gone) return;
        const complete =
          from === 'ratio' || from === 'per_foot' || from === 'half_angle' || from === 'included_angle'
            ? tables.tapers(from)
            : tables[from];
        off = completing(complete)(input);
      })
      .catch(() => undefined);
    return () => {
      gone = true;
      off?.();
    };
  };
}
