import type { PDFDocumentProxy, PDFPageProxy } from 'pdfjs-dist';
import { getDocument, PDFWorker } from 'pdfjs-dist/legacy/build/pdf.mjs';
import PdfWorker from 'pdfjs-dist/legacy/build/pdf.worker.mjs?worker';
import jpeg2000 from 'pdfjs-dist/wasm/openjpeg_nowasm_fallback.js?url';
import { MOST_PIXELS } from '../../core/tracing/scan.ts';
import { keepable, type TakenPicture } from './take-picture.ts';

/** Dots per inch that a page is drawn at, and the most pixels that this may come to. */
const DPI = 200;
const MOST = 6_000_000;
const MOST_SIDE = 4096;
/** A file made to keep the reader busy is given up after this, ms. */
const PATIENCE = 20_000;

/**
 * What unpacks JPEG 2000, in plain JavaScript: the page's policy lets no WebAssembly in. The reader asks for a folder and
 * puts a name of its own behind it; as a fragment that name is no part of the address, which carries a hash like all of
 * ours. It is fetched when a page holds such a picture. JBIG2 and fax the reader unpacks by itself.
 */
const decoders = `${new URL(jpeg2000, import.meta.url).href}#/`;

/** A PDF that was opened, for as long as its page is being chosen. */
export type PdfPages = {
  readonly count: number;
  /** A page from 1 on, drawn. Rejects with a sentence where that fails. */
  picture(page: number): Promise<TakenPicture>;
  close(): void;
};

/**
 * Opens a PDF in a worker of its own, with scripts, forms and anything from the network left out. Rejects with a
 * sentence where it is locked, damaged or takes too long.
 */
export async function openPdf(file: File): Promise<PdfPages> {
  const port = new PdfWorker();
  const worker = PDFWorker.create({ port });
  const close = () => {
    worker.destroy();
    port.terminate();
  };
  const task = getDocument({
    data: new Uint8Array(await file.arrayBuffer()),
    worker,
    isEvalSupported: false,
    enableXfa: false,
    disableAutoFetch: true,
    useSystemFonts: true,
    useWasm: false,
    wasmUrl: decoders,
    useWorkerFetch: false,
    maxImageSize: MOST_PIXELS,
    verbosity: 0,
  });
  // A locked file asks for its password by this and would wait for ever.
  task.onPassword = () => void task.destroy();
  try {
    const pdf = await inTime(task.promise);
    const picture = (n: number) => pageOf(pdf, n, `${file.name}, page ${n}`);
    return { count: pdf.numPages, picture, close };
  } catch (fault) {
    close();
    throw new Error(`${file.name} cannot be traced: ${whyOf(fault)}.`, { cause: fault });
  }
}

class TooLong extends Error {}

function inTime<T>(work: Promise<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new TooLong()), PATIENCE);
    void work.then(resolve, reject).finally(() => clearTimeout(timer));
  });
}

function whyOf(fault: unknown): string {
  if (fault instanceof TooLong) return `it was not read within ${PATIENCE / 1000} seconds`;
  const { name } = fault instanceof Error ? fault : { name: '' };
  if (name === 'PasswordException' || /destroyed/i.test(String(fault))) return 'it is locked by a password';
  return 'the PDF is damaged';
}

async function pageOf(pdf: PDFDocumentProxy, n: number, name: string): Promise<TakenPicture> {
  try {
    const canvas = await inTime(pdf.getPage(n).then(drawn));
    if (!isBlank(canvas)) return await keepable(canvas, name);
  } catch (fault) {
    const why = fault instanceof TooLong ? whyOf(fault) : 'the page is damaged';
    throw new Error(`${name} cannot be traced: ${why}.`, { cause: fault });
  }
  const way = 'save the page as a PNG or JPEG and open that';
  throw new Error(`${name} comes out blank: it is empty, or what is on it cannot be unpacked; ${way}.`);
}

async function drawn(page: PDFPageProxy): Promise<HTMLCanvasElement> {
  const { width, height } = page.getViewport({ scale: 1 });
  if (!(width > 0 && height > 0)) throw new Error('a page of no size');
  const scale = Math.min(DPI / 72, MOST_SIDE / Math.max(width, height), Math.sqrt(MOST / (width * height)));
  const viewport = page.getViewport({ scale });
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.floor(viewport.width));
  canvas.height = Math.max(1, Math.floor(viewport.height));
  await page.render({ canvas, viewport, background: 'white' }).promise;
  return canvas;
}

/** Whether nothing is to be seen: every pixel of a small copy is the same, or nearly. */
function isBlank(canvas: HTMLCanvasElement): boolean {
  const small = document.createElement('canvas');
  [small.width, small.height] = [200, 200];
  const pen = small.getContext('2d', { willReadFrequently: true });
  if (!pen) return false;
  pen.drawImage(canvas, 0, 0, small.width, small.height);
  const { data } = pen.getImageData(0, 0, small.width, small.height);
  const shades = data.filter((_, i) => i % 4 === 0);
  return shades.every((shade) => Math.abs(shade - (shades[0] ?? 0)) < 3);
}
