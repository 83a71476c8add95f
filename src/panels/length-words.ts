import type { Part, PartLength, SizeText } from '../core/part/types.ts';

/** The text of a size, without its tolerance. */
export const sizeText = (size: SizeText | undefined): string =>
  typeof size === 'object' ? size.size : (size ?? '');

/** The tolerance that stands with a size, in its record or beside it. */
export const tolText = (size: SizeText | undefined, beside?: string): string =>
  (typeof size === 'object' ? size.tol : undefined) ?? beside ?? '';

/** A bracketed size that binds nothing. */
export const isReference = ({ size, role }: PartLength): boolean =>
  (role ?? (typeof size === 'object' ? size.role : undefined)) === 'reference';

/** "L3 (B to D, .4000)", as lists name a length; a taper that acts as one by its id. */
export function lengthWords(part: Part, id: string): string {
  const length = part.lengths.find((each) => each.id === id);
  if (!length) return `taper ${id}`;
  return `${id} (${length.from} to ${length.to}, ${sizeText(length.size)})`;
}
