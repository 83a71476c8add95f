import type { Snippet } from 'svelte';
import type { Unit } from '../core/lengths/length.ts';
import type { Picture } from '../core/outline/picture.ts';
import type { Presentation } from '../core/outline/presentation.ts';
import { profilePicture, type View } from '../core/outline/profile-picture.ts';
import { setLengthLane } from '../core/part/commands.ts';
import { applyAll, type Transaction } from '../core/part/edit.ts';
import { pastePiece, type Piece } from '../core/part/piece.ts';
import { addGroove, repeat } from '../core/part/rearrange.ts';
import type { Part } from '../core/part/types.ts';
import { cornersOf } from '../core/tracing/place.ts';
import type { Report } from '../core/report-types.ts';
import type { BoardStage, Shown } from './board-stage.ts';
import { sameChoice, type Choice } from './choice.ts';
import { addedBy, deedsFor, type Deed } from './deeds.ts';
import { drawingOf } from './drawing.ts';
import { addLand, dropAll, moveLoose, rough } from './edits.ts';
import { fieldSpot } from './field-spot.ts';
import { showsKind } from './fit.ts';
import type { Gestures, Held } from './gestures.ts';
import { faceOverlay, fallOf, lift, movedBy, outlineOf, outlineOverlay, type Act } from './hand.ts';
import { holdersOf } from './holders.ts';
import { lensFor } from './lens.ts';
import { noOverlay, type Overlay } from './overlay.ts';
import { Paper } from './paper.svelte.ts';
import { ScanDesk } from './scan-desk.svelte.ts';
import { laneAt, sceneOf } from './scene.ts';
import { targetOf, targetsOf, type SizeTarget } from './size-target.ts';
import { boxed, stretchAround } from './reach.ts';
import { traced } from './traced.ts';
import type { Tracing } from './tracing.ts';
import { Typing } from './typing.svelte.ts';
import { toDrawing, type Spot, type Viewport } from './viewport.ts';
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
  /** Gives the field of a size a list to complete from, where there is one. */
  completing?: (target: SizeTarget) => ((input: HTMLInputElement) => () => void) | undefined;
  /** The picture that is traced; left out where there is none to be had. */
  tracing?: Tracing;
  /** Laid over that picture, at the places it is given. */
  over?: Snippet<[Viewport]> | null;
};
export type Tool = 'choose' | 'land' | 'length';

/** What the board knows that is not in the part: the tool, what is in hand, what is being typed; the paper it lies on. */
export class Desk {
  readonly #given: () => BoardProps;
  stage: BoardStage | null = null;
  readonly paper: Paper;
  readonly typing: Typing;
  readonly scan: ScanDesk;
  view = $state<View | null>(null);
  how = $state<Presentation>('plan');
  tool = $state<Tool>('choose');
  hovered = $state.raw<Choice | null>(null);
  /** First end of a length that is being drawn. */
  firstEnd = $state<string | null>(null);
  /** What holds the face that was pulled. */
  #pulled = $state.raw<readonly string[]>([]);
  spaceHeld = $state(false);
  overlay = $state.raw<Overlay>(noOverlay);
  /** What is chosen besides, as long as the choice that it goes with stands. */
  #also = $state.raw<{ readonly to: Choice; readonly list: readonly Choice[] } | null>(null);
  #act = $state.raw<Act | null>(null);
  /** How far what is in hand was moved, mm. */
  #by = $state(0);
  #lane = $state.raw<{ readonly id: string; readonly lane: number } | null>(null);
  #clickedMm: number | null = null;

  constructor(given: () => BoardProps) {
    this.#given = given;
    this.typing = new Typing(given);
    this.paper = new Paper(() => {
      const { part, picture } = given();
      const key = picture ? 'picture' : JSON.stringify([part.title, part.drawing, part.unit]);
      return { key, picture: picture ?? null, drawing: this.drawing, besides: this.#besides };
    });
    this.scan = new ScanDesk(() => {
      const { part, chosen, tracing, onedit } = given();
      const station = chosen?.kind === 'station' ? chosen.id : null;
      const { viewport, window } = this.paper;
      return { part, scan: tracing?.scan ?? null, view: viewport, window, station, onedit };
    });
  }

  /** All of a picture is in sight until it is locked; from then on what is drawn. */
  readonly #besides = $derived.by(() => {
    const scan = this.#given().tracing?.scan;
    return scan && !scan.locked && !scan.hidden ? cornersOf(scan) : [];
  });
  /** Whether there is a picture to point at, where nothing is to fall in with round sizes. */
  readonly #overPicture = $derived.by(() => {
    const scan = this.#given().tracing?.scan;
    return scan?.known !== undefined && !scan.hidden;
  });

  readonly drawing = $derived.by(() => {
    const { part, report, unit } = this.#given();
    return drawingOf(part, report, unit, this.how);
  });
  readonly dragging = $derived(this.#act?.kind === 'face');
  /** What is chosen besides the one choice that everybody knows. */
  readonly also = $derived.by((): readonly Choice[] => {
    const { chosen } = this.#given();
    return this.#also && sameChoice(this.#also.to, chosen) ? this.#also.list : [];
  });
  readonly choices = $derived.by((): readonly Choice[] => {
    const { chosen } = this.#given();
    return chosen ? [chosen, ...this.also] : [];
  });
  readonly deeds = $derived.by(() => {
    const { chosen } = this.#given();
    return this.also.length > 0 ? [] : deedsFor(this.drawing, chosen, this.#clickedMm);
  });
  readonly pulled = $derived.by(() => [...this.#pulled, ...this.typing.ends]);
  // Hatching keeps about its distance on the screen; by powers of two, so that most zooms keep the lines.
  readonly #hatch = $derived.by(() => 2 ** Math.round(Math.log2(8 / this.paper.scale)));
  readonly #profile = $derived.by(() => {
    const { part, places } = this.drawing;
    const view = this.view === null ? {} : { view: this.view };
    return profilePicture(part, this.#given().report, { places, hatch: this.#hatch, ...view });
  });
  readonly scene = $derived.by(() => {
    if (!this.paper.style || this.#given().picture) return null;
    const { lit } = this.#given();
    const asked = [...lit, ...this.pulled, ...this.choices.map(({ id }) => id)];
    const { whole } = this.paper;
    // Drawn larger than it fits there is room for more; what is talked about is written in any case.
    const detail = this.paper.scale > 1.3 * whole.view.scale ? 'all' : whole.detail;
    const shows = ({ kind, id }: Choice) => showsKind(detail, kind) || asked.includes(id);
    const lane = this.#lane;
    const drawing = lane
      ? {
          ...this.drawing,
          dimensions: this.drawing.dimensions.map((d) => (d.id === lane.id ? { ...d, lane: lane.lane } : d)),
        }
      : this.drawing;
    const at = { scale: this.paper.scale, x: 0, y: 0 };
    return sceneOf(drawing, this.#profile, at, this.paper.style.measure, { shows, sides: whole.sides });
  });
  readonly shown = $derived.by((): Shown | null => {
    const { picture } = this.#given();
    if (picture) return { kind: 'picture', picture };
    if (this.#act?.kind === 'face') return { kind: 'scene', scene: this.#act.lifted.rest };
    return this.scene && { kind: 'scene', scene: this.scene };
  });
  /** What is in the hand, drawn apart from what rests. */
  readonly carried = $derived.by(() =>
    this.#act?.kind === 'face' ? movedBy(this.#act.lifted, this.#by) : null,
  );
  readonly lens = $derived.by(() => {
    const { chosen } = this.#given();
    return this.scene && !this.dragging ? lensFor(this.scene, this.hovered ?? chosen) : null;
  });
  readonly fieldAt = $derived.by(() => {
    const { viewport, window } = this.paper;
    const { target } = this.typing;
    return this.scene && target ? fieldSpot(this.scene, viewport, window, target) : null;
  });

  use(tool: Tool): void {
    this.tool = tool;
    this.firstEnd = null;
    this.typing.leave();
    if (tool === 'land') this.paper.hold();
    else this.paper.release();
  }

  // Pointer

  readonly gestures: Gestures = {
    click: (at, held) => this.#click(at, held),
    double: (at) => this.#double(at),
    hover: (at) => {
      const hovered = at && (this.stage?.targetAt(at) ?? null);
      if (!sameChoice(hovered, this.hovered)) this.hovered = hovered;
    },
    pan: (dx, dy) => this.paper.pan(dx, dy),
    zoom: (at, factor) => this.paper.zoom(factor, at),
    grab: (at, held) => this.#grab(at, held),
    drag: (from, to, held) => this.#drag(from, to, held),
    release: (from, to, held) => this.#release(from, to, held),
    cancel: () => this.#letGo(),
    panning: () => this.spaceHeld,
  };

  #click(at: Spot, { shift }: Held): void {
    if (this.#given().picture) return;
    if (this.scan.picking) return this.scan.pick(at);
    const target = this.stage?.targetAt(at) ?? null;
    this.#pulled = [];
    const { x, y } = toDrawing(this.paper.viewport, at);
    this.#clickedMm = x;
    if (this.tool === 'choose') return shift ? this.#addChoice(target) : this.choose(target ? [target] : []);
    if (this.tool === 'land') return this.#addLand(x, y);
    const station = target?.kind === 'station' ? target.id : this.#stationNear(at.x);
    if (station !== null) this.pickEnd(station);
  }

  #double(at: Spot): void {
    if (this.tool !== 'choose' || this.scan.picking)
      return this.#click(at, { shift: false, free: false, finger: false });
    const target = this.stage?.targetAt(at) ?? null;
    if (target) this.edit(target, at);
  }

  #addChoice(target: Choice | null): void {
    if (!target) return;
    const has = this.choices.some((c) => sameChoice(c, target));
    this.choose(has ? this.choices.filter((c) => !sameChoice(c, target)) : [...this.choices, target]);
  }

  /** Chooses several things; the first is the one that the tables open. */
  choose([first, ...list]: readonly Choice[]): void {
    this.#also = first ? { to: first, list } : null;
    this.#given().onchoose(first ?? null);
  }

  #stationNear(x: number): string | null {
    const near = (this.scene?.stations ?? [])
      .map((s) => ({ id: s.id, far: Math.abs(s.x + this.paper.viewport.x - x) }))
      .sort((a, b) => a.far - b.far)[0];
    return near && near.far < 16 ? near.id : null;
  }

  #grab(at: Spot, held: Held): boolean {
    if (this.#given().picture || this.scan.picking) return false;
    this.typing.leave();
    this.#act = this.#actAt(at, held);
    if (this.#act?.kind === 'outline') this.paper.hold();
    return this.#act !== null;
  }

  #actAt(at: Spot, { finger, shift }: Held): Act | null {
    const target = this.stage?.targetAt(at) ?? null;
    if (this.tool === 'land') return { kind: 'outline', from: toDrawing(this.paper.viewport, at).x };
    if (this.tool === 'length') {
      const from = this.#stationNear(at.x);
      return from === null ? null : { kind: 'length', from };
    }
    if (target?.kind === 'station') return this.#grabFace(target.id);
    if (target?.kind === 'length' && this.#given().part.lengths.some(({ id }) => id === target.id)) {
      this.#given().onchoose(target);
      return { kind: 'lane', id: target.id };
    }
    return finger ? null : { kind: 'box', adds: shift };
  }

  #grabFace(station: string): Act | null {
    const { part, report, onchoose, unit } = this.#given();
    onchoose({ kind: 'station', id: station });
    if (!this.drawing.places.loose.has(station)) {
      this.#pulled = holdersOf(part, this.drawing.places, station);
      return { kind: 'held' };
    }
    if (!this.scene) return null;
    this.paper.hold();
    this.#by = 0;
    const lifted = lift(this.scene, report, station, { hatch: this.#hatch, view: this.view, unit });
    return { kind: 'face', station, lifted };
  }

  #drag(from: Spot, to: Spot, { free }: Held): void {
    const act = this.#act;
    const { x, y } = this.paper.viewport;
    const here = { x: to.x - x, y: to.y - y };
    if (act?.kind === 'face') {
      const snap = fallOf(
        act.lifted,
        act.station,
        (to.x - from.x) / this.paper.scale,
        free || this.#overPicture,
      );
      if (snap.mm !== this.#by) this.#by = snap.mm;
      this.overlay = faceOverlay(act.station, act.lifted, snap, here, this.paper.scale);
    } else if (act?.kind === 'lane') {
      const lane = laneAt(this.drawing.tall * this.paper.scale, here.y);
      if (this.#lane?.lane !== lane) this.#lane = { id: act.id, lane };
    } else if (act?.kind === 'box') {
      const frame = { x0: from.x - x, y0: from.y - y, x1: here.x, y1: here.y, solid: false };
      this.overlay = { ...noOverlay, frame };
    } else if (act?.kind === 'outline') {
      const outline = this.#outline(from, to, free);
      this.overlay = outlineOverlay(outline, here, this.paper.scale);
    }
  }

  #outline(from: Spot, to: Spot, free: boolean) {
    const { viewport, scale } = this.paper;
    const ends = [toDrawing(viewport, from), toDrawing(viewport, to)] as const;
    return outlineOf(this.drawing, this.#given().unit, scale, ...ends, free || this.#overPicture);
  }

  #release(from: Spot, to: Spot, held: Held): void {
    const act = this.#act;
    const [by, lane] = [this.#by, this.#lane];
    this.#letGo();
    const { part } = this.#given();
    if (act?.kind === 'face') {
      this.#change(this.#traced(moveLoose(part, this.drawing.places, act.station, by)));
    } else if (act?.kind === 'held') this.#offerHolder();
    else if (act?.kind === 'lane' && lane) this.#change(setLengthLane(part, lane.id, lane.lane));
    else if (act?.kind === 'box' && this.scene) {
      const inside = boxed(this.scene, this.paper.viewport, from, to);
      this.choose(
        act.adds
          ? [...this.choices, ...inside.filter((c) => !this.choices.some((o) => sameChoice(c, o)))]
          : inside,
      );
    } else if (act?.kind === 'outline') this.#drawnOut(from, to, held.free);
    else if (act?.kind === 'length') {
      const station = this.#stationNear(to.x);
      this.firstEnd = act.from;
      if (station !== null && station !== act.from) this.pickEnd(station);
    }
  }

  /** The length that holds what was pulled is opened, to be changed or left. */
  #offerHolder(): void {
    const holder = this.#pulled[0];
    if (holder === undefined) return;
    const kind = this.#given().part.lengths.some((l) => l.id === holder) ? 'length' : 'segment';
    this.#given().onchoose({ kind, id: holder });
    this.edit({ kind, id: holder });
  }

  #letGo(): void {
    this.#act = null;
    this.#lane = null;
    this.overlay = noOverlay;
  }

  // Changes

  #change(change: Transaction): void {
    if (change.edits.length > 0) this.#given().onedit(change);
  }

  /** What was pointed at over a picture counts as traced. */
  #traced(change: Transaction): Transaction {
    const { part, report } = this.#given();
    return traced(part, report.chains, change, this.paper.scale);
  }

  /** Right of the part a land is added as far as it was drawn out; inside a land a groove is. */
  #drawnOut(from: Spot, to: Spot, free: boolean): void {
    const { part } = this.#given();
    const { places } = this.drawing;
    const outline = this.#outline(from, to, free);
    if (outline.to > places.extent || part.segments.length === 0)
      return this.#addLand(outline.to, outline.radius);
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

  #addLand(mm: number, radius: number): void {
    const { part } = this.#given();
    const onward = mm > this.drawing.places.extent || part.segments.length === 0;
    this.#change(this.#traced(addLand(part, this.drawing.places, mm, radius)));
    if (!onward) return;
    const now = this.#given().part;
    const [from, to] = [now.faces.at(-2)?.id ?? '', now.faces.at(-1)?.id ?? ''];
    const size: SizeTarget = { kind: 'segment', id: now.segments.at(-1)?.id ?? '', end: 'start' };
    this.typing.openAll([size], { kind: 'new-length', from, to });
  }

  /** A land where the keyboard stands: in the middle of the chosen segment, else on at the right end. */
  addLandHere(): void {
    const { part, chosen } = this.#given();
    const { places, tall } = this.drawing;
    const k = part.segments.findIndex((s) => chosen?.kind === 'segment' && s.id === chosen.id);
    const [a, b] = [places.at.get(part.faces[k]?.id ?? ''), places.at.get(part.faces[k + 1]?.id ?? '')];
    if (a !== undefined && b !== undefined) return this.#addLand((a + b) / 2, tall);
    this.#addLand(places.extent > 0 ? places.extent * 1.2 : 25, tall > 0.01 ? tall : 8);
  }

  /** Does a deed; what it put into the part is chosen, and its first size opened to be typed over. */
  run({ does }: Deed): void {
    const { part } = this.#given();
    const change = does(part);
    if (change.edits.length === 0) return;
    const added = addedBy(part, applyAll(part, change));
    const kept = this.choices;
    this.#change(change);
    if (!added) return this.#reopen(kept);
    this.#given().onchoose(added);
    const now = this.#given().part;
    const crossing = now.crossings.find((x) => added.kind === 'crossing' && x.id === added.id);
    // What runs from point to point is as long as they are apart.
    const long: SizeTarget | null =
      crossing && 'to' in crossing ? { kind: 'new-length', from: crossing.at, to: crossing.to } : null;
    this.typing.openAll(targetsOf(now, added), long);
  }

  /** A segment that became something else wants other sizes. */
  #reopen([chosen]: readonly Choice[]): void {
    const { part } = this.#given();
    const targets = chosen?.kind === 'segment' ? targetsOf(part, chosen) : [];
    const form = part.segments.find((s) => s.id === chosen?.id)?.form;
    if (form === 'taper' || form === 'thread') this.typing.openAll(targets);
  }

  repeat(count: number, pitch: string): void {
    this.#change(repeat(this.#given().part, this.chosenSegments, count, pitch));
  }

  /** Puts a piece right of what is chosen, else at the right end; it is then what is chosen. */
  paste(piece: Piece): void {
    const { part } = this.#given();
    const had = new Set(part.segments.map(({ id }) => id));
    this.#change(pastePiece(part, piece, this.chosenSegments.at(-1) ?? null));
    const fresh = this.#given().part.segments.filter(({ id }) => !had.has(id));
    this.choose(fresh.map(({ id }) => ({ kind: 'segment', id })));
  }

  get chosenSegments(): readonly string[] {
    return this.choices.filter(({ kind }) => kind === 'segment').map(({ id }) => id);
  }

  /** An end of a length that is being drawn: the first, or the second, which opens the field for its size. */
  pickEnd(station: string): void {
    const first = this.firstEnd;
    if (first === null || first === station) {
      this.firstEnd = first === station ? null : station;
      return;
    }
    this.firstEnd = null;
    this.typing.open({ kind: 'new-length', from: first, to: station });
  }

  drop(): void {
    const { part } = this.#given();
    const change = dropAll(part, this.choices);
    if (change.edits.length === 0) return;
    this.typing.leave();
    this.choose([]);
    this.#change(change);
  }

  /** By a step of the rule: a loose face along the axis, or a length to another lane (up is nearer to the part). */
  nudge(way: Way): void {
    const { part, chosen, unit } = this.#given();
    if (chosen?.kind === 'station' && (way === 'left' || way === 'right')) {
      this.paper.hold();
      const step = unit === 'in' ? 25.4 / 32 : 0.5;
      const moved = moveLoose(part, this.drawing.places, chosen.id, way === 'left' ? -step : step);
      this.#change(this.#traced(moved));
    } else if (chosen?.kind === 'length' && (way === 'up' || way === 'down')) {
      const now = this.scene?.dimensions.find(({ id }) => id === chosen.id)?.inLane ?? 0;
      this.#change(setLengthLane(part, chosen.id, Math.max(0, now + (way === 'up' ? -1 : 1))));
    }
  }

  walk(way: Way): void {
    const { part, chosen } = this.#given();
    this.#clickedMm = null;
    const next = walk(part, this.drawing.places, chosen, way);
    this.choose(next ? [next] : []);
  }

  /** Shows what is chosen as large as it fits. */
  zoomToChoice(): void {
    const stretch = this.scene && stretchAround(this.scene, this.choices);
    if (stretch) this.paper.show(stretch);
  }

  // Typing

  /** Opens the field for what is chosen; a double click on the right half of a taper's note means its right end. */
  edit(choice: Choice, at?: Spot): void {
    const { part, onchoose, chosen } = this.#given();
    const worked = this.drawing.dimensions.find(
      (d) => !d.given && choice.kind === 'length' && d.id === choice.id,
    );
    if (worked) return this.typing.open({ kind: 'new-length', from: worked.from, to: worked.to });
    const target = targetOf(part, choice);
    if (!target) return;
    if (!sameChoice(chosen, choice)) onchoose(choice);
    const segment = part.segments.find((s) => choice.kind === 'segment' && s.id === choice.id);
    const middle = this.scene && fieldSpot(this.scene, this.paper.viewport, this.paper.window, target).x;
    const right = segment?.form === 'taper' && at && middle !== null && at.x > middle;
    if (right && target.kind === 'segment') return this.typing.open({ ...target, end: 'end' });
    this.typing.openAll(
      choice.kind === 'segment' && segment?.form !== 'taper' ? [target] : targetsOf(part, choice),
    );
  }

  accept(text: string, next: boolean): void {
    this.#pulled = [];
    this.typing.accept(text, next);
  }

  leave(): void {
    this.typing.leave();
    this.#pulled = [];
  }
}
