import type { Lathe } from '../core/part/lathe.ts';
import type { Part } from '../core/part/types.ts';
import type { Report } from '../core/report-types.ts';
import { makeSheet, type SheetOptions } from '../sheet/sheet.ts';

/** What the sheet is made of. `font` is the raw TrueType file; `fonts` the address of the folder with the further ones. */
export type SheetOrder = {
  readonly part: Part;
  readonly report: Report;
  readonly lathe: Lathe;
  readonly options: Omit<SheetOptions, 'loadFont' | 'onprogress'>;
  readonly fonts: string;
};
export type SheetAnswer =
  | { readonly pdf: Uint8Array<ArrayBuffer> }
  | { readonly failed: string }
  | { readonly done: number; readonly of: number };

async function fetched(address: URL): Promise<Uint8Array> {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`${address.pathname} could not be fetched (${answer.status}).`);
  return new Uint8Array(await answer.arrayBuffer());
}

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;

scope.onmessage = async ({ data }: MessageEvent<SheetOrder>) => {
  // A function cannot be posted: the fonts of other scripts are fetched from here, when a text wants one.
  const loadFont = (file: string): Promise<Uint8Array> => fetched(new URL(file, data.fonts));
  const tell = (answer: SheetAnswer): void => scope.postMessage(answer);
  const onprogress = (done: number, of: number): void => tell({ done, of });
  const options = { ...data.options, loadFont, onprogress };
  const answer = await makeSheet(data.part, data.report, data.lathe, options).then(
    (pdf): SheetAnswer => ({ pdf: new Uint8Array(pdf) }),
    (fault: unknown): SheetAnswer => ({ failed: fault instanceof Error ? fault.message : String(fault) }),
  );
  tell(answer);
};
