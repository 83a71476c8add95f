import { download } from '../../keep/files.ts';
import type { Part } from '../../core/part/types.ts';

/** What a person may send along with a bug report. It goes into a file of theirs and nowhere else. */
export function bugReport(fault: unknown, part: Part, where: string): string {
  const error = fault instanceof Error ? fault : new Error(String(fault));
  const what = { what: error.message, where, stack: error.stack ?? '', browser: navigator.userAgent };
  return `${JSON.stringify({ shaftwright_bug: 1, at: new Date().toISOString(), ...what, part }, null, 1)}\n`;
}

export function saveBugReport(fault: unknown, part: Part, where: string): void {
  download(new Blob([bugReport(fault, part, where)], { type: 'application/json' }), 'shaftwright-fault.json');
}

type Say = (say: string, offer: { name: string; take: () => void }) => void;

/** Says faults that no boundary sees: in an event, a timer, a promise. The part stays. */
export function watchFaults(part: () => Part, say: Say): () => void {
  const stop = new AbortController();
  const tell = (fault: unknown) => {
    const why = fault instanceof Error ? fault.message : String(fault);
    const offer = {
      name: 'Save a file for a bug report',
      take: () => saveBugReport(fault, part(), 'the page'),
    };
    say(`Something in the program failed (${why}). The part is as it was.`, offer);
  };
  addEventListener('error', (event) => event.error && tell(event.error), { signal: stop.signal });
  addEventListener('unhandledrejection', (event) => tell(event.reason), { signal: stop.signal });
  return () => stop.abort();
}
