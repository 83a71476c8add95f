import type { Lathe } from '../core/part/lathe.ts';
import type { Part } from '../core/part/types.ts';
import type { Report } from '../core/report-types.ts';
import { makeSheet } from '../sheet/sheet.ts';

/** What the sheet is made of. `font` is the raw TrueType file. */
export type SheetOrder = {
  readonly part: Part;
  readonly report: Report;
  readonly lathe: Lathe;
  readonly options: { page: 'letter' | 'a4'; date: string; font: Uint8Array };
};
export type SheetAnswer = { readonly pdf: Uint8Array<ArrayBuffer> } | { readonly failed: string };

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;

scope.onmessage = async ({ data }: MessageEvent<SheetOrder>) => {
  const answer = await makeSheet(data.part, data.report, data.lathe, data.options).then(
    (pdf): SheetAnswer => ({ pdf: new Uint8Array(pdf) }),
    (fault: unknown): SheetAnswer => ({ failed: fault instanceof Error ? fault.message : String(fault) }),
  );
  scope.postMessage(answer);
};
