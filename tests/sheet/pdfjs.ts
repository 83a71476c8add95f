import { getDocument, VerbosityLevel, type PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** Reads PDF files back with pdf.js, which had no part in making them either. */

/** A text with its box, in points from the top left corner, between the font's ascent and descent. */
export type TextBox = { text: string; size: number; x0: number; y0: number; x1: number; y1: number };
/** An element of the tagged structure as the reader gives it. */
export type Node = { role: string; alt?: string; children: (Node | { type: string; id: string })[] };
export type ReadPage = { width: number; height: number; boxes: TextBox[]; structure: Node | null };

export async function withPdf<T>(
  pdf: Uint8Array,
  use: (document: PDFDocumentProxy) => Promise<T>,
): Promise<T> {
  const task = getDocument({
    data: pdf.slice(),
    isEvalSupported: false,
    disableFontFace: true,
    verbosity: VerbosityLevel.ERRORS,
  });
  try {
    return await use(await task.promise);
  } finally {
    await task.destroy();
  }
}

/** All pages with their texts, in the order in which the file sets them. */
export const readPages = (pdf: Uint8Array): Promise<ReadPage[]> =>
  withPdf(pdf, async (document) => {
    const pages: ReadPage[] = [];
    for (let n = 1; n <= document.numPages; n++) {
      const page = await document.getPage(n);
      const { width, height } = page.getViewport({ scale: 1 });
      const { items, styles } = await page.getTextContent({ disableNormalization: true });
      const boxes = items.flatMap((item): TextBox[] => {
        if (!('str' in item) || item.str.trim() === '') return [];
        const { ascent = 1, descent = 0 } = styles[item.fontName] ?? {};
        const [a = 0, b = 0, , , x = 0, y = 0] = item.transform.map(Number);
        const size = Math.hypot(a, b);
        const [up, down] = [ascent * size, descent * size];
        const box =
          Math.abs(b) > Math.abs(a)
            ? { x0: x - up, x1: x - down, y0: height - y - item.width, y1: height - y }
            : { x0: x, x1: x + item.width, y0: height - y - up, y1: height - y - down };
        return [{ text: item.str, size, ...box }];
      });
      const structure: Node | null = await page.getStructTree();
      pages.push({ width, height, boxes, structure });
    }
    return pages;
  });

/** All text of a page, pieces parted by single spaces. */
export const textOf = ({ boxes }: ReadPage): string =>
  boxes
    .map(({ text }) => text)
    .join(' ')
    .replaceAll(/\s+/g, ' ');

type Canvas = { context: CanvasRenderingContext2D };
const isCanvasMaker = (value: unknown): value is { create(width: number, height: number): Canvas } =>
  typeof value === 'object' && value !== null && 'create' in value;

/** Pages in shades of grey, 0 black to 255 white, as pdf.js draws them on the canvas that comes with it. */
export const drawn = (
  pdf: Uint8Array,
  pages: readonly number[],
  dpi: number,
): Promise<{ width: number; height: number; pixels: Uint8Array }[]> =>
  withPdf(pdf, async (document) => {
    const out: { width: number; height: number; pixels: Uint8Array }[] = [];
    for (const number of pages) {
      const page = await document.getPage(number);
      const viewport = page.getViewport({ scale: dpi / 72 });
      const [width, height] = [Math.ceil(viewport.width - 1e-6), Math.ceil(viewport.height - 1e-6)];
      const maker: unknown = document.canvasFactory;
      if (!isCanvasMaker(maker)) throw new Error('pdf.js has no canvas here');
      const { context } = maker.create(width, height);
      await page.render({ canvas: null, canvasContext: context, viewport }).promise;
      const { data } = context.getImageData(0, 0, width, height);
      const pixels = new Uint8Array(width * height);
      // A page has no other colour than black and white: any of its three will do.
      for (let i = 0; i < pixels.length; i++) pixels[i] = data[i * 4] ?? 255;
      out.push({ width, height, pixels });
    }
    return out;
  });
