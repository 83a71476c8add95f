import { CAUTIONS } from '../core/cautions.ts';
import type { Book } from './book.ts';
import { startFlow } from './flow.ts';
import { notes } from './state-text.ts';
import type { SheetMatter } from './wording.ts';

/** What the report warns of, what was tried and left, and the cautions. */
export function cautionsPages(book: Book, { report }: SheetMatter): void {
  const flow = startFlow(book, 'Cautions');
  if (report.warnings.length > 0) {
    flow.heading('For this part');
    notes(flow, report.warnings);
  }
  const rejected = report.plan?.rejected ?? [];
  if (rejected.length > 0) {
    flow.heading('Other ways of holding, and why not');
    for (const { way, why } of rejected) flow.paragraph(`– ${way}: ${why}`, 9.5, { indent: 3 });
  }
  flow.heading('At every lathe');
  for (const { say } of CAUTIONS) flow.paragraph(`– ${say}`, 10.5, { indent: 3 });
}
