import { orderWords } from '../core/plan/order-words.ts';
import type { Cut, Holding, Plan } from '../core/plan/types.ts';
import type { Book } from './book.ts';
import { startFlow } from './flow.ts';
import { plain, table, type Cell } from './table.ts';
import { bothUnits, centreDrillText, figureText, toolText, type SheetMatter } from './wording.ts';

/** What to order and saw off, and what to lay out before the first cut, each with a box to tick. */
export function orderPages(book: Book, matter: SheetMatter, plan: Plan): void {
  const { lathe, part } = matter;
  const { stock } = plan;
  const flow = startFlow(book, 'Bar and tools');
  flow.heading('Bar to order');
  table(
    flow,
    [
      { head: 'Bar', share: 2 },
      { head: 'Diameter', share: 4 },
      { head: 'Length this part uses', share: 4 },
      { head: 'Material', share: 4 },
    ],
    [
      [
        plain(stock.bar, 14, true),
        plain(bothUnits(stock.diameter_mm, lathe.unit), 11),
        plain(bothUnits(stock.length_mm, lathe.unit), 11),
        plain(part.material ?? 'not given', 11),
      ],
    ],
  );
  for (const line of orderWords(plan, (mm) => bothUnits(mm, lathe.unit))) flow.paragraph(line);
  flow.paragraph('Measure the bar before the first cut: its skin, its roundness, its straightness.');
  flow.heading('Lay out beforehand');
  const tick: Cell = { texts: [], form: 'tick' };
  table(
    flow,
    [
      { head: '', share: 0.8 },
      { head: 'What', share: 6 },
      { head: 'For cuts', share: 3.4 },
    ],
    [...picked(plan, matter)].map(([what, cuts]) => [tick, plain(what, 10), plain(cuts)]),
    5,
  );
}

const allCuts = (plan: Plan): Cut[] => [...plan.holdings.flatMap(({ cuts }) => cuts), ...plan.off_lathe];

/** Everything that the plan picks up, in the order of first use, with the cuts that want it. */
function picked(plan: Plan, matter: SheetMatter): Map<string, string> {
  const { lathe } = matter;
  const uses = new Map<string, number[]>();
  const use = (what: string, n: number): void => {
    uses.set(what, [...(uses.get(what) ?? []), n]);
  };
  for (const cut of allCuts(plan)) {
    const tool = lathe.tools.find(({ id }) => id === cut.tool);
    if (tool) use(`${tool.id}: ${toolText(tool)}`, cut.n);
    else if (cut.tool !== null) use(cut.tool, cut.n);
    const { setting } = cut;
    if (setting?.drill) use(`drill ${setting.drill}`, cut.n);
    if (setting?.centre_drill) use(centreDrillText(setting.centre_drill), cut.n);
    if (setting?.tap) use(`tap ${setting.tap}`, cut.n);
    if (setting?.die) use(`die ${setting.die}`, cut.n);
    for (const support of cut.support ?? []) use(support.replace('-', ' '), cut.n);
    if (cut.kind === 'measure') use('micrometer or caliper', cut.n);
  }
  const rows = new Map<string, string>();
  const holders = new Map<string, string[]>();
  for (const holding of plan.holdings) {
    const what = holderText(holding, plan, matter);
    holders.set(what, [...(holders.get(what) ?? []), holding.id]);
  }
  for (const [what, ids] of holders) rows.set(what, `holding ${ids.join(', ')}`);
  if (plan.holdings.some(({ marks }) => marks.length > 0))
    rows.set('layout fluid, scriber, rule', 'lines to scribe');
  for (const [what, cuts] of uses) rows.set(what, ranges(cuts));
  return rows;
}

/** A collet goes by the size it closes on. */
function holderText({ device, grips }: Holding, plan: Plan, { lathe, report }: SheetMatter): string {
  if (device === 'centres') return 'centres, faceplate and dog';
  if (device === 'chuck' || grips === null) return device;
  if (grips.on === 'bar') return `collet for the bar, ${plan.stock.bar}`;
  const [land] = grips.on;
  const aim = report.diameters.find(({ segment }) => segment === land)?.aim_mm ?? null;
  return `collet for ${grips.on.join(', ')}, ${figureText(aim, lathe.unit)} ${lathe.unit}`;
}

/** 1, 2, 3, 7 as "1–3, 7". */
export function ranges(numbers: readonly number[]): string {
  const out: [number, number][] = [];
  for (const n of [...new Set(numbers)].sort((a, b) => a - b)) {
    const last = out.at(-1);
    if (last && n === last[1] + 1) last[1] = n;
    else out.push([n, n]);
  }
  return out.map(([a, b]) => (a === b ? `${a}` : `${a}–${b}`)).join(', ');
}
