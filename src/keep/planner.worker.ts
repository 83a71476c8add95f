import type { Lathe } from '../core/part/lathe.ts';
import type { Part } from '../core/part/types.ts';
import { report } from '../core/report.ts';

/** What is to be planned; `ask` tells answers apart. */
export type PlanOrder = { readonly ask: number; readonly part: Part; readonly lathe: Lathe };

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;

scope.onmessage = ({ data: { ask, part, lathe } }: MessageEvent<PlanOrder>) => {
  scope.postMessage({ ask, report: report(part, lathe) });
};
