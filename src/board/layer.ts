import type { Size, Spot } from './viewport.ts';

/**
 * One canvas of the board, as large as its box and as fine as the screen. It is drawn in the frame after it was asked for,
 * once, however often it was asked.
 */
export class Layer {
  readonly canvas = document.createElement('canvas');
  readonly #pen = this.canvas.getContext('2d');
  readonly #draw: (pen: CanvasRenderingContext2D) => void;
  #size: Size = { width: 0, height: 0 };
  #at: Spot = { x: 0, y: 0 };
  #frame: number | null = null;

  /** @param draw - Draws all of it, px from its origin, y down. */
  constructor(draw: (pen: CanvasRenderingContext2D) => void) {
    this.#draw = draw;
    Object.assign(this.canvas.style, { position: 'absolute', inset: '0' });
  }

  /** Takes a size, px of the page. What was drawn stands until the next frame. */
  resize(size: Size): void {
    this.#size = size;
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
    this.#fitCanvas();
    pen.clearRect(0, 0, this.canvas.width, this.canvas.height);
    pen.save();
    pen.scale(devicePixelRatio, devicePixelRatio);
    pen.translate(this.#at.x, this.#at.y);
    this.#draw(pen);
    pen.restore();
  }

  /** A canvas that is given a size loses what is on it, so that is left to the moment when it is drawn anew. */
  #fitCanvas(): void {
    const { canvas } = this;
    const { width, height } = this.#size;
    const [across, down] = [Math.round(width * devicePixelRatio), Math.round(height * devicePixelRatio)];
    // A page that is zoomed keeps its dots, and has fewer px.
    Object.assign(canvas.style, { width: `${width}px`, height: `${height}px` });
    if (canvas.width !== across || canvas.height !== down) [canvas.width, canvas.height] = [across, down];
  }
}
