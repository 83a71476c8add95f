import type { PDFDocumentProxy, PDFPageProxy } from 'pdfjs-dist';

/** A page of an open PDF file: its size in points, and the bookmark that leads to it (empty where there is none). */
export type PdfPage = {
  readonly width: number;
  readonly height: number;
  readonly heading: string;
  /** Draws the page with so many dots to a point. Rejects where it was cancelled or cannot be drawn. */
  readonly draw: (canvas: HTMLCanvasElement, dots: number) => PdfDrawing;
};
export type PdfDrawing = { readonly done: Promise<void>; readonly cancel: () => void };
export type OpenPdf = { readonly pages: readonly PdfPage[]; readonly close: () => void };

type Reader = typeof import('pdfjs-dist/legacy/build/pdf.mjs');
let reader: Promise<Reader> | null = null;

async function loadReader(): Promise<Reader> {
  const [library, { default: PdfWorker }] = await Promise.all([
    import('pdfjs-dist/legacy/build/pdf.mjs'),
    import('pdfjs-dist/legacy/build/pdf.worker.mjs?worker'),
  ]);
  library.GlobalWorkerOptions.workerPort = new PdfWorker();
  return library;
}

/** Loads what reads PDF files, in a worker that then stays. Called ahead of `openPdf`, it saves the wait. */
export function wakePdfReader(): Promise<Reader> {
  reader ??= loadReader();
  reader.catch(() => (reader = null)); // what could not be loaded is tried again at the next file
  return reader;
}

/** Opens a PDF file with all its pages. Rejects where it is none. Nothing in the file is run. */
export async function openPdf(file: Blob): Promise<OpenPdf> {
  const [library, data] = await Promise.all([wakePdfReader(), file.arrayBuffer()]);
  const task = library.getDocument({
    data,
    isEvalSupported: false,
    useWasm: false,
    enableXfa: false,
    stopAtErrors: false,
  });
  const close = () => void task.destroy();
  try {
    const pdf = await task.promise;
    const headings = await headingsOf(pdf);
    const numbers = Array.from({ length: pdf.numPages }, (_, i) => i + 1);
    const pages = await Promise.all(numbers.map((n) => pdf.getPage(n)));
    return { pages: pages.map((page, i) => pageOf(library, page, headings[i] ?? '')), close };
  } catch (fault) {
    close();
    throw fault;
  }
}

/** Bookmarks in order, where there is one a page. */
async function headingsOf(pdf: PDFDocumentProxy): Promise<string[]> {
  const outline = await pdf.getOutline().catch(() => null);
  return outline?.length === pdf.numPages ? outline.map(({ title }) => title) : [];
}

function pageOf(library: Reader, page: PDFPageProxy, heading: string): PdfPage {
  const { width, height } = page.getViewport({ scale: 1 });
  return {
    width,
    height,
    heading,
    draw: (canvas, dots) => {
      const viewport = page.getViewport({ scale: dots });
      canvas.width = Math.round(viewport.width);
      canvas.height = Math.round(viewport.height);
      const { DISABLE } = library.AnnotationMode;
      const task = page.render({ canvas, viewport, annotationMode: DISABLE });
      return { done: task.promise, cancel: () => task.cancel() };
    },
  };
}
