import type { Transaction } from '../core/part/edit.ts';
import { setScan } from '../core/part/part-commands.ts';
import type { Part } from '../core/part/types.ts';
import { inPicture, onDrawing } from '../core/tracing/place.ts';
import type { Pixel, Scan } from '../core/tracing/scan.ts';
import { pickError } from '../core/tracing/trace.ts';
import type { Choice } from './choice.ts';
import type { scanDeeds } from './scan-deeds.ts';
import { toDrawing, toScreen, type Spot, type Viewport } from './viewport.ts';

/** What is picked in the picture: a known size, the centre line, the left end, where what is chosen stands. */
export type ScanTask = 'place' | 'straighten' | 'begin' | 'mark';

/** What the picks are made on. */
export type ScanTable = {
  readonly part: Part;
  readonly scan: Scan | null;
  readonly view: Viewport;
  readonly window: { readonly width: number; readonly height: number };
  /** What is chosen. */
  readonly chosen: Choice | null;
  readonly onedit: (change: Transaction) => void;
};

/** What can be marked in a picture. */
export type Markable = { readonly kind: 'station' | 'segment' | 'hole'; readonly id: string };

/** Picks in the picture that is traced, and what comes of them. Picks are kept in its own pixels, so zoom and pan are free. */
export class ScanDesk {
  readonly #given: () => ScanTable;
  task = $state<ScanTask | null>(null);
  picks = $state.raw<readonly Pixel[]>([]);
  /** Where the next pick is made by keyboard, px of the window; null until an arrow is pressed. */
  cross = $state.raw<Spot | null>(null);
  #within = 0;
  /** What picks come to; null until it is fetched, which is asked for where there is a picture. */
  deeds = $state.raw<typeof scanDeeds | null>(null);
  /** What is being marked: it stays the same where something else is chosen between the picks. */
  #target = $state.raw<Markable | null>(null);

  constructor(given: () => ScanTable) {
    this.#given = given;
  }

  readonly asks = $derived.by(() => {
    const { task, picks } = this;
    return task === null ? '' : (this.#asked(task)[picks.length] ?? '');
  });
  /** What is chosen, where it can be marked. */
  readonly marking = $derived.by((): Markable | null => {
    const { part, chosen } = this.#given();
    return this.deeds?.markable(part, chosen) ?? null;
  });
  /** The picks as they lie in the window. */
  readonly marks = $derived.by((): readonly Spot[] => {
    const { scan, view } = this.#given();
    return scan ? this.picks.map((pick) => toScreen(view, onDrawing(scan, pick))) : [];
  });
  /** Whether both ends of the known size are picked and the size is to be typed. */
  readonly typing = $derived(this.task === 'place' && this.picks.length === 2);
  /** Whether a click is a pick. */
  readonly picking = $derived(this.task !== null && !this.typing);

  /** Fetches what picks come to. */
  async fetch(): Promise<void> {
    this.deeds ??= (await import('./scan-deeds.ts')).scanDeeds;
  }

  start(task: ScanTask): void {
    this.leave();
    this.task = task;
    this.#target = task === 'mark' ? this.marking : null;
  }

  leave(): void {
    this.task = null;
    this.picks = [];
    this.cross = null;
    this.#within = 0;
  }

  /** A pick at a place of the window. */
  pick(at: Spot): void {
    const { scan, view } = this.#given();
    if (!scan || this.task === null || !this.picking) return;
    this.#within = Math.max(this.#within, pickError(scan, view.scale));
    this.picks = [...this.picks, inPicture(scan, toDrawing(view, at))];
    const all = this.task === 'place' ? 2 : this.#asked(this.task).length;
    if (this.picks.length >= all && this.task !== 'place') this.#finish(scan, this.task);
  }

  #asked(task: ScanTask): readonly string[] {
    return this.deeds?.asksFor(task, this.#target) ?? [];
  }

  /** Arrows move a cross over the board, Enter picks at it; false where a key means nothing here. */
  key(key: string, fine: boolean): boolean {
    if (!this.picking) return false;
    const step = fine ? 1 : 10;
    const by = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[key];
    if (by) this.#move((by[0] ?? 0) * step, (by[1] ?? 0) * step);
    else if (key === 'Enter') this.pick(this.cross ?? this.#middle());
    else if (key === 'Escape') this.leave();
    else return false;
    return true;
  }

  /** Brings the picture to scale by what was typed; gives what is wrong with it, or null. */
  size(text: string): string | null {
    const { part, scan, onedit } = this.#given();
    const [from, to] = this.picks;
    if (!scan || !from || !to) return null;
    const now = this.deeds?.toScale(scan, [from, to], this.#within, text, part.unit);
    if (typeof now === 'string') return now;
    if (now) onedit(setScan(part, now.scan, now.did));
    this.leave();
    return null;
  }

  quarter(): void {
    const { deeds } = this;
    if (deeds) this.#change(deeds.quarterTurned, 'Picture turned by a quarter');
  }
  fade(fade: number): void {
    this.#change((scan) => ({ ...scan, fade }), 'Picture faded');
  }
  lock(locked: boolean): void {
    this.leave();
    this.#change((scan) => ({ ...scan, locked }), locked ? 'Picture locked' : 'Picture unlocked');
  }
  hide(hidden: boolean): void {
    this.leave();
    this.#change((scan) => ({ ...scan, hidden }), hidden ? 'Picture hidden' : 'Picture shown');
  }
  takeAway(): void {
    const { part, onedit } = this.#given();
    this.leave();
    onedit(setScan(part, null));
  }

  #finish(scan: Scan, task: ScanTask): void {
    const { part, onedit } = this.#given();
    const done = this.deeds?.done(scan, part, task, this.#target, this.picks, this.#within);
    if (done) onedit(setScan(part, done.scan, done.did));
    // Picks at one place tell nothing: the last is asked for again.
    if (done || this.picks.length < 2) this.leave();
    else this.picks = this.picks.slice(0, 1);
  }

  #change(change: (scan: Scan) => Scan, did: string): void {
    const { part, scan, onedit } = this.#given();
    if (scan) onedit(setScan(part, change(scan), did));
  }

  #middle(): Spot {
    const { width, height } = this.#given().window;
    return { x: width / 2, y: height / 2 };
  }

  #move(dx: number, dy: number): void {
    const { width, height } = this.#given().window;
    const { x, y } = this.cross ?? this.#middle();
    this.cross = { x: Math.min(Math.max(x + dx, 0), width), y: Math.min(Math.max(y + dy, 0), height) };
  }
}
