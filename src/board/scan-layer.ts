import { Layer } from './layer.ts';
import type { Laid } from './tracing.ts';
import type { Viewport } from './viewport.ts';

/** The lowest layer of the board: the picture that is traced. It is drawn anew only when it or the view changes. */
export class ScanLayer {
  readonly layer = new Layer((pen) => this.#draw(pen));
  #laid: Laid | null = null;
  #view: Viewport | null = null;

  constructor() {
    // The paper of the picture becomes that of the board; app.css turns it over in the dark.
    this.layer.canvas.classList.add('traced-picture');
  }

  get shows(): boolean {
    return this.#laid !== null;
  }

  lay(laid: Laid | null): void {
    if (laid?.scan === this.#laid?.scan && laid?.bitmap === this.#laid?.bitmap) return;
    this.#laid = laid;
    this.layer.ask();
  }

  /** @param view - Null while something else than the drawing is on the board. */
  look(view: Viewport | null): void {
    const was = this.#view;
    if (was?.scale === view?.scale && was?.x === view?.x && was?.y === view?.y) return;
    this.#view = view;
    if (this.#laid) this.layer.ask();
  }

  #draw(pen: CanvasRenderingContext2D): void {
    if (!this.#laid || !this.#view) return;
    const { scan, bitmap } = this.#laid;
    const { scale, x, y } = this.#view;
    pen.save();
    pen.globalAlpha = 1 - (scan.fade ?? 0);
    pen.imageSmoothingQuality = 'high';
    pen.translate(x, y);
    pen.rotate((-scan.angle * Math.PI) / 180);
    pen.scale(scale / scan.scale, scale / scan.scale);
    pen.translate(-scan.origin[0], -scan.origin[1]);
    pen.drawImage(bitmap, 0, 0, scan.width, scan.height);
    pen.restore();
  }
}
