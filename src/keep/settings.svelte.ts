import { isMeasured } from '../core/marks/printer.ts';
import type { Unit } from '../core/lengths/length.ts';

export type Theme = 'light' | 'dark';
export type Page = 'letter' | 'a4';

/** What a person chose for this browser. Null where nothing was chosen and the part or the system decides. */
type Chosen = {
  unit: Unit | null;
  theme: Theme | null;
  page: Page;
  /** Text of the lathe file in use; null for the app's own first lathe. */
  lathe: string | null;
  /** Texts of the lathe files kept in this browser, each name once. */
  lathes: readonly string[];
  /** Share of the room that the board takes, in percent: while drawing, and while the bar is shown on it. */
  board: number;
  bar: number;
  /** What 100 mm come out as on this person's printer, in mm. */
  measured: number;
  /** Where another device reaches the app, where this page's own address does not lead there. */
  address: string;
};

const KEY = 'shaftwright.settings';
const VISITED = 'shaftwright.visited';
/** Buttons for fingers take room from the board, and the drawing is to be as legible as elsewhere. */
const forFingers = globalThis.matchMedia?.('(pointer: coarse)').matches ?? false;
const usual: Chosen = {
  unit: null,
  theme: null,
  page: 'letter',
  lathe: null,
  lathes: [],
  board: forFingers ? 72 : 66,
  bar: 50,
  measured: 100,
  address: '',
};

/**
 * Settings of this browser, kept at once. Where the browser refuses to keep them (private window, storage full)
 * they hold until the page is closed.
 */
export class Settings {
  #chosen = $state.raw<Chosen>(usual);
  #storage: Storage | null;

  constructor(storage: Storage | null) {
    this.#storage = storage;
    this.#chosen = { ...usual, ...readChosen(storage) };
  }

  get unit(): Unit | null {
    return this.#chosen.unit;
  }
  get theme(): Theme | null {
    return this.#chosen.theme;
  }
  get page(): Page {
    return this.#chosen.page;
  }
  get lathe(): string | null {
    return this.#chosen.lathe;
  }
  get lathes(): readonly string[] {
    return this.#chosen.lathes;
  }
  get board(): number {
    return this.#chosen.board;
  }
  get bar(): number {
    return this.#chosen.bar;
  }
  get measured(): number {
    return this.#chosen.measured;
  }

  get address(): string {
    return this.#chosen.address;
  }

  /** Whether there was a visit before: then there is work of it in the store. */
  get visited(): boolean {
    return readText(this.#storage, VISITED) === 'yes';
  }
  /** Notes that there was a visit, apart from what a person chose. */
  noteVisit(): void {
    this.#keep(VISITED, 'yes');
  }

  choose(change: Partial<Chosen>): void {
    this.#chosen = { ...this.#chosen, ...change };
    this.#keep(KEY, JSON.stringify(this.#chosen));
  }

  #keep(key: string, text: string): void {
    try {
      this.#storage?.setItem(key, text);
    } catch {
      this.#storage = null; // refused once is refused for this visit; the choice still holds in memory
    }
  }
}

/** The page's own storage, or null where the browser refuses even to be asked. */
export function pageStorage(): Storage | null {
  try {
    return globalThis.localStorage;
  } catch {
    return null;
  }
}

function readChosen(storage: Storage | null): Partial<Chosen> {
  const kept = readObject(storage);
  const chosen: Partial<Chosen> = {};
  if (kept['unit'] === 'in' || kept['unit'] === 'mm') chosen.unit = kept['unit'];
  if (kept['theme'] === 'light' || kept['theme'] === 'dark') chosen.theme = kept['theme'];
  if (kept['page'] === 'letter' || kept['page'] === 'a4') chosen.page = kept['page'];
  if (typeof kept['lathe'] === 'string') chosen.lathe = kept['lathe'];
  const { lathes } = kept;
  if (Array.isArray(lathes)) chosen.lathes = lathes.filter((text) => typeof text === 'string');
  const { board, bar, measured } = kept;
  if (isShare(board)) chosen.board = board;
  if (isShare(bar)) chosen.bar = bar;
  if (typeof kept['address'] === 'string') chosen.address = kept['address'];
  if (typeof measured === 'number' && isMeasured(measured)) chosen.measured = measured;
  return chosen;
}

const isShare = (value: unknown): value is number => typeof value === 'number' && value >= 15 && value <= 80;

function readObject(storage: Storage | null): Record<string, unknown> {
  try {
    const value: unknown = JSON.parse(readText(storage, KEY) ?? '{}');
    return typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {};
  } catch {
    return {};
  }
}

/** What is kept under a key; null where there is nothing, or the browser refuses to say. */
function readText(storage: Storage | null, key: string): string | null {
  try {
    return storage?.getItem(key) ?? null;
  } catch {
    return null;
  }
}
