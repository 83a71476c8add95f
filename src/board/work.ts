import { setLengthLane } from '../core/part/commands.ts';
import { applyAll, type Transaction } from '../core/part/edit.ts';
import { pastePiece, type Piece } from '../core/part/piece.ts';
import { addGroove, repeat } from '../core/part/rearrange.ts';
import { addedBy, type Choice } from './choice.ts';
import type { Deed } from './deeds.ts';
import type { Desk } from './desk.svelte.ts';
import { addLand, dropAll, moveLoose, rough } from './edits.ts';
import type { Outline } from './hand.ts';
import { targetsOf, type SizeTarget } from './size-target.ts';
import type { Way } from './walk.ts';

/** What is done to the part from the board, each as one step, and what is chosen or typed after it. */
export class Work {
  readonly #desk: Desk;

  constructor(desk: Desk) {
    this.#desk = desk;
  }

  change(change: Transaction): void {
    if (change.edits.length > 0) this.#desk.given().onedit(change);
  }

  /** What was moved by hand: over a picture it counts as traced. */
  moved(change: Transaction): void {
    this.change(this.#traced(change));
  }

  /** What was pointed at over a picture counts as traced. */
  #traced(change: Transaction): Transaction {
    const { part, report } = this.#desk.given();
    const { deeds } = this.#desk.scan;
    return deeds ? deeds.traced(part, report.chains, change, this.#desk.paper.scale) : change;
  }

  /** Right of the part a land is added as far as it was drawn out; inside a land a groove is. */
  drawnOut(outline: Outline): void {
    const { part } = this.#desk.given();
    const { places } = this.#desk.drawing;
    if (outline.to > places.extent || part.segments.length === 0)
      return this.addLand(outline.to, outline.radius);
    const [low, high] = [Math.min(outline.from, outline.to), Math.max(outline.from, outline.to)];
    const k = part.faces.findLastIndex((face) => (places.at.get(face.id) ?? 0) <= low);
    const at = (mm: number) => rough(part, places.toSketched(mm));
    const id = part.segments[k]?.id ?? '';
    this.run({
      name: 'groove',
      does: (now) =>
        addGroove(
          now,
          id,
          at(low),
          at(high),
          rough(part, (2 * outline.radius) / (part.unit === 'in' ? 25.4 : 1)),
        ),
    });
  }

  /** @param pointed - Whether somebody pointed there, so that it may count as traced. */
  addLand(mm: number, radius: number, pointed = true): void {
    const { part } = this.#desk.given();
    const onward = mm > this.#desk.drawing.places.extent || part.segments.length === 0;
    const added = addLand(part, this.#desk.drawing.places, mm, radius);
    this.change(pointed ? this.#traced(added) : added);
    if (!onward) return;
    const now = this.#desk.given().part;
    const [from, to] = [now.faces.at(-2)?.id ?? '', now.faces.at(-1)?.id ?? ''];
    const size: SizeTarget = { kind: 'segment', id: now.segments.at(-1)?.id ?? '', end: 'start' };
    this.#desk.typing.openAll([size], { kind: 'new-length', from, to });
  }

  /** A land where the keyboard stands: in the middle of the chosen segment, else on at the right end. */
  addLandHere(): void {
    const { part, chosen } = this.#desk.given();
    const { places, tall } = this.#desk.drawing;
    const k = part.segments.findIndex((s) => chosen?.kind === 'segment' && s.id === chosen.id);
    const [a, b] = [places.at.get(part.faces[k]?.id ?? ''), places.at.get(part.faces[k + 1]?.id ?? '')];
    if (a !== undefined && b !== undefined) return this.addLand((a + b) / 2, tall, false);
    this.addLand(places.extent > 0 ? places.extent * 1.2 : 25, tall > 0.01 ? tall : 8, false);
  }

  /** Does a deed; what it put into the part is chosen, and its first size opened to be typed over. */
  run({ does }: Deed): void {
    const { part } = this.#desk.given();
    const change = does(part);
    if (change.edits.length === 0) return;
    const added = addedBy(part, applyAll(part, change));
    const kept = this.#desk.chosen.all;
    this.change(change);
    if (!added) return this.#reopen(kept);
    this.#desk.given().onchoose(added);
    const now = this.#desk.given().part;
    const crossing = now.crossings.find((x) => added.kind === 'crossing' && x.id === added.id);
    // What runs from point to point is as long as they are apart.
    const long: SizeTarget | null =
      crossing && 'to' in crossing ? { kind: 'new-length', from: crossing.at, to: crossing.to } : null;
    this.#desk.typing.openAll(targetsOf(now, added), long);
  }

  /** A segment that became something else wants other sizes. */
  #reopen([chosen]: readonly Choice[]): void {
    const { part } = this.#desk.given();
    const targets = chosen?.kind === 'segment' ? targetsOf(part, chosen) : [];
    const form = part.segments.find((s) => s.id === chosen?.id)?.form;
    if (form === 'taper' || form === 'thread') this.#desk.typing.openAll(targets);
  }

  repeat(count: number, pitch: string): void {
    this.change(repeat(this.#desk.given().part, this.#desk.chosen.segments, count, pitch));
  }

  /** Puts a piece right of what is chosen, else at the right end; it is then what is chosen. */
  paste(piece: Piece): void {
    const { part } = this.#desk.given();
    const had = new Set(part.segments.map(({ id }) => id));
    this.change(pastePiece(part, piece, this.#desk.chosen.segments.at(-1) ?? null));
    const fresh = this.#desk.given().part.segments.filter(({ id }) => !had.has(id));
    this.#desk.chosen.choose(fresh.map(({ id }) => ({ kind: 'segment', id })));
  }

  drop(): void {
    const { part } = this.#desk.given();
    const change = dropAll(part, this.#desk.chosen.all);
    if (change.edits.length === 0) return;
    this.#desk.typing.leave();
    this.#desk.chosen.choose([]);
    this.change(change);
  }

  /** By a step of the rule: a loose face along the axis, or a length to another lane (up is nearer to the part). */
  nudge(way: Way): void {
    const { part, chosen, unit } = this.#desk.given();
    if (chosen?.kind === 'station' && (way === 'left' || way === 'right')) {
      this.#desk.paper.hold();
      const step = unit === 'in' ? 25.4 / 32 : 0.5;
      const moved = moveLoose(part, this.#desk.drawing.places, chosen.id, way === 'left' ? -step : step);
      this.moved(moved);
    } else if (chosen?.kind === 'length' && (way === 'up' || way === 'down')) {
      const now = this.#desk.scene?.dimensions.find(({ id }) => id === chosen.id)?.inLane ?? 0;
      this.change(setLengthLane(part, chosen.id, Math.max(0, now + (way === 'up' ? -1 : 1))));
    }
  }
}
