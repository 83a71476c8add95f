import { readPiece } from '../core/part/piece.ts';
import type { BoardProps } from './board-props.ts';
import { pieceText } from './clipboard.ts';
import type { Desk } from './desk.svelte.ts';

const isTyping = ({ target }: Event): boolean =>
  target instanceof HTMLElement && target.closest('input, textarea, select') !== null;

/** Copies or cuts the chosen segments; text that is marked on the page goes first. */
export function copyByKey(desk: Desk, { part, picture }: BoardProps, event: ClipboardEvent): void {
  if (isTyping(event) || picture || !getSelection()?.isCollapsed) return;
  const text = pieceText(part, desk.chosen.segments);
  if (text === null) return;
  event.clipboardData?.setData('text/plain', text);
  event.preventDefault();
  if (event.type === 'cut') desk.work.drop();
}

/** A piece of a part goes in right of what is chosen; any other text is the page's business. */
export function pasteByKey(desk: Desk, { picture }: BoardProps, event: ClipboardEvent): void {
  if (isTyping(event) || picture) return;
  const piece = readPiece(event.clipboardData?.getData('text/plain') ?? '');
  if (!piece) return;
  event.preventDefault();
  event.stopPropagation();
  desk.work.paste(piece);
}
