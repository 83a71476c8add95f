import type { Picture } from '../core/outline/picture.ts';
import type { Style } from './draw-scene.ts';
import { fitted, type Fit } from './fit.ts';
import type { Drawing } from './drawing.ts';
import { ROOMY, type Scene } from './scene.ts';
import { fitPoints, panBy, zoomAt, type Size, type Spot, type Viewport } from './viewport.ts';

/** What lies on the paper. `key` tells one subject from another: a place chosen for one does not hold for the next. */
export type Subject = {
  readonly key: string;
  readonly picture: Picture | null;
  readonly drawing: Drawing;
  /** Places that are to be seen besides, mm: the corners of a picture that is being placed. */
  readonly besides: readonly Spot[];
};

type Bounds = Scene['bounds'];

/** A place of one's own choosing, by hand or because the board holds the paper still. */
type Kept = { readonly of: string; readonly view: Viewport; readonly by: 'hand' | 'board' };

/** What is written keeps so far from the edge of the window, px. */
const EDGE = 6;
/** From the farthest to the nearest look: so many times smaller and larger than all of it shown. */
const FARTHEST = 5;
const NEAREST = 400;
/** A part on held paper ends so far from the window's edge, px, or takes this share of the room anew. */
const MARGIN = 60;
const ROOM_TAKEN = 0.6;

/** Where one looks: all of what is shown, or where it was moved to. */
export class Paper {
  readonly #subject: () => Subject;
  /** Inks, font and measure; null until the font is there. */
  style = $state.raw<Style | null>(null);
  window = $state.raw<Size>({ width: 0, height: 0 });
  #kept = $state.raw<Kept | null>(null);

  constructor(subject: () => Subject) {
    this.#subject = subject;
  }

  readonly #key = $derived.by(() => this.#subject().key);
  readonly whole = $derived.by((): Fit => {
    const { picture, drawing, besides } = this.#subject();
    const all = { detail: 'all', sides: false, spacing: ROOMY } as const;
    if (!this.style || this.window.width === 0) return { ...all, view: { scale: 1, x: 0, y: 0 } };
    if (picture) return { ...all, view: fitPoints(pointsOf(picture), this.window) };
    if (besides.length > 0)
      return { ...all, view: fitPoints([...besides, ...cornersOf(drawing)], this.window) };
    return fitted(drawing, this.window, this.style.measure);
  });
  readonly viewport = $derived(this.#kept?.of === this.#key ? this.#kept.view : this.whole.view);
  readonly scale = $derived(this.viewport.scale);

  /**
   * The stretch in sight, px from the first face: what is chosen, or added to a paper that is held still, may not have
   * been reckoned with. Above the axis it is only told of a paper that shows all.
   */
  readonly within = $derived.by(() => {
    const { x, y } = this.viewport;
    const sides = { left: EDGE - x, right: this.window.width - EDGE - x };
    return this.#kept?.of === this.#key ? sides : { ...sides, top: EDGE - y };
  });

  /** Shows all again, and follows what changes. */
  fit(): void {
    this.#kept = null;
  }

  /** Holds the paper still while things on it move under the pointer. */
  hold(): void {
    if (this.#kept?.of !== this.#key) this.#keep(this.viewport, 'board');
  }

  /** Lets go of a paper that was only held. */
  release(): void {
    if (this.#kept?.by === 'board') this.fit();
  }

  /** Where what was added or typed has grown out of a paper that is only held, it is held again with room right of the part. */
  makeRoom(): void {
    if (this.#kept?.of !== this.#key || this.#kept.by !== 'board') return;
    const { places, tall } = this.#subject().drawing;
    const { width, height } = this.window;
    const { scale, x } = this.viewport;
    if (x + places.extent * scale <= width - MARGIN && 2 * tall * scale <= height - MARGIN) return;
    const across = (ROOM_TAKEN * (width - x)) / places.extent;
    this.#keep({ scale: Math.min(across, (ROOM_TAKEN * height) / (2 * tall)), x, y: height / 2 }, 'board');
  }

  pan(dx: number, dy: number): void {
    this.#keep(panBy(this.viewport, dx, dy), 'hand');
  }

  zoom(factor: number, at: Spot = { x: this.window.width / 2, y: this.window.height / 2 }): void {
    const { scale } = this;
    const whole = this.whole.view.scale;
    const [least, most] = [Math.min(whole / FARTHEST, scale), Math.max(whole * NEAREST, scale)];
    const to = Math.min(Math.max(scale * factor, least), most);
    this.#keep(zoomAt(this.viewport, at, to / scale), 'hand');
  }

  /** Shows a stretch of the paper, px at the present zoom from the drawing's origin, as large as it fits. */
  show({ left, right, top, bottom }: Bounds): void {
    const { width, height } = this.window;
    const [wide, tall] = [Math.max(right - left, 1), Math.max(bottom - top, 1)];
    const factor = Math.min((0.8 * width) / wide, (0.7 * height) / tall, 40);
    const scale = this.scale * factor;
    const [x, y] = [((left + right) / 2) * factor, ((top + bottom) / 2) * factor];
    this.#keep({ scale, x: width / 2 - x, y: height / 2 - y }, 'hand');
  }

  #keep(view: Viewport, by: Kept['by']): void {
    this.#kept = { of: this.#key, view, by };
  }
}

const cornersOf = ({ places, tall }: Drawing): Spot[] =>
  places.extent > 0
    ? [
        { x: 0, y: tall },
        { x: places.extent, y: -tall },
      ]
    : [];

function pointsOf(picture: Picture): Spot[] {
  return picture.items.flatMap((item) => {
    if (item.kind === 'text') return [{ x: item.x, y: item.y }];
    return item.points.flatMap((x, i) => (i % 2 === 0 ? [{ x, y: item.points[i + 1] ?? 0 }] : []));
  });
}
