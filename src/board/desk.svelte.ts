import type { Unit } from '../core/lengths/length.ts';
import type { Picture } from '../core/outline/picture.ts';
import { profilePicture, type View } from '../core/outline/profile-picture.ts';
import { applyAll, type Transaction } from '../core/part/edit.ts';
import type { Part } from '../core/part/types.ts';
import type { Report } from '../core/report-types.ts';
import type { BoardStage, Shown } from './board-stage.ts';
import { sameChoice, type Choice } from './choice.ts';
import { addLand, drop, moveLoose, setSize } from './edits.ts';
import { fieldSpot } from './field-spot.ts';
import type { Gestures } from './gestures.ts';
import { holdersOf } from './holders.ts';
import { showsKind } from './fit.ts';
import { Paper } from './paper.svelte.ts';
import { drawingOf, sceneOf } from './scene.ts';
import { missingSizes, sameTarget, targetOf, type SizeTarget } from './size-target.ts';
import { toDrawing, type Spot } from './viewport.ts';
import { walk, type Way } from './walk.ts';

export type BoardProps = {
  part: Part;
  report: Report;
  chosen: Choice | null;
  /** Ids of stations, lengths and segments to light up. */
  lit: readonly string[];
  unit: Unit;
  onedit: (change: Transaction) => void;
  onchoose: (choice: Choice | null) => void;
  /** Shown instead of the drawing while a holding or a cut is talked about. */
  picture?: Picture | null;
};
export type Tool = 'choose' | 'land' | 'length';

/** What the board knows that is not in the part: the tool, what is in hand, what is being typed; the paper it lies on. */
export class Desk {
  readonly #given: () => BoardProps;
  stage: BoardStage | null = null;
  readonly paper: Paper;
  view = $state<View | null>(null);
  tool = $state<Tool>('choose');
  hovered = $state.raw<Choice | null>(null);
  editing = $state.raw<SizeTarget | null>(null);
  /** First end of a length that is being drawn. */
  firstEnd = $state<string | null>(null);
  /** What holds the face that was pulled. */
  pulled = $state.raw<readonly string[]>([]);
  spaceHeld = $state(false);
  /** The move that letting go would make. */
  #moving = $state.raw<Transaction | null>(null);
  #grabbed: string | null = null;

  constructor(given: () => BoardProps) {
    this.#given = given;
    this.paper = new Paper(() => {
      const { part, picture } = given();
      const key = picture ? 'picture' : JSON.stringify([part.title, part.drawing, part.unit]);
      return { key, picture: picture ?? null, drawing: this.#resting };
    });
  }

  readonly #resting = $derived.by(() => {
    const { part, report, unit } = this.#given();
    return drawingOf(part, report, unit);
  });
  readonly dragging = $derived(this.#moving !== null);
  /** As the part would be if the drag ended now. */
  readonly #drawing = $derived.by(() => {
    const { part, report, unit } = this.#given();
    return this.#moving ? drawingOf(applyAll(part, this.#moving), report, unit) : this.#resting;
  });
  // Hatching keeps about its distance on the screen; by powers of two, so that most zooms keep the lines.
  readonly #hatch = $derived.by(() => 2 ** Math.round(Math.log2(8 / this.paper.scale)));
  readonly #profile = $derived.by(() => {
    const { part, places } = this.#drawing;
    const view = this.view === null ? {} : { view: this.view };
    return profilePicture(part, this.#given().report, { places, hatch: this.#hatch, ...view });
  });
  readonly scene = $derived.by(() => {
    if (!this.paper.style || this.#given().picture) return null;
    const { chosen, lit } = this.#given();
    const asked = [...lit, ...this.pulled, chosen?.id];
    // Drawn larger than it fits there is room for more; what is talked about is written in any case.
    const detail = this.paper.scale > 1.3 * this.paper.whole.view.scale ? 'all' : this.paper.whole.detail;
    const shows = ({ kind, id }: Choice) => showsKind(detail, kind) || asked.includes(id);
    const at = { scale: this.paper.scale, x: 0, y: 0 };
    return sceneOf(this.#drawing, this.#profile, at, this.paper.style.measure, shows);
  });
  readonly shown = $derived.by((): Shown | null => {
    const { picture } = this.#given();
    if (picture) return { kind: 'picture', picture };
    return this.scene && { kind: 'scene', scene: this.scene };
  });
  readonly fieldAt = $derived.by(() => {
    const { viewport, window } = this.paper;
    return this.scene && this.editing ? fieldSpot(this.scene, viewport, window, this.editing) : null;
  });

  use(tool: Tool): void {
    this.tool = tool;
    this.firstEnd = null;
    this.editing = null;
    if (tool === 'land') this.paper.hold();
    else this.paper.release();
  }

  // Pointer

  readonly gestures: Gestures = {
    click: (at) => this.#click(at),
    double: (at) => this.#double(at),
    hover: (at) => {
      const hovered = at && (this.stage?.targetAt(at) ?? null);
      if (!sameChoice(hovered, this.hovered)) this.hovered = hovered;
    },
    pan: (dx, dy) => this.paper.pan(dx, dy),
    zoom: (at, factor) => this.paper.zoom(factor, at),
    grab: (at) => this.#grab(at),
    drag: (from, to) => this.#drag(from, to),
    release: () => this.#release(),
    cancel: () => this.#letGo(),
    panning: () => this.spaceHeld,
  };

  #click(at: Spot): void {
    const { onchoose } = this.#given();
    const target = this.stage?.targetAt(at) ?? null;
    this.pulled = [];
    if (this.tool === 'choose') return onchoose(target);
    const { x, y } = toDrawing(this.paper.viewport, at);
    if (this.tool === 'land') return this.#addLand(x, y);
    const station = target?.kind === 'station' ? target.id : this.#stationNear(at.x);
    if (station !== null) this.pickEnd(station);
  }

  #double(at: Spot): void {
    if (this.tool !== 'choose') return this.#click(at);
    const target = this.stage?.targetAt(at) ?? null;
    if (target) this.edit(target, at);
  }

  #stationNear(x: number): string | null {
    const near = (this.scene?.stations ?? [])
      .map((s) => ({ id: s.id, far: Math.abs(s.x + this.paper.viewport.x - x) }))
      .sort((a, b) => a.far - b.far)[0];
    return near && near.far < 16 ? near.id : null;
  }

  #grab(at: Spot): boolean {
    const target = this.tool === 'choose' ? this.stage?.targetAt(at) : null;
    if (target?.kind !== 'station') return false;
    const { part, onchoose } = this.#given();
    onchoose(target);
    this.editing = null;
    this.#grabbed = target.id;
    if (!this.#resting.places.loose.has(target.id))
      this.pulled = holdersOf(part, this.#resting.places, target.id);
    return true;
  }

  #drag(from: Spot, to: Spot): void {
    if (this.#grabbed === null || this.pulled.length > 0) return;
    const by = (to.x - from.x) / this.paper.scale;
    const { part } = this.#given();
    this.paper.hold();
    this.#moving = moveLoose(part, this.#resting.places, this.#grabbed, by);
  }

  #release(): void {
    const { onedit, onchoose, part } = this.#given();
    const [move, holder] = [this.#moving, this.pulled[0]];
    this.#letGo();
    if (move && move.edits.length > 0) return onedit(move);
    if (holder === undefined) return;
    const kind = part.lengths.some((l) => l.id === holder) ? 'length' : 'segment';
    onchoose({ kind, id: holder });
    this.edit({ kind, id: holder });
  }

  #letGo(): void {
    this.#grabbed = null;
    this.#moving = null;
  }

  // Changes

  #change(change: Transaction): void {
    if (change.edits.length > 0) this.#given().onedit(change);
  }

  #addLand(mm: number, radius: number): void {
    this.#change(addLand(this.#given().part, this.#resting.places, mm, radius));
  }

  /** A land where the keyboard stands: in the middle of the chosen segment, else on at the right end. */
  addLandHere(): void {
    const { part, chosen } = this.#given();
    const { places, tall } = this.#resting;
    const k = part.segments.findIndex((s) => chosen?.kind === 'segment' && s.id === chosen.id);
    const [a, b] = [places.at.get(part.faces[k]?.id ?? ''), places.at.get(part.faces[k + 1]?.id ?? '')];
    if (a !== undefined && b !== undefined) return this.#addLand((a + b) / 2, tall);
    this.#addLand(places.extent > 0 ? places.extent * 1.2 : 25, tall > 0.01 ? tall : 8);
  }

  /** An end of a length that is being drawn: the first, or the second, which opens the field for its size. */
  pickEnd(station: string): void {
    const first = this.firstEnd;
    if (first === null || first === station) {
      this.firstEnd = first === station ? null : station;
      return;
    }
    this.firstEnd = null;
    this.#open({ kind: 'new-length', from: first, to: station });
  }

  drop(): void {
    const { part, chosen, onchoose } = this.#given();
    const change = chosen && drop(part, chosen);
    if (!change || change.edits.length === 0) return;
    this.editing = null;
    onchoose(null);
    this.#change(change);
  }

  nudge(by: number): void {
    const { part, chosen } = this.#given();
    if (chosen?.kind !== 'station') return;
    this.paper.hold();
    const step = part.unit === 'in' ? 25.4 / 32 : 0.5;
    this.#change(moveLoose(part, this.#resting.places, chosen.id, by * step));
  }

  walk(way: Way): void {
    const { part, chosen, onchoose } = this.#given();
    onchoose(walk(part, this.#resting.places, chosen, way));
  }

  // Typing

  /** Opens the field for what is chosen; a double click on the right half of a taper's note means its right end. */
  edit(choice: Choice, at?: Spot): void {
    const { part, onchoose, chosen } = this.#given();
    const target = targetOf(part, choice);
    if (!target) return;
    if (!sameChoice(chosen, choice)) onchoose(choice);
    const segment = part.segments.find((s) => choice.kind === 'segment' && s.id === choice.id);
    const middle = this.scene && fieldSpot(this.scene, this.paper.viewport, this.paper.window, target).x;
    const right = segment?.form === 'taper' && at && middle !== null && at.x > middle;
    this.editing = right && target.kind === 'segment' ? { ...target, end: 'end' } : target;
  }

  accept(text: string, next: boolean): void {
    const target = this.editing;
    if (!target) return;
    const before = missingSizes(this.#given().part, this.#given().report);
    this.#change(setSize(this.#given().part, target, text));
    this.pulled = [];
    this.#open(next ? this.#after(target, before) : null);
  }

  #open(target: SizeTarget | null): void {
    this.editing = target;
    this.pulled = target?.kind === 'new-length' ? [target.from, target.to] : [];
    if (target && target.kind !== 'new-length') this.#given().onchoose({ kind: target.kind, id: target.id });
  }

  /** The next missing size after this one, or the first; null where none is missing. */
  next(target: SizeTarget | null): void {
    const { part, report } = this.#given();
    this.#open(this.#after(target, missingSizes(part, report)));
  }

  #after(target: SizeTarget | null, before: readonly SizeTarget[]): SizeTarget | null {
    const { part, report } = this.#given();
    const open = missingSizes(part, report).filter((one) => target === null || !sameTarget(one, target));
    const at = before.findIndex((one) => target !== null && sameTarget(one, target));
    const onward = before.slice(at + 1).find((one) => open.some((other) => sameTarget(one, other)));
    return onward ?? open[0] ?? null;
  }

  leave(): void {
    this.editing = null;
    this.pulled = [];
  }
}
