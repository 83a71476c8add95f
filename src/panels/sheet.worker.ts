import type { Lathe } from '../core/part/lathe.ts';
import type { Part } from '../core/part/types.ts';
import type { Report } from '../core/report-types.ts';
import { DRAWING_FONT } from '../sheet/font-files.ts';
import { makeSheet, type SheetOptions } from '../sheet/sheet.ts';

/** What the sheet is made of. `fonts` is the address of the folder with the raw TrueType files. */
export type SheetOrder = {
  readonly part: Part;
  readonly report: Report;
  readonly lathe: Lathe;
  readonly options: Omit<SheetOptions, 'font' | 'loadFont' | 'onprogress'>;
  readonly fonts: string;
};
export type SheetAnswer =
  | { readonly pdf: Uint8Array<ArrayBuffer> }
  | { readonly failed: string }
  | { readonly done: number; readonly of: number };

const files = new Map<string, Promise<Uint8Array>>();

/** A font, fetched once from where the app itself came. One that could not be had is tried again at the next sheet. */
function fetched(address: URL): Promise<Uint8Array> {
  const known = files.get(address.href);
  if (known) return known;
  const bytes = fetch(address).then(async (answer) => {
    if (!answer.ok) throw new Error(`${address.pathname} could not be fetched (${answer.status}).`);
    return new Uint8Array(await answer.arrayBuffer());
  });
  files.set(address.href, bytes);
  bytes.catch(() => files.delete(address.href));
  return bytes;
}

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;
const tell = (answer: SheetAnswer): void => scope.postMessage(answer);

async function sheetFor({ part, report, lathe, options, fonts }: SheetOrder): Promise<Uint8Array> {
  // A function cannot be posted: the fonts of other scripts are fetched from here, when a text wants one.
  const loadFont = (file: string): Promise<Uint8Array> => fetched(new URL(file, fonts));
  const onprogress = (done: number, of: number): void => tell({ done, of });
  const font = await loadFont(DRAWING_FONT);
  return makeSheet(part, report, lathe, { ...options, font, loadFont, onprogress });
}

scope.onmessage = async ({ data }: MessageEvent<SheetOrder>) => {
  const answer = await sheetFor(data).then(
    (pdf): SheetAnswer => ({ pdf: new Uint8Array(pdf) }),
    (fault: unknown): SheetAnswer => ({ failed: fault instanceof Error ? fault.message : String(fault) }),
  );
  tell(answer);
};
