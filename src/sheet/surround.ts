import type { BookFacts, SheetPage } from './book.ts';
import type { Ink } from './ink.ts';
import { measureOf } from './paper.ts';

type Surround = BookFacts & { readonly number: number; readonly of: number };

const THIN = { width: 0.25 } as const;
const TICK = 1.6;
/** Printers leave about 4 mm blank at the edge of the paper. */
const TOP = 5;

/** What stands on every page outside its own matter: title, page, date, and the bars that check the printer both ways. */
export function drawSurround({ frame, ink, heading, headed }: SheetPage, facts: Surround): void {
  const { left, right, width, height } = frame;
  const pageOf = `page ${facts.number} of ${facts.of}`;
  const room = measureOf(frame);
  const title = ink.type.fit(facts.title || 'Shaft', 12, 8, room - ink.type.width(pageOf, 10) - 6);
  // Letters of some scripts reach far above and below: the two lines give way to one another.
  const tall = ink.type.leading(title.text, title.size);
  const first = Math.max(10.6, TOP + tall.base);
  ink.text(title.text, left, first, title.size, { bold: true });
  ink.text(pageOf, right, first, 10, { align: 'end' });
  const drawing = facts.drawing === '' ? '' : ink.type.fit(facts.drawing, 9, 7, room / 3).text;
  const head = ink.type.fit(heading, 10, 8, room - ink.type.width(drawing, 9) - 6);
  const below = Math.max(ink.type.leading(head.text, head.size).base, ink.type.leading(drawing, 9).base);
  const second = Math.max(16.6, first - tall.base + tall.step + below);
  ink.tagged(headed, () => ink.text(head.text, left, second, head.size));
  ink.text(drawing, right, second, 9, { align: 'end' });
  ink.line([left, 19.6, right, 19.6], { width: 0.5 });

  const y = height - 15;
  checkBar(ink, left, y, 50, '50 mm');
  checkBar(ink, left + 60, y, 50.8, '2 in');
  uprightBar(ink, width - 12.5, height - 40, 50, '50 mm');
  uprightBar(ink, width - 7.5, height - 40, 50.8, '2 in');
  ink.text('print at 100 %', right, y - 1, 9, { align: 'end', bold: true });
  ink.text(facts.date, right, y + 3.4, 9, { align: 'end' });
  ink.text(
    'These bars, level and upright, must measure what they say: print without fitting to the page.',
    left,
    y + 5.2,
    7,
  );
}

/** A level bar; its length counts from the middle of one end's tick to the middle of the other's. */
function checkBar(ink: Ink, x: number, y: number, length: number, label: string): void {
  ink.line([x, y, x + length, y], THIN);
  for (const end of [x, x + length]) ink.line([end, y - TICK, end, y + TICK], THIN);
  ink.text(label, x + length / 2, y - 1, 8, { align: 'middle' });
}

function uprightBar(ink: Ink, x: number, bottom: number, length: number, label: string): void {
  ink.line([x, bottom, x, bottom - length], THIN);
  for (const end of [bottom, bottom - length]) ink.line([x - TICK, end, x + TICK, end], THIN);
  ink.text(label, x - 0.9, bottom - length / 2, 8, { align: 'middle', upward: true });
}
