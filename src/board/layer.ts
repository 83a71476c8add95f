import type { Size, Spot } from './viewport.ts';

/**
 * One canvas of the board, as large as its box and as fine as the screen. It is drawn in the frame after it was asked for,
 * once, however often it was asked.
 */
export class Layer {
  readonly canvas = document.createElement('canvas');
  readonly #pen = this.canvas.getContext('2d');
  readonly #draw: (pen: CanvasRenderingContext2D) => void;
  #at: Spot = { x: 0, y: 0 };
  #frame: number | null = null;

  /** @param draw - Draws all of it, px from its origin, y down. */
  constructor(draw: (pen: CanvasRenderingContext2D) => void) {
    this.#draw = draw;
    Object.assign(this.canvas.style, { position: 'absolute', inset: '0' });
  }

  /** Takes a size, px of the page. What was drawn is gone until the next frame. */
  resize({ width, height }: Size): void {
    const { canvas } = this;
    canvas.width = Math.round(width * devicePixelRatio);
    canvas.height = Math.round(height * devicePixelRatio);
    Object.assign(canvas.style, { width: `${width}px`, height: `${height}px` });
    this.ask();
  }

  /** Where its origin lies in the box, px. */
  moveTo({ x, y }: Spot): void {
    this.#at = { x, y };
    this.ask();
  }

  /** Has it drawn anew. */
  ask(): void {
    this.#frame ??= requestAnimationFrame(() => {
      this.#frame = null;
      this.#drawNow();
    });
  }

  destroy(): void {
    if (this.#frame !== null) cancelAnimationFrame(this.#frame);
    this.canvas.remove();
  }

  #drawNow(): void {
    const pen = this.#pen;
    if (!pen) return;
    const { width, height } = this.canvas;
    pen.clearRect(0, 0, width, height);
    pen.save();
    pen.scale(devicePixelRatio, devicePixelRatio);
    pen.translate(this.#at.x, this.#at.y);
    this.#draw(pen);
    pen.restore();
  }
}
