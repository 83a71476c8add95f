import type { Lathe } from '../core/part/lathe.ts';
import type { Part } from '../core/part/types.ts';
import { chartAdvice } from '../core/plan/chart-advice.ts';
import type { Plan } from '../core/plan/types.ts';
import { report } from '../core/report.ts';

/** What is to be planned, or which length of a plan is to be mended; `ask` tells answers apart. */
export type PlanOrder = { readonly ask: number; readonly part: Part; readonly lathe: Lathe };
export type AdviceOrder = PlanOrder & { readonly plan: Plan; readonly length: string };

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;

scope.onmessage = ({ data }: MessageEvent<PlanOrder | AdviceOrder>) => {
  const { ask, part, lathe } = data;
  if ('length' in data) scope.postMessage({ ask, advice: chartAdvice(part, lathe, data.plan, data.length) });
  else scope.postMessage({ ask, report: report(part, lathe) });
};
