import type { BoardProps } from './board-props.ts';
import type { Desk } from './desk.svelte.ts';

/** What the board asks for next, in a sentence; empty where the person needs no word. */
export function asksOf(desk: Desk, { picture, part, tracing }: BoardProps): string {
  if (picture) return '';
  if (desk.scan.task !== null) return desk.scan.asks;
  if (desk.tool === 'length')
    return desk.firstEnd === null
      ? 'Choose the face or point the length runs from.'
      : `From ${desk.firstEnd}: choose the other end.`;
  // The field for a size says itself what it asks for, and stands where the sentence would on a narrow board.
  if (desk.tool === 'land' && desk.typing.target) return '';
  if (desk.tool === 'land')
    return 'Click right of the part to add a land as tall as you click, or on a segment to split it.';
  if (part.segments.length > 0)
    return desk.lengthsHidden
      ? 'There is no room to write the lengths: zoom in, or show them otherwise.'
      : '';
  if (tracing?.scan && !tracing.scan.known)
    return 'Bring the picture to scale: choose “Place”, pick both ends of a size you know, and type it.';
  return 'Choose “Add land” and click along the profile, left to right; the sizes come after.';
}
