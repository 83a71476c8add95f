import { pieceOf, readPiece, type Piece } from '../core/part/piece.ts';
import type { Part } from '../core/part/types.ts';

/** What was copied last on this page, in case the clipboard may be neither written nor read. */
let kept: string | null = null;

/** The chosen segments as text for the clipboard, which the page keeps too; null where none are chosen. */
export function pieceText(part: Part, segments: readonly string[]): string | null {
  const piece = pieceOf(part, segments);
  if (!piece) return null;
  kept = JSON.stringify(piece);
  return kept;
}

/** Copies by a button, where keys are not at hand, as on a tablet. Resolves with what to tell, empty where nothing is chosen. */
export async function copyPiece(part: Part, segments: readonly string[]): Promise<string> {
  const text = pieceText(part, segments);
  if (text === null) return '';
  try {
    await navigator.clipboard.writeText(text);
    return 'Copied.';
  } catch {
    return 'Copied for this window only: the browser does not let the app use the clipboard.';
  }
}

/**
 * What a button pastes: the piece on the clipboard, else the one that was copied on this page. A browser that would ask
 * before it lets the clipboard be read is asked only where nothing was copied here. Else the reason why there is none.
 */
export async function pieceToPaste(): Promise<Piece | string> {
  const read = kept === null || (await mayRead()) ? await textOutside() : null;
  const piece = readPiece(read ?? '') ?? readPiece(kept ?? '');
  if (piece) return piece;
  return read === null
    ? 'Nothing was copied here, and the browser does not let the app read the clipboard.'
    : 'There are no segments on the clipboard: choose some, and copy them.';
}

async function mayRead(): Promise<boolean> {
  try {
    const { state } = await navigator.permissions.query({ name: 'clipboard-read' as PermissionName });
    return state === 'granted';
  } catch {
    return false; // some browsers know no such permission
  }
}

async function textOutside(): Promise<string | null> {
  try {
    return await navigator.clipboard.readText();
  } catch {
    return null;
  }
}
