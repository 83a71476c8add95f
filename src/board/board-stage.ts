import type { Picture } from '../core/outline/picture.ts';
import type { Choice } from './choice.ts';
import { drawPicture } from './draw-picture.ts';
import { drawScene, type Style } from './draw-scene.ts';
import type { Carried } from './hand.ts';
import { areaAt, areaNear, hitAreas, type HitArea } from './hit-areas.ts';
import { Layer } from './layer.ts';
import type { drawLens, Lens } from './lens.ts';
import { drawLights, type Lights } from './lights.ts';
import { drawOverlay, noOverlay, type Overlay } from './overlay.ts';
import type { Scene } from './scene.ts';
import { ScanLayer } from './scan-layer.ts';
import type { Laid } from './tracing.ts';
import type { Size, Spot, Viewport } from './viewport.ts';

/** What stands on the board: the drawing, or one picture of the bar while a holding is talked about. */
export type Shown =
  { readonly kind: 'scene'; readonly scene: Scene } | { readonly kind: 'picture'; readonly picture: Picture };

/** What is drawn above the drawing, and anew with every move of the pointer. */
export type Above = Lights & {
  /** What is in the hand. */
  readonly carried: Carried | null;
  readonly overlay: Overlay;
  /** The enlargement, with what draws it. */
  readonly lens: (Lens & { readonly draw: typeof drawLens }) | null;
};

const nothingAbove: Above = {
  chosen: [],
  hovered: null,
  lit: [],
  carried: null,
  overlay: noOverlay,
  lens: null,
};

/**
 * The canvas: one layer that rests (the drawing with its dimensions) and one that moves (what is lit); below them the
 * picture that is traced, where there is one. A layer reads what is shown when it draws, so that a hover redraws only the
 * light one.
 */
export class BoardStage {
  private readonly container: HTMLElement;
  private readonly under = new ScanLayer();
  private readonly resting = new Layer((pen) => this.draw(pen));
  private readonly moving = new Layer((pen) => this.light(pen));
  private size: Size = { width: 0, height: 0 };
  private shown: Shown | null = null;
  /** What can be hit of what is shown; null until somebody asks. */
  private areas: readonly HitArea[] | null = null;
  private view: Viewport = { scale: 1, x: 0, y: 0 };
  private above: Above = nothingAbove;
  private style: Style;

  constructor(container: HTMLElement, style: Style) {
    this.container = container;
    this.style = style;
    container.append(this.resting.canvas, this.moving.canvas);
  }

  resize(width: number, height: number): void {
    this.size = { width, height };
    for (const layer of [this.under.layer, this.resting, this.moving]) layer.resize(this.size);
  }

  /** Lays the picture that is traced under the drawing, or takes it away. */
  trace(laid: Laid | null): void {
    if (!laid && !this.under.shows) return;
    if (!this.under.layer.canvas.isConnected) this.container.prepend(this.under.layer.canvas);
    this.under.lay(laid);
    this.resting.ask();
  }

  /** Colours, font and measure changed: everything is drawn anew. */
  restyle(style: Style): void {
    this.style = style;
    this.resting.ask();
    this.moving.ask();
  }

  show(shown: Shown, view: Viewport): void {
    if (this.shown !== shown) this.areas = null;
    this.shown = shown;
    this.view = view;
    this.under.look(shown.kind === 'scene' ? view : null);
    this.resting.moveTo(view);
    this.moving.moveTo(view);
  }

  /** Draws the upper layer anew, and only that. */
  lay(above: Above): void {
    this.above = above;
    this.moving.ask();
  }

  /** What lies under a place of the window; what a finger means there, which hides what it is at. */
  targetAt({ x, y }: Spot, finger = false): Choice | null {
    if (this.shown?.kind !== 'scene') return null;
    this.areas ??= hitAreas(this.shown.scene);
    const find = finger ? areaNear : areaAt;
    return find(this.areas, { x: x - this.view.x, y: y - this.view.y })?.choice ?? null;
  }

  destroy(): void {
    for (const layer of [this.under.layer, this.resting, this.moving]) layer.destroy();
  }

  private draw(pen: CanvasRenderingContext2D): void {
    const { shown, view } = this;
    if (!shown) return;
    if (shown.kind === 'picture') return drawPicture(pen, shown.picture, view.scale, this.style.inks);
    this.drawScene(pen, shown.scene);
  }

  private drawScene(pen: CanvasRenderingContext2D, scene: Scene): void {
    // Metal lets the traced picture through, or there would be nothing left to trace.
    drawScene(pen, scene, this.style, this.under.shows ? 0.35 : 1);
  }

  private light(pen: CanvasRenderingContext2D): void {
    if (this.shown?.kind !== 'scene') return;
    const { inks, font, measure } = this.style;
    const { carried, overlay, lens } = this.above;
    if (carried) {
      pen.translate(carried.dx, 0);
      this.drawScene(pen, carried.rigid);
      drawLights(pen, carried.rigid, this.above, inks);
      pen.translate(-carried.dx, 0);
      this.drawScene(pen, carried.elastic);
    } else drawLights(pen, this.shown.scene, this.above, inks);
    drawOverlay(pen, overlay, inks, font, measure);
    if (lens) lens.draw(pen, lens, this.shown.scene, this.view, this.size, inks, font);
  }
}
