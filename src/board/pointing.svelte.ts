import { setLengthLane } from '../core/part/commands.ts';
import { sameChoice, type Choice } from './choice.ts';
import type { Desk } from './desk.svelte.ts';
import { moveLoose } from './edits.ts';
import type { Gestures, Held } from './gestures.ts';
import { faceOverlay, fallOf, lift, outlineOf, outlineOverlay, type Act } from './hand.ts';
import { holdersOf } from './holders.ts';
import { noOverlay, type Overlay } from './overlay.ts';
import { boxed } from './reach.ts';
import { laneAt } from './scene.ts';
import { toDrawing, type Spot } from './viewport.ts';

/** What the pointer is at: what it hovers over, what it has taken hold of and how far that was moved. */
export class Pointing {
  readonly #desk: Desk;
  hovered = $state.raw<Choice | null>(null);
  overlay = $state.raw<Overlay>(noOverlay);
  act = $state.raw<Act | null>(null);
  /** How far what is in hand was moved, mm. */
  by = $state(0);
  /** A length that is dragged to another lane. */
  lane = $state.raw<{ readonly id: string; readonly lane: number } | null>(null);

  constructor(desk: Desk) {
    this.#desk = desk;
  }

  readonly gestures: Gestures = {
    click: (at, held) => this.#click(at, held),
    double: (at, held) => this.#double(at, held),
    rest: (at) => this.#rest(at),
    hover: (at) => {
      const hovered = at && (this.#desk.stage?.targetAt(at) ?? null);
      if (!sameChoice(hovered, this.hovered)) this.hovered = hovered;
    },
    pan: (dx, dy) => this.#desk.paper.pan(dx, dy),
    zoom: (at, factor) => this.#desk.paper.zoom(factor, at),
    grab: (at, held) => this.#grab(at, held),
    drag: (from, to, held) => this.#drag(from, to, held),
    release: (from, to, held) => this.#release(from, to, held),
    cancel: () => {
      this.#desk.pulledBy = [];
      this.#letGo();
    },
    panning: () => this.#desk.spaceHeld,
  };

  #click(at: Spot, { shift, finger }: Held): void {
    if (this.#desk.given().picture) return;
    if (this.#desk.scan.picking) return this.#desk.scan.pick(at);
    const target = this.#desk.stage?.targetAt(at, finger) ?? null;
    this.#desk.pulledBy = [];
    const { x, y } = toDrawing(this.#desk.paper.viewport, at);
    this.#desk.clickedMm = x;
    if (this.#desk.tool === 'choose') return this.#choose(target, shift);
    if (this.#desk.tool === 'land') return this.#desk.work.addLand(x, y);
    const station = target?.kind === 'station' ? target.id : this.#stationNear(at.x);
    if (station !== null) this.#desk.pickEnd(station);
  }

  /** A finger that rests chooses besides, as Shift does; moved on from there it draws a box. */
  #rest(at: Spot): boolean {
    if (this.#desk.tool !== 'choose' || this.#desk.given().picture || this.#desk.scan.picking) return false;
    const target = this.#desk.stage?.targetAt(at, true) ?? null;
    if (target) this.#choose(target, true);
    return true;
  }

  #double(at: Spot, held: Held): void {
    if (this.#desk.tool !== 'choose' || this.#desk.scan.picking)
      return this.#click(at, { ...held, shift: false, free: false });
    const target = this.#desk.stage?.targetAt(at, held.finger) ?? null;
    if (target) this.#desk.edit(target, at);
  }

  #stationNear(x: number): string | null {
    const near = (this.#desk.scene?.stations ?? [])
      .map((s) => ({ id: s.id, far: Math.abs(s.x + this.#desk.paper.viewport.x - x) }))
      .sort((a, b) => a.far - b.far)[0];
    return near && near.far < 16 ? near.id : null;
  }

  #grab(at: Spot, held: Held): boolean {
    if (this.#desk.given().picture || this.#desk.scan.picking) return false;
    this.#desk.typing.leave();
    this.act = this.#actAt(at, held);
    if (this.act?.kind === 'outline') this.#desk.paper.hold();
    return this.act !== null;
  }

  #actAt(at: Spot, { finger, shift }: Held): Act | null {
    const target = this.#desk.stage?.targetAt(at, finger) ?? null;
    if (this.#desk.tool === 'land')
      return { kind: 'outline', from: toDrawing(this.#desk.paper.viewport, at).x };
    if (this.#desk.tool === 'length') {
      const from = this.#stationNear(at.x);
      return from === null ? null : { kind: 'length', from };
    }
    if (target?.kind === 'station') return this.#grabFace(target.id);
    if (target?.kind === 'length' && this.#desk.given().part.lengths.some(({ id }) => id === target.id)) {
      this.#desk.given().onchoose(target);
      return { kind: 'lane', id: target.id };
    }
    return finger ? null : { kind: 'box', adds: shift };
  }

  #grabFace(station: string): Act | null {
    const { part, report, onchoose, unit } = this.#desk.given();
    onchoose({ kind: 'station', id: station });
    if (!this.#desk.drawing.places.loose.has(station)) {
      this.#desk.pulledBy = holdersOf(part, this.#desk.drawing.places, station);
      return { kind: 'held' };
    }
    if (!this.#desk.scene) return null;
    this.#desk.paper.hold();
    this.by = 0;
    const lifted = lift(this.#desk.scene, report, station, {
      hatch: this.#desk.hatch,
      view: this.#desk.view,
      unit,
    });
    return { kind: 'face', station, lifted };
  }

  #drag(from: Spot, to: Spot, { free }: Held): void {
    const act = this.act;
    const { x, y } = this.#desk.paper.viewport;
    const here = { x: to.x - x, y: to.y - y };
    if (act?.kind === 'face') {
      const snap = fallOf(
        act.lifted,
        act.station,
        (to.x - from.x) / this.#desk.paper.scale,
        free || this.#desk.overPicture,
      );
      if (snap.mm !== this.by) this.by = snap.mm;
      this.overlay = faceOverlay(act.station, act.lifted, snap, here, this.#desk.paper.scale);
    } else if (act?.kind === 'lane') {
      const { scale, whole } = this.#desk.paper;
      const lane = laneAt(this.#desk.drawing.tall * scale, here.y, whole.spacing);
      if (this.lane?.lane !== lane) this.lane = { id: act.id, lane };
    } else if (act?.kind === 'box') {
      const frame = { x0: from.x - x, y0: from.y - y, x1: here.x, y1: here.y, solid: false };
      this.overlay = { ...noOverlay, frame };
    } else if (act?.kind === 'outline') {
      const outline = this.#outline(from, to, free);
      this.overlay = outlineOverlay(outline, here, this.#desk.paper.scale);
    }
  }

  #outline(from: Spot, to: Spot, free: boolean) {
    const { viewport, scale } = this.#desk.paper;
    const ends = [toDrawing(viewport, from), toDrawing(viewport, to)] as const;
    return outlineOf(
      this.#desk.drawing,
      this.#desk.given().unit,
      scale,
      ...ends,
      free || this.#desk.overPicture,
    );
  }

  #release(from: Spot, to: Spot, held: Held): void {
    const act = this.act;
    const [by, lane] = [this.by, this.lane];
    this.#letGo();
    const { part } = this.#desk.given();
    if (act?.kind === 'face') {
      this.#desk.work.moved(moveLoose(part, this.#desk.drawing.places, act.station, by));
    } else if (act?.kind === 'held') this.#desk.offerHolder();
    else if (act?.kind === 'lane' && lane) this.#desk.work.change(setLengthLane(part, lane.id, lane.lane));
    else if (act?.kind === 'box' && this.#desk.scene) {
      const inside = boxed(this.#desk.scene, this.#desk.paper.viewport, from, to);
      if (act.adds) this.#desk.chosen.add(inside);
      else this.#desk.chosen.choose(inside);
    } else if (act?.kind === 'outline') this.#desk.work.drawnOut(this.#outline(from, to, held.free));
    else if (act?.kind === 'length') {
      const station = this.#stationNear(to.x);
      this.#desk.firstEnd = act.from;
      if (station !== null && station !== act.from) this.#desk.pickEnd(station);
    }
  }

  #letGo(): void {
    this.act = null;
    this.lane = null;
    this.overlay = noOverlay;
  }

  #choose(target: Choice | null, more: boolean): void {
    const { chosen } = this.#desk;
    if (!more) chosen.choose(target ? [target] : []);
    else if (target) chosen.toggle(target);
  }
}
