import PDFDocument from 'pdfkit';
import { pageOperators, segments, type Segment } from '../../sheet/pdf-tools.ts';
import { readPages, type ReadPage } from '../../sheet/pdfjs.ts';

/** What stands on the pages of a finished file: its texts with their places and its straight strokes. */
export type Content = readonly (ReadPage & { readonly strokes: readonly Segment[] })[];

/** Reads it back with pdf.js and qpdf. Filled areas and clips are left out. */
export async function contentOf(pdf: Uint8Array): Promise<Content> {
  const operators = pageOperators(pdf);
  const pages = await readPages(pdf);
  return pages.map((page, i) => ({ ...page, strokes: segments(operators[i] ?? '') }));
}

/**
 * The same texts at the same places and the same strokes, in the same font, written by pdfkit; `tagged`, each text is an
 * element of the structure and the strokes are none, about as many tags as ours has. Gives the file's size.
 */
export async function byPdfkit(content: Content, font: string, tagged: boolean): Promise<number> {
  const document = new PDFDocument({ autoFirstPage: false, compress: true, font, tagged, pdfVersion: '1.7' });
  const top = tagged ? document.struct('Document') : null;
  if (top) document.addStructure(top);
  let bytes = 0;
  const ended = new Promise((resolve) => document.on('end', resolve));
  document.on('data', (chunk: Uint8Array) => (bytes += chunk.length));
  for (const { width, height, boxes, strokes } of content) {
    document.addPage({ size: [width, height], margin: 0 });
    for (const { text, size, x0, y0 } of boxes) {
      const set = () => void document.fontSize(size).text(text, x0, y0, { lineBreak: false });
      if (top) top.add(document.struct('P', set));
      else set();
    }
    if (tagged) document.markContent('Artifact');
    for (const stroke of strokes)
      document
        .lineWidth(stroke.width)
        .moveTo(stroke.x0, height - stroke.y0)
        .lineTo(stroke.x1, height - stroke.y1)
        .stroke();
    if (tagged) document.endMarkedContent();
  }
  top?.end();
  document.end();
  await ended;
  return bytes;
}
