import type { Presentation } from '../core/outline/presentation.ts';
import { profilePicture, type View } from '../core/outline/profile-picture.ts';
import { cornersOf } from '../core/tracing/place.ts';
import type { BoardProps, Tool } from './board-props.ts';
import type { BoardStage, Shown } from './board-stage.ts';
import { sameChoice, type Choice } from './choice.ts';
import { Chosen } from './chosen.svelte.ts';
import { drawingOf } from './drawing.ts';
import { fieldSpot } from './field-spot.ts';
import { showsKind } from './fit.ts';
import { movedBy } from './hand.ts';
import { Paper } from './paper.svelte.ts';
import { Pointing } from './pointing.svelte.ts';
import { stretchAround } from './reach.ts';
import { ScanDesk } from './scan-desk.svelte.ts';
import { sceneOf } from './scene.ts';
import { targetOf, targetsOf } from './size-target.ts';
import { Typing } from './typing.svelte.ts';
import type { Spot } from './viewport.ts';
import { walk, type Way } from './walk.ts';
import { Work } from './work.ts';

/** What the board knows that is not in the part: the tool, what is in hand, what is being typed; the paper it lies on. */
export class Desk {
  readonly given: () => BoardProps;
  stage: BoardStage | null = null;
  readonly paper: Paper;
  readonly typing: Typing;
  readonly scan: ScanDesk;
  readonly chosen: Chosen;
  readonly pointing: Pointing;
  readonly work: Work;
  view = $state<View | null>(null);
  how = $state<Presentation>('plan');
  tool = $state<Tool>('choose');
  /** First end of a length that is being drawn. */
  firstEnd = $state<string | null>(null);
  /** What holds the face that was pulled. */
  pulledBy = $state.raw<readonly string[]>([]);
  spaceHeld = $state(false);
  /** Where the drawing was clicked last, mm along it: what is put on goes there. Null where something was chosen otherwise. */
  clickedMm: number | null = null;

  constructor(given: () => BoardProps) {
    this.given = given;
    this.chosen = new Chosen(given);
    this.pointing = new Pointing(this);
    this.work = new Work(this);
    this.typing = new Typing(given);
    this.paper = new Paper(() => {
      const { part, picture } = given();
      const key = picture ? 'picture' : JSON.stringify([part.title, part.drawing, part.unit]);
      return { key, picture: picture ?? null, drawing: this.drawing, besides: this.#besides };
    });
    this.scan = new ScanDesk(() => {
      const { part, chosen, tracing, onedit } = given();
      const { viewport, window } = this.paper;
      return { part, scan: tracing?.scan ?? null, view: viewport, window, chosen, onedit };
    });
  }

  /** All of a picture is in sight until it is locked; from then on what is drawn. */
  readonly #besides = $derived.by(() => {
    const scan = this.given().tracing?.scan;
    return scan && !scan.locked && !scan.hidden ? cornersOf(scan) : [];
  });
  /** Whether there is a picture to point at, where nothing is to fall in with round sizes. */
  readonly overPicture = $derived.by(() => {
    const scan = this.given().tracing?.scan;
    return scan?.known !== undefined && !scan.hidden;
  });

  readonly drawing = $derived.by(() => {
    const { part, report, unit } = this.given();
    return drawingOf(part, report, unit, this.how);
  });
  readonly pulled = $derived.by(() => [...this.pulledBy, ...this.typing.ends]);
  // Hatching keeps about its distance on the screen; by powers of two, so that most zooms keep the lines.
  readonly hatch = $derived.by(() => 2 ** Math.round(Math.log2(8 / this.paper.scale)));
  readonly #profile = $derived.by(() => {
    const { part, places } = this.drawing;
    const view = this.view === null ? {} : { view: this.view };
    return profilePicture(part, this.given().report, { places, hatch: this.hatch, ...view });
  });
  readonly scene = $derived.by(() => {
    if (!this.paper.style || this.given().picture) return null;
    const { lit } = this.given();
    const asked = [...lit, ...this.pulled, ...this.chosen.all.map(({ id }) => id)];
    const { whole, within } = this.paper;
    const { sides, spacing } = whole;
    // Drawn larger than it fits there is room for more; what is talked about is written in any case.
    const detail = this.paper.scale > 1.3 * whole.view.scale ? 'all' : whole.detail;
    const shows = ({ kind, id }: Choice) => showsKind(detail, kind) || asked.includes(id);
    const { lane } = this.pointing;
    const drawing = lane
      ? {
          ...this.drawing,
          dimensions: this.drawing.dimensions.map((d) => (d.id === lane.id ? { ...d, lane: lane.lane } : d)),
        }
      : this.drawing;
    const at = { scale: this.paper.scale, x: 0, y: 0 };
    const layout = { shows, sides, spacing, within };
    return sceneOf(drawing, this.#profile, at, this.paper.style.measure, layout);
  });
  /** Lengths were asked for in another way than the plan has them, and that way leaves them no room. */
  readonly lengthsHidden = $derived.by(
    () =>
      this.how !== 'plan' &&
      this.drawing.dimensions.length > 0 &&
      this.scene !== null &&
      this.scene.dimensions.length === 0,
  );
  readonly shown = $derived.by((): Shown | null => {
    const { picture } = this.given();
    if (picture) return { kind: 'picture', picture };
    const { act } = this.pointing;
    if (act?.kind === 'face') return { kind: 'scene', scene: act.lifted.rest };
    return this.scene && { kind: 'scene', scene: this.scene };
  });
  /** What is in the hand, drawn apart from what rests. */
  readonly carried = $derived.by(() => {
    const { act, by } = this.pointing;
    return act?.kind === 'face' ? movedBy(act.lifted, by) : null;
  });
  /** What enlarges; fetched once the drawing stands, as nothing is pointed at before. */
  glass = $state.raw<typeof import('./lens.ts') | null>(null);
  readonly lens = $derived.by(() => {
    const { chosen } = this.given();
    if (!this.scene || !this.glass || this.pointing.act?.kind === 'face') return null;
    const lens = this.glass.lensFor(this.scene, this.pointing.hovered ?? chosen);
    return lens && { ...lens, draw: this.glass.drawLens };
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

  /** The length that holds what was pulled is opened, to be changed or left. */
  offerHolder(): void {
    const holder = this.pulledBy[0];
    if (holder === undefined) return;
    const kind = this.given().part.lengths.some((l) => l.id === holder) ? 'length' : 'segment';
    this.given().onchoose({ kind, id: holder });
    this.edit({ kind, id: holder });
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

  walk(way: Way): void {
    const { part, chosen } = this.given();
    this.clickedMm = null;
    const next = walk(part, this.drawing.places, chosen, way);
    this.chosen.choose(next ? [next] : []);
  }

  /** Shows what is chosen as large as it fits. */
  zoomToChoice(): void {
    const stretch = this.scene && stretchAround(this.scene, this.chosen.all);
    if (stretch) this.paper.show(stretch);
  }

  /** Opens the field for what is chosen; a double click on the right half of a taper's note means its right end. */
  edit(choice: Choice, at?: Spot): void {
    const { part, onchoose, chosen } = this.given();
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
    this.pulledBy = [];
    this.typing.accept(text, next);
    if (this.tool === 'land') this.paper.makeRoom();
  }

  leave(): void {
    this.typing.leave();
    this.pulledBy = [];
  }
}
