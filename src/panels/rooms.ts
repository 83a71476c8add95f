import { Later } from './later.svelte.ts';

/** The board is all that a person first sees: everything else of the app comes when it is wanted, or in a quiet moment. */
export const rooms = {
  /** What looks a part over beyond what is drawn: misread sizes, requirements, the traced picture. */
  report: new Later(() => import('../core/draft-report.ts')),
  draw: new Later(() => import('./draw/DrawPanel.svelte')),
  check: new Later(() => import('./CheckPanel.svelte')),
  hold: new Later(() => import('./HoldPanel.svelte')),
  cut: new Later(() => import('./CutPanel.svelte')),
  print: new Later(() => import('./PrintPlace.svelte')),
  turn: new Later(() => import('./TurnPlace.svelte')),
  tables: new Later(() => import('./tables/TablesPage.svelte')),
  carry: new Later(() => import('./carry/CarryPage.svelte')),
  library: new Later(() => import('./library/LibraryPanel.svelte')),
  keys: new Later(() => import('./KeysCard.svelte')),
  /** What stands over the board while a picture is traced, and the choice of a page of a PDF. */
  scanBar: new Later(() => import('../board/ScanBar.svelte')),
  pages: new Later(() => import('./tracing/PageChoice.svelte')),
  /** The bar as it is held, for the board, and what can be dragged on it. */
  bars: new Later(() => import('./step-picture.ts')),
  handles: new Later(() => import('./plan/PlanHandles.svelte')),
  /** What follows from what was measured at the lathe. */
  actuals: new Later(() => import('../core/actuals/section.ts')),
};

/** Fetches all that is not here yet, one after another, so that going to a place never waits for the network. */
export async function fetchRooms(): Promise<void> {
  for (const room of Object.values(rooms)) {
    await room.fetch().catch(() => undefined); // asked for again, and said, when it is wanted
  }
}
