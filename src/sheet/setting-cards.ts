import { CUT_NAMES } from '../core/plan/cut-names.ts';
import type { Cut, Plan } from '../core/plan/types.ts';
import type { Book } from './book.ts';
import { startFlow, type Flow } from './flow.ts';
import { plain, table, type Cell } from './table.ts';
import { degreesText, figureText, segmentText, type SheetMatter } from './wording.ts';

type Given = { readonly flow: Flow; readonly matter: SheetMatter };

const TICK: Cell = { texts: [], form: 'tick' };

/** One card for each setting that takes more than a reading: tapers by the compound slide, threads, holes drilled in pecks. */
export function cardPages(book: Book, matter: SheetMatter, plan: Plan): void {
  const cuts = plan.holdings.flatMap((holding) => holding.cuts.map((cut) => ({ cut, holding: holding.id })));
  const cards = cuts.filter(({ cut }) => cardOf(cut) !== null);
  if (cards.length === 0) return;
  const flow = startFlow(book, 'Setting cards');
  for (const { cut, holding } of cards) {
    const name = [CUT_NAMES[cut.kind], cut.segment ?? cut.makes].filter((text) => text !== null).join(' · ');
    flow.heading(`Cut ${cut.n}, holding ${holding}: ${name}`);
    cardOf(cut)?.({ flow, matter }, cut);
  }
}

type Card = (given: Given, cut: Cut) => void;

/** A thread without infeeds is cut by tap or die; its card says which. */
function cardOf({ kind, setting }: Cut): Card | null {
  if (!setting) return null;
  if (kind === 'taper' && setting.compound_deg !== undefined) return taperCard;
  if (kind === 'thread' || kind === 'tap') return threadCard;
  if ((setting.pecks_mm?.length ?? 0) > 1) return peckCard;
  return null;
}

/** The travel over which an indicator is read when the slide is set. */
const CHECK = { in: { mm: 25.4, text: '1 in' }, mm: { mm: 25, text: '25 mm' } } as const;

function taperCard({ flow, matter }: Given, { setting }: Cut): void {
  const degrees = setting?.compound_deg ?? 0;
  const { unit } = matter.lathe;
  const travel = CHECK[unit];
  const change = travel.mm * Math.sin((Math.abs(degrees) * Math.PI) / 180);
  flow.paragraph(`Compound slide at ${degreesText(degrees)} to the axis.`, 14, { bold: true });
  if (setting?.compound_travel_mm !== undefined)
    flow.paragraph(
      `The slide travels ${figureText(setting.compound_travel_mm, unit)} ${unit}; wind it back that far first.`,
      11,
    );
  flow.paragraph(
    `To set it: an indicator in the tool post, level with the axis, on a cylinder that runs true. While the slide travels ${travel.text} by its dial, the indicator changes by ${figureText(change, unit, unit === 'in' ? 4 : 3)} ${unit}.`,
    11,
  );
  flow.paragraph('Tool exactly at centre height, else the taper comes out wrong.', 10);
  infeedTable(flow, matter, setting?.infeeds_mm ?? [], 'Smaller in diameter by');
}

function threadCard({ flow, matter }: Given, { setting, segment, makes }: Cut): void {
  const on = matter.part.segments.find(({ id }) => id === segment);
  const hole = matter.part.holes.find(({ id }) => id === makes);
  const thread = on?.form === 'thread' ? segmentText(on) : hole?.form === 'tap' ? hole.thread : null;
  if (thread !== null) flow.paragraph(thread, 14, { bold: true });
  if (setting?.die)
    flow.paragraph(
      `Die ${setting.die}, held square by the tailstock. Turn the spindle by hand; back off to break the chip.`,
      11,
    );
  if (setting?.tap)
    flow.paragraph(
      `Tap ${setting.tap}, kept true by the tailstock. Turn the spindle by hand; back off to break the chip.`,
      11,
    );
  if (setting?.compound_deg !== undefined)
    flow.paragraph(
      `Compound slide at ${degreesText(setting.compound_deg)} from square to the axis.${setting.pitch_mm === undefined ? '' : ` Lathe set for a pitch of ${figureText(setting.pitch_mm, matter.lathe.unit)} ${matter.lathe.unit}.`}`,
      11,
    );
  infeedTable(flow, matter, setting?.infeeds_mm ?? [], 'Smaller in diameter by');
}

/** Passes in order, with what has gone in all. */
function infeedTable(flow: Flow, matter: SheetMatter, infeeds: readonly number[], by: string): void {
  if (infeeds.length > 0) depthTable(flow, matter, infeeds, 'Pass', by);
}

function peckCard({ flow, matter }: Given, { setting, readings }: Cut): void {
  flow.paragraph(`Drill ${setting?.drill ?? ''}: out after each peck, clear the chips, oil.`, 11);
  const end = readings.find(({ axis }) => axis !== 'X');
  if (end)
    flow.paragraph(`Full depth reads ${end.text}${end.axis === 'quill' ? ' on the quill' : ''}.`, 14, {
      bold: true,
    });
  depthTable(flow, matter, setting?.pecks_mm ?? [], 'Peck', 'Deeper by');
}

function depthTable(
  flow: Flow,
  { lathe: { unit } }: SheetMatter,
  steps: readonly number[],
  step: string,
  by: string,
): void {
  const decimals = unit === 'in' ? 4 : 3;
  let all = 0;
  table(
    flow,
    [
      { head: '', share: 1 },
      { head: step, share: 2, align: 'end' },
      { head: `${by}, ${unit}`, share: 4, align: 'end' },
      { head: `In all, ${unit}`, share: 4, align: 'end' },
      { head: '', share: 5 },
    ],
    steps.map((mm, i) => {
      all += mm;
      return [
        TICK,
        plain(String(i + 1), 11),
        plain(figureText(mm, unit, decimals), 14),
        plain(figureText(all, unit, decimals), 14, true),
      ];
    }),
  );
}
