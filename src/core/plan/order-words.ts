import type { BarRow, Plan } from './types.ts';

/** Other sizes of bar that are worth a line. */
const MOST_OTHERS = 2;

/**
 * What to order in sentences: how many parts the plan's bar yields, then what other sizes would cost.
 *
 * @param size - A length in millimetres as its reader wants it, with the unit.
 * @returns Nothing for a plan that says nothing of bars.
 */
export function orderWords({ order }: Plan, size: (mm: number) => string): string[] {
  const planned = order?.bars.find((row) => row.planned);
  if (!order || !planned) return [];
  const others = order.bars.filter((row) => !row.planned && row.parts > 0).slice(0, MOST_OTHERS);
  return [
    yieldOf(planned, order.bar_mm, size),
    ...(planned.parts > 1 && !planned.sawn
      ? ['Bar that stands out behind the spindle whips: support and cover it, or saw it shorter first.']
      : []),
    ...others.map((row) => insteadOf(row, size)),
  ];
}

function yieldOf(row: BarRow, bar_mm: number, size: (mm: number) => string): string {
  const how = row.sawn ? 'sawn to blanks' : 'one after another';
  const whole = `A whole bar, ${size(bar_mm)}, yields ${row.parts === 1 ? 'one part' : `${row.parts} parts ${how}`}`;
  const further =
    row.parts > 1 ? `: ${size(row.one_mm)} for one, ${size(row.next_mm)} for each further one` : '';
  return `${whole}${further}. ${size(row.left_mm)} of it is left.`;
}

function insteadOf(row: BarRow, size: (mm: number) => string): string {
  const have = row.at_hand ? '' : ', which the lathe file does not have but dealers commonly stock,';
  const sawn = row.sawn ? ' as a sawn blank' : '';
  return `Bar ${row.bar}${have} would do, too: at most ${size(row.one_mm)} for one part${sawn}, ${row.parts} to a bar.`;
}
