import type { Choice } from '../../board/choice.ts';
import type { Part } from '../../core/part/types.ts';
import type { StackView } from './stack-ends.ts';

/**
 * The stack to look at after something is chosen on the board: a length or a segment gives both its ends, a station is the new
 * end, with the one chosen before as the beginning. Anything else changes nothing.
 */
export function picked(part: Part, view: StackView, { kind, id }: Choice): StackView {
  if (kind === 'station') return view.to === id ? view : { ...view, from: view.to, to: id };
  if (kind === 'length') {
    const length = part.lengths.find((each) => each.id === id);
    return length ? { ...view, from: length.from, to: length.to } : view;
  }
  if (kind !== 'segment') return view;
  const at = part.segments.findIndex((each) => each.id === id);
  const [left, right] = [part.faces[at], part.faces[at + 1]];
  return left && right ? { ...view, from: left.id, to: right.id } : view;
}
