import type { Book } from './book.ts';
import { startFlow } from './flow.ts';
import { notes } from './state-text.ts';
import type { SheetMatter } from './wording.ts';

/** Usual cautions of the trade; common practice, no source. */
const CAUTIONS: readonly string[] = [
  'This sheet is a plan, not an instructor. Where it differs from the manual of your machine, from the rules of your workshop or from a trained person, those are right.',
  'Wear eye protection. No gloves, rings, loose sleeves, ties or open long hair at a turning lathe.',
  'Take the key out of the chuck each time. Check by hand that the work turns freely, past tool, slide and guard, before the power goes on.',
  'Long work turns slowly at first. Nothing sticks out of the back of the spindle without support.',
  'Keep hands, rags and files away from turning work. Swarf is sharp and hot: use a hook or a brush, with the spindle stopped.',
  'Measure with the spindle stopped, and after the work has cooled: warm steel measures large.',
  'Part off close to the jaws, never between centres and never with the centre pressed in. Do not let long work drop: leave a pip and saw it with the spindle stopped.',
  'A live centre is brought up firmly and looked at again when the work has warmed. Back it off before facing, drilling or parting.',
  'Speeds are starting points. Slow down when it chatters, sings or smokes; stop when anything sounds wrong.',
  'Use the oil that suits the material and its safety data sheet. Magnesium and fine swarf can burn; water does not put it out.',
  'Check the readout against a measured diameter before the first finishing cut, and the printed strips against the bars on their page.',
];

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
  for (const caution of CAUTIONS) flow.paragraph(`– ${caution}`, 10.5, { indent: 3 });
}
