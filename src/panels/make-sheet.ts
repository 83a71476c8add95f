import type { Page } from '../keep/settings.svelte.ts';
import type { Lathe } from '../core/part/lathe.ts';
import type { Part } from '../core/part/types.ts';
import type { Report } from '../core/report-types.ts';
import type { SheetAnswer, SheetOrder } from './sheet.worker.ts';

/** A sheet being made: `pdf` resolves with the file or rejects with a sentence; `cancel` stops the work at once. */
export type SheetJob = { readonly pdf: Promise<Blob>; readonly cancel: () => void };

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

/** Makes the sheet in a worker of its own, so that the board never waits for it. `date` stands on the page. */
export function startSheet(part: Part, report: Report, lathe: Lathe, page: Page, date: string): SheetJob {
  const worker = new Worker(new URL('./sheet.worker.ts', import.meta.url), { type: 'module' });
  const pdf = drawingFont().then(
    (bytes) =>
      new Promise<Blob>((resolve, reject) => {
        worker.onmessage = ({ data }: MessageEvent<SheetAnswer>) => {
          if ('pdf' in data) resolve(new Blob([data.pdf], { type: 'application/pdf' }));
          else reject(new Error(data.failed));
        };
        worker.onerror = (event) => reject(new Error(event.message || 'The sheet could not be made.'));
        const fonts = new URL(`${import.meta.env.BASE_URL}fonts/`, location.href).href;
        const order: SheetOrder = { part, report, lathe, options: { page, date, font: bytes }, fonts };
        worker.postMessage(order);
      }),
  );
  const cancel = () => worker.terminate();
  pdf.then(cancel, cancel);
  return { pdf, cancel };
}
