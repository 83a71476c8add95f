import type { PageKind } from '../sheet/page-kinds.ts';
import type { SheetAnswer, SheetOrder } from './sheet.worker.ts';

/** A sheet being made: `pdf` resolves with the file or rejects with a sentence; `cancel` stops the work at once. */
export type SheetJob = { readonly pdf: Promise<Blob>; readonly cancel: () => void };

/** What the Print place lets a person choose about it. */
export type SheetChoice = { readonly pages: readonly PageKind[]; readonly measured_mm: number };

/** How much of the work is done. */
export type SheetProgress = (done: number, of: number) => void;

let font: Promise<Uint8Array> | null = null;

/** The drawing font, fetched once from where the app itself came. */
function drawingFont(): Promise<Uint8Array> {
  font ??= fetch(`${import.meta.env.BASE_URL}fonts/drawing.ttf`).then(async (answer) => {
    if (!answer.ok) throw new Error(`The drawing font could not be fetched (${answer.status}).`);
    return new Uint8Array(await answer.arrayBuffer());
  });
  font.catch(() => (font = null)); // a fetch that failed is tried again at the next sheet
  return font;
}

type SheetMatter = Pick<SheetOrder, 'part' | 'report' | 'lathe'>;
type SheetWish = SheetChoice & Pick<SheetOrder['options'], 'page' | 'date'>;

/** Makes the sheet in a worker of its own, so that the board never waits for it. `date` stands on the page. */
export function startSheet(matter: SheetMatter, wish: SheetWish, onprogress: SheetProgress): SheetJob {
  const worker = new Worker(new URL('./sheet.worker.ts', import.meta.url), { type: 'module' });
  const pdf = new Promise<Blob>((resolve, reject) => {
    worker.onmessage = ({ data }: MessageEvent<SheetAnswer>) => {
      if ('done' in data) onprogress(data.done, data.of);
      else if ('pdf' in data) resolve(new Blob([data.pdf], { type: 'application/pdf' }));
      else reject(new Error(data.failed));
    };
    // Listened to before the font is here: a worker that cannot be had says so at once, and only once.
    worker.onerror = (event) => reject(new Error(event.message || 'The sheet could not be made.'));
    drawingFont().then((bytes) => {
      const fonts = new URL(`${import.meta.env.BASE_URL}fonts/`, location.href).href;
      const order: SheetOrder = { ...matter, options: { ...wish, font: bytes }, fonts };
      worker.postMessage(order);
    }, reject);
  });
  const cancel = () => worker.terminate();
  pdf.then(cancel, cancel);
  return { pdf, cancel };
}
