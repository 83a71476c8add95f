import type { Outcome } from '../problem.ts';
import { readMetricThread } from './metric-read.ts';
import { refuse } from './refuse.ts';
import type { ThreadSpec } from './thread-spec.ts';
import { readUnifiedThread } from './unified-read.ts';

const LONGEST = 60;

/**
 * Reads a thread as plans write it: `M6`, `M6x1`, `M6×1-6g`, `5/16-24`, `5/16-24 UNF-2A`, `8-32`, `#8-32 UNC-2A`,
 * `1/4 UNC`, each with `LH` where it is left-handed.
 *
 * A metric thread without a pitch is coarse; without a class the limits are those of 6g, unified those of 2A. A bare
 * number is a number size at 24 threads to the inch and finer, else inches. Limits of the external major diameter are
 * null for an internal class and for classes the tables do not hold.
 * Reports `thread-unreadable`, and `thread-not-in-table` with the nearest threads there are; nothing is extrapolated.
 * Sources: see `metric-threads.ts`, `unified-threads.ts`; blanks for dies: nominal less about 0.15
 * pitch, common practice.
 */
export function readThread(text: string): Outcome<ThreadSpec> {
  if (text.length > LONGEST) return refuse('thread-unreadable', 'This is too long for a thread.', { text });
  const leftHand = /(?:^|[^a-z])(?:LH|left[ -]?hand(?:ed)?)(?![a-z])/i.test(text);
  const body = text
    .replace(/[-–, ]*\b(?:LH|left[ -]?hand(?:ed)?)(?![a-z])/gi, '')
    .replace(/[–—−]/g, '-')
    .replace(/[×✕*]/g, 'x')
    .replace(/["”″]|\bin(?:ch)?\b/gi, '')
    .replace(/\s*\/\s*/g, '/')
    .replace(/\s+/g, ' ')
    .trim();
  const taken = { body, leftHand, asWritten: text.trim() };
  if (body === '') return refuse('thread-unreadable', 'No thread is written here.', { text });
  return /^M ?[\d.]/i.test(body) ? readMetricThread(taken) : readUnifiedThread(taken);
}
