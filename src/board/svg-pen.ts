import type { Pen } from './pen.ts';

/** Pixels that the page counts to a millimetre: 96 to the inch. */
export const PX_PER_MM = 96 / 25.4;

/**
 * Line widths on paper, mm, by what the board draws a line with, px: wide lines twice the narrow ones, what a step cuts
 * wider still. Source: ISO 128-2, from memory: widths 0.25, 0.5, 0.7, narrow to wide as 1 to 2.
 */
const widthOnPaper = (px: number): number => (px >= 3 ? 0.7 : px >= 1.5 ? 0.5 : 0.25);

const number = (value: number): string => String(Number(value.toFixed(3)) || 0);
const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

/** Where the drawing lies, px of the page. */
export type SvgFrame = {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
};

/**
 * A pen that writes an SVG. It takes what a canvas takes, in pixels of the page; texts stay texts, each label one of
 * them, so that a size can be searched for and copied.
 */
export class SvgPen implements Pen {
  fillStyle: Pen['fillStyle'] = '#000';
  strokeStyle: Pen['strokeStyle'] = '#000';
  font = '';
  globalAlpha = 1;
  lineWidth = 1;
  lineCap: CanvasLineCap = 'butt';
  lineJoin: CanvasLineJoin = 'miter';
  #dash: readonly number[] = [];
  #path = '';
  #words: string[] | null = null;
  #lastX = NaN;
  readonly #out: string[] = [];
  readonly #ruler: CanvasRenderingContext2D;

  /** @param ruler - A canvas to measure texts on. */
  constructor(ruler: CanvasRenderingContext2D) {
    this.#ruler = ruler;
  }

  measureText(text: string): { readonly width: number } {
    this.#ruler.font = this.font;
    return this.#ruler.measureText(text);
  }

  beginPath(): void {
    this.#path = '';
  }
  closePath(): void {
    this.#path += 'Z';
  }
  moveTo(x: number, y: number): void {
    this.#path += `M${number(x)} ${number(y)}`;
  }
  lineTo(x: number, y: number): void {
    this.#path += `L${number(x)} ${number(y)}`;
  }
  quadraticCurveTo(cx: number, cy: number, x: number, y: number): void {
    this.#path += `Q${number(cx)} ${number(cy)} ${number(x)} ${number(y)}`;
  }
  arc(x: number, y: number, radius: number, from: number, to: number): void {
    const at = (angle: number) =>
      `${number(x + radius * Math.cos(angle))} ${number(y + radius * Math.sin(angle))}`;
    // Halves, as an arc to where it began would be none at all.
    const middle = (from + to) / 2;
    const r = number(radius);
    this.#path += `${this.#path === '' ? 'M' : 'L'}${at(from)}A${r} ${r} 0 0 1 ${at(middle)}A${r} ${r} 0 0 1 ${at(to)}`;
  }
  roundRect(x: number, y: number, width: number, height: number): void {
    this.#path += `M${number(x)} ${number(y)}h${number(width)}v${number(height)}h${number(-width)}Z`;
  }
  setLineDash(dash: Iterable<number>): void {
    this.#dash = [...dash];
  }

  fill(): void {
    if (this.#path)
      this.#put(`<path d="${this.#path}" fill="${this.#paint(this.fillStyle)}"${this.#faint()}/>`);
  }
  stroke(): void {
    if (!this.#path) return;
    const width = number(widthOnPaper(this.lineWidth) * PX_PER_MM);
    const dash = this.#dash.length > 0 ? ` stroke-dasharray="${this.#dash.map(number).join(' ')}"` : '';
    const join = this.lineJoin === 'miter' ? '' : ` stroke-linejoin="${this.lineJoin}"`;
    this.#put(
      `<path d="${this.#path}" fill="none" stroke="${this.#paint(this.strokeStyle)}" stroke-width="${width}"${dash}${join}${this.#faint()}/>`,
    );
  }
  fillRect(x: number, y: number, width: number, height: number): void {
    const [w, h] = [number(width), number(height)];
    this.#put(
      `<rect x="${number(x)}" y="${number(y)}" width="${w}" height="${h}" fill="${this.#paint(this.fillStyle)}"${this.#faint()}/>`,
    );
  }

  label(begins: boolean): void {
    this.#lastX = NaN;
    if (begins) this.#words = [];
    else this.#say();
  }

  fillText(text: string, x: number, y: number): void {
    const size = /([\d.]+)px/.exec(this.font)?.[1] ?? '13';
    // The solidus of a fraction and the thin space before it are for the eye; a search knows the plain ones.
    const plain = text.replaceAll('\u2044', '/').replaceAll('\u2009', ' ');
    const long = number(this.measureText(text).width);
    const words = this.#words;
    const piece = `<tspan x="${number(x)}" y="${number(y)}" font-size="${size}" textLength="${long}" lengthAdjust="spacingAndGlyphs">${escaped(plain)}</tspan>`;
    // Two limits stand one above the other; to a search they are two words.
    if (words) words.push(x === this.#lastX ? ` ${piece}` : piece);
    else this.#put(`<text fill="${this.#paint(this.fillStyle)}">${piece}</text>`);
    this.#lastX = x;
  }

  /**
   * The whole file.
   *
   * @param frame - What is shown; its size on paper is that of the page's pixels, so a millimetre of the part is one.
   */
  file({ left, top, right, bottom }: SvgFrame, title: string, family: string): string {
    const [width, height] = [right - left, bottom - top];
    const mm = (px: number) => `${number(px / PX_PER_MM)}mm`;
    const box = [left, top, width, height].map(number).join(' ');
    return [
      `<svg xmlns="http://www.w3.org/2000/svg" width="${mm(width)}" height="${mm(height)}" viewBox="${box}" font-family="${escaped(family)}" xml:space="preserve">`,
      `<title>${escaped(title)}</title>`,
      ...this.#out,
      '</svg>\n',
    ].join('\n');
  }

  #say(): void {
    const words = this.#words;
    this.#words = null;
    if (words && words.length > 0)
      this.#put(`<text fill="${this.#paint(this.fillStyle)}">${words.join('')}</text>`);
  }

  #put(element: string): void {
    this.#out.push(element);
  }

  #paint(style: Pen['fillStyle']): string {
    return escaped(String(style));
  }

  #faint(): string {
    return this.globalAlpha < 1 ? ` opacity="${number(this.globalAlpha)}"` : '';
  }
}
