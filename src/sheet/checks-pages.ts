import type { Plan } from '../core/plan/types.ts';
import type { Book } from './book.ts';
import { startFlow, type Flow } from './flow.ts';
import { plain, table } from './table.ts';
import { figureText, type SheetMatter } from './wording.ts';

/** Requirements with their verdicts, and how the plan holds each drawing length and each finish cut. */
export function checksPages(book: Book, matter: SheetMatter, plan: Plan | null): void {
  const { report } = matter;
  const nothing = report.requirements.length + (plan ? plan.chart.length + plan.stiffness.length : 0) === 0;
  if (nothing) return;
  const flow = startFlow(book, 'Stacks and chart');
  if (report.requirements.length > 0) requirementTable(flow, matter);
  if (plan && plan.chart.length > 0) chartTable(flow, matter, plan);
  if (plan && plan.stiffness.length > 0) stiffnessTable(flow, matter, plan);
}

const verdict = (holds: boolean | null): string =>
  holds === null ? 'not known' : holds ? 'holds' : 'DOES NOT HOLD';

/** Never rounded up to all: a share just under 1 is said to be over what two decimals can show. */
function yieldText(share: number | null): string {
  if (share === null) return '–';
  if (share < 1 && share > 0.9999) return 'over 99.99 %';
  return `${(Math.floor(share * 1e4) / 100).toFixed(2)} %`;
}

function requirementTable(flow: Flow, { part, report }: SheetMatter): void {
  const { unit } = report;
  flow.heading('Requirements');
  table(
    flow,
    [
      { head: 'Requirement', share: 3 },
      { head: 'From – to', share: 2.4 },
      { head: 'Wanted', share: 3.4 },
      { head: `Comes to, ${unit}`, share: 3.8, align: 'end' },
      { head: 'Worst case', share: 2.9 },
      { head: 'Root sum square', share: 3.2 },
      { head: 'Good parts', share: 2.4, align: 'end' },
    ],
    report.requirements.map((row) => {
      const wanted = part.requirements.find(({ id }) => id === row.id);
      const span = report.chains.spans.find(({ from, to }) => from === wanted?.from && to === wanted.to);
      const comes = span ? `${figureText(span.min_mm, unit)} – ${figureText(span.max_mm, unit)}` : '–';
      return [
        { texts: [{ text: row.id, bold: true }, ...(wanted?.why ? [{ text: wanted.why, size: 8 }] : [])] },
        plain(wanted ? `${wanted.from} – ${wanted.to}` : '–'),
        plain(wanted ? `${wanted.min} to ${wanted.max}` : '–'),
        plain(comes),
        plain(verdict(row.meets_worst)),
        plain(verdict(row.meets_rss)),
        plain(yieldText(row.yield)),
      ];
    }),
  );
}

function chartTable(flow: Flow, { report }: SheetMatter, plan: Plan): void {
  const { unit } = report;
  const range = ([low, high]: readonly [number, number]): string =>
    `${figureText(low, unit)} – ${figureText(high, unit)}`;
  flow.heading('How the plan holds the lengths');
  table(
    flow,
    [
      { head: 'Length', share: 2 },
      { head: `Allowed, ${unit}`, share: 4, align: 'end' },
      { head: `Held, ${unit}`, share: 4, align: 'end' },
      { head: 'Verdict', share: 3 },
      { head: 'By way of', share: 5 },
    ],
    plan.chart.map((row) => [
      plain(row.length),
      plain(range(row.allowed_mm)),
      plain(range(row.held_mm)),
      plain(verdict(row.ok), 9, !row.ok),
      plain(row.through.join(', '), 8),
    ]),
  );
}

function stiffnessTable(flow: Flow, { report }: SheetMatter, plan: Plan): void {
  const { unit } = report;
  flow.heading('How far the bar gives way at the last pass');
  table(
    flow,
    [
      { head: 'Holding', share: 2 },
      { head: 'Segment', share: 3 },
      { head: 'Force, N', share: 2, align: 'end' },
      { head: `Error on the diameter, ${unit}`, share: 4, align: 'end' },
      { head: `Limit, ${unit}`, share: 3, align: 'end' },
      { head: 'Verdict', share: 3 },
    ],
    plan.stiffness.map((row) => [
      plain(row.holding),
      plain(row.segment),
      plain(row.force_n.toFixed(0)),
      plain(figureText(row.error_mm, unit, unit === 'in' ? 5 : 4)),
      plain(figureText(row.limit_mm, unit, unit === 'in' ? 5 : 4)),
      plain(verdict(row.ok), 9, !row.ok),
    ]),
  );
}
