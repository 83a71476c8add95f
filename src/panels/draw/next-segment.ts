import { fromMm, PM_PER, toMm } from '../../core/lengths/length.ts';
import { readSize } from '../../core/lengths/read-size.ts';
import { transaction } from '../../core/part/draft.ts';
import type { Transaction } from '../../core/part/edit.ts';
import { freshFaceId, freshId } from '../../core/part/fresh-ids.ts';
import type { Part, Segment } from '../../core/part/types.ts';

/** What is typed for the next step of a shaft: its diameter or thread, and its length, which may be left for later. */
export type NextSegment = {
  readonly form: 'cylinder' | 'thread';
  readonly size: string;
  readonly length: string;
};

/** Adds a segment at the right end and, where its length is known, the length from the face before: one step. */
export function addNext(part: Part, { form, size, length }: NextSegment): Transaction {
  const before = part.faces.at(-1);
  const id = freshId(part, 's');
  const face = { id: freshFaceId(part), sketched: (before?.sketched ?? 0) + roughLength(part, length) };
  const segment: Segment = form === 'thread' ? { id, form, thread: size } : { id, form, diameter: size };
  const count = part.segments.length;
  return transaction(part, `Segment ${id} added`, (draft) => {
    draft.addSegment(count, segment, count + 1, face);
    if (length === '' || !before) return;
    draft.add('lengths', { id: freshId(draft.part, 'L'), from: before.id, to: face.id, size: length });
  });
}

/** A length for the sketch, in the part's unit: as typed, or about an inch where nothing is said yet. */
function roughLength(part: Part, text: string): number {
  const read = readSize(text, part.unit);
  const length = read.ok ? read.value.nominal : fromMm(25);
  return Number(((toMm(length) * PM_PER.mm) / PM_PER[part.unit]).toFixed(6));
}
