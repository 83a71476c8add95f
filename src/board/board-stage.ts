import { Group } from 'konva/lib/Group.js';
import { Layer } from 'konva/lib/Layer.js';
import { Shape } from 'konva/lib/Shape.js';
import { Stage } from 'konva/lib/Stage.js';
import type { Picture } from '../core/outline/picture.ts';
import type { Choice } from './choice.ts';
import { drawPicture } from './draw-picture.ts';
import { drawScene, type Style } from './draw-scene.ts';
import type { Carried } from './hand.ts';
import { hitAreas, type HitArea } from './hit-areas.ts';
import { drawLens, type Lens } from './lens.ts';
import { drawLights, type Lights } from './lights.ts';
import { drawOverlay, noOverlay, type Overlay } from './overlay.ts';
import type { Scene } from './scene.ts';
import { ScanLayer } from './scan-layer.ts';
import type { Laid } from './tracing.ts';
import type { Spot, Viewport } from './viewport.ts';

/** What stands on the board: the drawing, or one picture of the bar while a holding is talked about. */
export type Shown =
  { readonly kind: 'scene'; readonly scene: Scene } | { readonly kind: 'picture'; readonly picture: Picture };

/** What is drawn above the drawing, and anew with every move of the pointer. */
export type Above = Lights & {
  /** What is in the hand. */
  readonly carried: Carried | null;
  readonly overlay: Overlay;
  readonly lens: Lens | null;
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
 * The canvas: the picture that is traced at the bottom, one layer that rests (drawing, dimensions, what can be hit) and
 * one that moves (what is lit). Shapes stay and read what is shown when they draw, so that a pan moves the layers and a
 * hover redraws only the light one.
 */
export class BoardStage {
  private readonly stage: Stage;
  private readonly under = new ScanLayer();
  private readonly resting = new Layer();
  private readonly moving = new Layer({ listening: false });
  private readonly hits = new Group();
  private areas: { readonly key: string; readonly shape: Shape }[] = [];
  private shown: Shown | null = null;
  private hitsFor: Shown | null = null;
  private hitScale = 0;
  private view: Viewport = { scale: 1, x: 0, y: 0 };
  private above: Above = nothingAbove;
  private style: Style;

  constructor(container: HTMLDivElement, style: Style) {
    this.style = style;
    this.stage = new Stage({ container, width: 1, height: 1 });
    const drawing = new Shape({
      listening: false,
      sceneFunc: (context) => this.draw(context._context),
    });
    const light = new Shape({ listening: false, sceneFunc: (context) => this.light(context._context) });
    // What can be hit is never seen: a thousand empty shapes need not be walked to draw nothing.
    this.hits.drawScene = () => this.hits;
    this.resting.add(drawing);
    this.resting.add(this.hits);
    this.moving.add(light);
    this.stage.add(this.under.layer, this.resting, this.moving);
  }

  resize(width: number, height: number): void {
    this.stage.size({ width, height });
  }

  /** Lays the picture that is traced under the drawing, or takes it away. */
  trace(laid: Laid | null): void {
    this.under.lay(laid);
    this.resting.batchDraw();
  }

  /** Colours, font and measure changed: everything is drawn anew. */
  restyle(style: Style): void {
    this.style = style;
    this.stage.batchDraw();
  }

  /** @param dragging - While something is dragged nothing is hit, so that need not be worked out. */
  show(shown: Shown, view: Viewport, dragging = false): void {
    this.shown = shown;
    this.view = view;
    this.under.look(shown.kind === 'scene' ? view : null);
    for (const layer of [this.resting, this.moving]) layer.position({ x: view.x, y: view.y });
    this.resting.listening(!dragging);
    if (!dragging && (this.hitsFor !== shown || this.hitScale !== view.scale)) {
      this.syncHits(shown.kind === 'scene' ? hitAreas(shown.scene) : []);
      [this.hitsFor, this.hitScale] = [shown, view.scale];
    }
    for (const layer of [this.resting, this.moving]) layer.batchDraw();
  }

  /** Draws the upper layer anew, and only that. */
  lay(above: Above): void {
    this.above = above;
    this.moving.batchDraw();
  }

  /** What lies under a place of the window. */
  targetAt(spot: Spot): Choice | null {
    const shape = this.stage.getIntersection(spot);
    return (shape?.getAttr('choice') as Choice | undefined) ?? null;
  }

  destroy(): void {
    this.stage.destroy();
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
    if (lens) drawLens(pen, lens, this.shown.scene, this.view, this.stage.size(), inks, font);
  }

  /** Shapes are kept by key; only where keys come, go or change places is their order laid anew. */
  private syncHits(areas: readonly HitArea[]): void {
    const same =
      areas.length === this.areas.length && areas.every(({ key }, i) => this.areas[i]?.key === key);
    if (!same) {
      const kept = new Map(this.areas.map(({ key, shape }) => [key, shape]));
      this.hits.removeChildren();
      this.areas = areas.map(({ key }) => ({ key, shape: kept.get(key) ?? hitShape() }));
      this.hits.add(...this.areas.map(({ shape }) => shape));
    }
    areas.forEach((area, i) => this.areas[i]?.shape.setAttrs({ choice: area.choice, area }));
  }
}

/** A shape that is never seen: it only answers what lies under a pointer. */
function hitShape(): Shape {
  return new Shape({
    fill: 'black',
    stroke: 'black',
    sceneFunc: () => undefined,
    hitFunc: (context, self) => {
      const { points, closed, reach } = self.getAttr('area') as HitArea;
      context.beginPath();
      for (let i = 0; i + 1 < points.length; i += 2) {
        if (i === 0) context.moveTo(points[0] ?? 0, points[1] ?? 0);
        else context.lineTo(points[i] ?? 0, points[i + 1] ?? 0);
      }
      if (closed) context.closePath();
      self.hitStrokeWidth(reach);
      if (closed) context.fillStrokeShape(self);
      else context.strokeShape(self);
    },
  });
}
