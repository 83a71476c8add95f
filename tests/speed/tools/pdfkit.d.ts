/** The part of pdfkit that the comparison uses; the package brings no types. Places in points from the top left corner. */
declare module 'pdfkit' {
  import type { Readable } from 'node:stream';
  type Element = { add(element: Element): Element; end(): void };
  export default class PDFDocument extends Readable {
    constructor(options: {
      autoFirstPage: boolean;
      compress: boolean;
      font: string;
      tagged: boolean;
      pdfVersion: '1.7';
    });
    struct(role: string, draw?: () => void): Element;
    addStructure(element: Element): this;
    markContent(role: string): this;
    endMarkedContent(): this;
    addPage(options: { size: [number, number]; margin: number }): this;
    fontSize(size: number): this;
    text(text: string, x: number, y: number, options: { lineBreak: boolean }): this;
    lineWidth(width: number): this;
    moveTo(x: number, y: number): this;
    lineTo(x: number, y: number): this;
    stroke(): this;
    end(): void;
  }
}
