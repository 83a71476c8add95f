import type { PageKind } from '../sheet/page-kinds.ts';
import type { SheetAnswer, SheetOrder } from './sheet.worker.ts';

/** A sheet being made: `pdf` resolves with the file or rejects with a sentence; `cancel` stops the work at once. */
export type SheetJob = { readonly pdf: Promise<Blob>; readonly cancel: () => void };

/** What the Print place lets a person choose about it. */
export type SheetChoice = { readonly pages: readonly PageKind[]; readonly measured_mm: number };

/** How much of the work is done. */
export type SheetProgress = (done: number, of: number) => void;

type SheetMatter = Pick<SheetOrder, 'part' | 'report' | 'lathe'>;
type SheetWish = SheetChoice & Pick<SheetOrder['options'], 'page' | 'date'>;

/** A worker that has made a sheet: it has its code and its font, and makes the next one at once. */
let idle: Worker | null = null;

const newWorker = (): Worker => new Worker(new URL('./sheet.worker.ts', import.meta.url), { type: 'module' });

/** Makes the sheet in a worker of its own, so that the board never waits for it. `date` stands on the page. */
export function startSheet(matter: SheetMatter, wish: SheetWish, onprogress: SheetProgress): SheetJob {
  const worker = idle ?? newWorker();
  idle = null;
  let running = true;
  const pdf = new Promise<Blob>((resolve, reject) => {
    worker.onmessage = ({ data }: MessageEvent<SheetAnswer>) => {
      if ('done' in data) onprogress(data.done, data.of);
      else if ('pdf' in data) resolve(new Blob([data.pdf], { type: 'application/pdf' }));
      else reject(new Error(data.failed));
    };
    // Listened to from the start: a worker that cannot be had says so at once, and only once.
    worker.onerror = (event) => reject(new Error(event.message || 'The sheet could not be made.'));
  });
  const fonts = new URL(`${import.meta.env.BASE_URL}fonts/`, location.href).href;
  const order: SheetOrder = { ...matter, options: wish, fonts };
  worker.postMessage(order);
  const cancel = () => {
    if (running) worker.terminate();
    running = false;
  };
  pdf.then(() => {
    if (!running) return;
    running = false;
    idle?.terminate();
    idle = worker;
  }, cancel);
  return { pdf, cancel };
}
