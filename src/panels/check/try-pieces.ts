import type { PieceTrial } from '../../core/stacks/pieces.ts';
import type { TrialAnswer, TrialOrder } from './trial.worker.ts';

/** Tries pieces at random beside the page. Says how far it is as it goes; what it gives back stops it at once. */
export function tryPieces(
  order: TrialOrder,
  ontrial: (trial: PieceTrial) => void,
  onfault: (say: string) => void,
): () => void {
  const worker = new Worker(new URL('./trial.worker.ts', import.meta.url), { type: 'module' });
  worker.onmessage = ({ data }: MessageEvent<TrialAnswer>) => {
    if ('failed' in data) onfault(data.failed);
    else ontrial(data.trial);
    if ('failed' in data || data.trial.finished) worker.terminate();
  };
  worker.onerror = (event) => {
    worker.terminate();
    onfault(event.message || 'The trial stopped.');
  };
  worker.postMessage(order);
  return () => worker.terminate();
}
