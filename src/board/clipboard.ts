import { pieceOf } from '../core/part/piece.ts';
import type { Part } from '../core/part/types.ts';

/** The chosen segments as text for the clipboard; null where none are chosen. */
export function pieceText(part: Part, segments: readonly string[]): string | null {
  const piece = pieceOf(part, segments);
  return piece && JSON.stringify(piece);
}

/** Copies by hand, where keys and menus are not at hand, as on a tablet. */
export function copyPiece(part: Part, segments: readonly string[]): void {
  const text = pieceText(part, segments);
  if (text !== null) void navigator.clipboard.writeText(text);
}
