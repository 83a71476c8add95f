import { PM_PER } from '../core/lengths/length.ts';
import { readSize } from '../core/lengths/read-size.ts';
import type { Transaction } from '../core/part/edit.ts';
import { setScan } from '../core/part/part-commands.ts';
import type { Part } from '../core/part/types.ts';
import { begunAt, inPicture, onDrawing, placed, quarterTurned, straightened } from '../core/tracing/place.ts';
import type { Pixel, Scan } from '../core/tracing/scan.ts';
import { pickError, withHole, withOutline, withTrace } from '../core/tracing/trace.ts';
import { kindsOf, type Choice } from './choice.ts';
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

const asks: Readonly<Record<Exclude<ScanTask, 'mark'>, readonly string[]>> = {
  place: [
    'Pick one end of a size you know in the picture; best is the left end of the part, on its centre line.',
    'Pick the other end: best is the right end of the part, on its centre line.',
    'Type the size between the two picks, as the plan has it.',
  ],
  straighten: [
    'Pick a place on the centre line in the picture, far to one side.',
    'Pick the centre line again, far to the other side.',
  ],
  begin: ['Pick where the left end of the part crosses the centre line in the picture.'],
};

/** What can be marked in a picture. */
export type Markable = { readonly kind: 'station' | 'segment' | 'hole'; readonly id: string };

/** What of a choice can be marked: a face or point, a segment, a hole that is drilled or bored; else null. */
export function markable(part: Part, chosen: Choice | null): Markable | null {
  if (chosen?.kind === 'station' || chosen?.kind === 'segment') return { kind: chosen.kind, id: chosen.id };
  const hole = chosen?.kind === 'hole' ? part.holes.find(({ id }) => id === chosen.id) : undefined;
  return hole?.form === 'drill' || hole?.form === 'bore' ? { kind: 'hole', id: hole.id } : null;
}

function asksToMark({ kind, id }: Markable): readonly string[] {
  if (kind === 'station') return [`Pick where ${id} stands in the picture.`];
  if (kind === 'hole')
    return [
      `Pick the wall of ${id} in the picture where the hole begins.`,
      `Pick the wall of ${id} where it ends, before any point of the drill.`,
    ];
  return [
    `Pick the outline of ${id} in the picture at its left end.`,
    `Pick the outline of ${id} at its right end.`,
  ];
}

/** Picks in the picture that is traced, and what comes of them. Picks are kept in its own pixels, so zoom and pan are free. */
export class ScanDesk {
  readonly #given: () => ScanTable;
  task = $state<ScanTask | null>(null);
  picks = $state.raw<readonly Pixel[]>([]);
  /** Where the next pick is made by keyboard, px of the window; null until an arrow is pressed. */
  cross = $state.raw<Spot | null>(null);
  #within = 0;
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
  readonly marking = $derived.by(() => markable(this.#given().part, this.#given().chosen));
  /** The picks as they lie in the window. */
  readonly marks = $derived.by((): readonly Spot[] => {
    const { scan, view } = this.#given();
    return scan ? this.picks.map((pick) => toScreen(view, onDrawing(scan, pick))) : [];
  });
  /** Whether both ends of the known size are picked and the size is to be typed. */
  readonly typing = $derived(this.task === 'place' && this.picks.length === 2);
  /** Whether a click is a pick. */
  readonly picking = $derived(this.task !== null && !this.typing);

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
    if (task !== 'mark') return asks[task];
    return this.#target ? asksToMark(this.#target) : [];
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
    const read = readSize(text, part.unit);
    if (!read.ok) return read.problem.say;
    const now = placed(scan, { from, to, size: text, within: this.#within }, read.value.nominal / PM_PER.mm);
    if (!now) return 'Both picks are at one place, or the size is nothing.';
    onedit(setScan(part, now, `Picture to scale by ${text}`));
    this.leave();
    return null;
  }

  quarter(): void {
    this.#change(quarterTurned, 'Picture turned by a quarter');
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

  #finish(scan: Scan, task: 'straighten' | 'begin' | 'mark'): void {
    const [from, to] = this.picks;
    if (task === 'mark' && from && !this.#mark(scan, from, to)) {
      // Both picks are at one place along the axis: the second is asked for again.
      this.picks = [from];
      return;
    }
    if (task === 'begin' && from) this.#change((now) => begunAt(now, from), 'Left end of the picture placed');
    const straight = task === 'straighten' && from && to ? straightened(scan, from, to) : null;
    if (straight) this.#change(() => straight, 'Picture straightened');
    this.leave();
  }

  /** Marks what was chosen; false where the picks do not tell its ends apart. */
  #mark(scan: Scan, from: Pixel, to: Pixel | undefined): boolean {
    const target = this.#target;
    if (!target) return true;
    const marked = this.#markedAt(scan, target, from, to);
    if (marked) this.#change(() => marked, `${target.id} marked in the picture`);
    return marked !== null;
  }

  #markedAt(scan: Scan, { kind, id }: Markable, from: Pixel, to: Pixel | undefined): Scan | null {
    const { part } = this.#given();
    const within = this.#within;
    // What has gone meanwhile leaves nothing to mark.
    if (kindsOf(part).get(id) !== kind) return scan;
    if (kind === 'station') {
      const station = [...part.faces, ...part.points].find((one) => one.id === id);
      return station ? withTrace(scan, id, onDrawing(scan, from).x, station.sketched, within) : scan;
    }
    if (!to) return null;
    return kind === 'hole'
      ? withHole(scan, id, [from, to], within)
      : withOutline(scan, part, id, [from, to], within);
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
