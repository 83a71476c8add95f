import { withFields } from '../../core/part/draft.ts';
import type { Part, Stub } from '../../core/part/types.ts';

/** What is asked of the stub beyond an end of the part; `length` is empty where none stays. `at`: its place in the file. */
export type StubField = {
  readonly end: string;
  readonly at: string;
  readonly length: string;
  readonly diameter: string;
  readonly centre: boolean;
};

/** Both ends of the part, the drawn left one first; none while it has a single face. */
export function stubFields(part: Part): StubField[] {
  const ends = [part.faces[0]?.id, part.faces.at(-1)?.id].filter((id) => id !== undefined);
  if (new Set(ends).size < 2) return [];
  return ends.map((end) => {
    const i = part.stubs?.findIndex((stub) => stub.end === end) ?? -1;
    const stub = part.stubs?.[i];
    return {
      end,
      at: `stubs[${i}]`,
      length: stub?.length ?? '',
      diameter: diameterText(stub),
      centre: stub?.centre ?? false,
    };
  });
}

/** A diameter as one text: a tolerance beside it stands behind it. */
function diameterText(stub: Stub | undefined): string {
  const { diameter = '' } = stub ?? {};
  return typeof diameter === 'string' ? diameter : [diameter.size, diameter.tol].filter(Boolean).join(' ');
}

/** The stub with what was typed or ticked; null, no stub, where its length was emptied. */
export function typedStub(
  part: Part,
  end: string,
  typed: { length?: string; diameter?: string; centre?: boolean },
): Stub | null {
  const was: Stub = part.stubs?.find((stub) => stub.end === end) ?? { end, length: '' };
  const { length = was.length, diameter = was.diameter, centre = was.centre } = typed;
  if (length === '') return null;
  return withFields(
    { ...was, length },
    { diameter: diameter === '' ? undefined : diameter, centre: centre === false ? undefined : centre },
  );
}
