import { briefCautions, DANGER } from '../core/cautions.ts';
import type { Unit } from '../core/lengths/length.ts';
import { orderWords } from '../core/plan/order-words.ts';
import type { Cut, Holding, Mark, Plan } from '../core/plan/types.ts';
import { shown } from '../core/plan/words.ts';
import type { Note, Report } from '../core/report-types.ts';
import { paged, section, wrapped } from './page.ts';
import { chainLines } from './print-chains.ts';
import { sizeText } from './size-text.ts';

const CAUTION = `${DANGER} ${briefCautions()} More in docs/cautions.md.`;

/**
 * The report as a page for a person: state of the sizes, bar to order, each holding with its marks and numbered cuts,
 * what is done off the lathe, what cannot be held, notes and cautions. Plain text, at most about 96 characters wide,
 * ends in a line feed.
 */
export function printPlan(report: Report): string {
  const { plan, unit } = report;
  return paged([
    report.part === '' ? 'A part without a title' : report.part,
    '',
    ...chainLines(report),
    ...(plan ? planLines(plan, unit) : ['', 'No plan can be made of it as it stands.']),
    ...section('What stands in the way', notes(report.errors)),
    ...section('Worth knowing', notes(report.warnings)),
    ...section('Cautions', wrapped('  ', CAUTION)),
  ]);
}

function notes(list: readonly Note[]): string[] {
  return list.flatMap(({ where, say }) => wrapped('  ', where === '' ? say : `${where}: ${say}`));
}

function planLines(plan: Plan, unit: Unit): string[] {
  return [
    ...section('Bar to order', barLines(plan, unit)),
    ...plan.holdings.flatMap((holding) => holdingLines(holding, unit)),
    ...section('Off the lathe', plan.off_lathe.flatMap(cutLines)),
    ...section('Not held as drawn', unheldLines(plan, unit)),
    ...section(
      'Other ways of holding, and why not',
      plan.rejected.flatMap(({ way, why }) => wrapped('  ', `${way}: ${why}`)),
    ),
  ];
}

function barLines(plan: Plan, unit: Unit): string[] {
  const { bar, diameter_mm, length_mm } = plan.stock;
  const order = orderWords(plan, (mm) => sizeText(mm, unit, 'coarse'));
  return [
    `  ${bar}: diameter ${sizeText(diameter_mm, unit, 'coarse')}, this part uses ${sizeText(length_mm, unit, 'coarse')} of its length`,
    ...order.flatMap((line) => wrapped('  ', line)),
  ];
}

function holdingLines(holding: Holding, unit: Unit): string[] {
  const { id, device, grips, headstock, stick_out_mm, support, steady_at_mm, datum } = holding;
  const facts = [`drawn ${headstock} end toward the headstock`];
  if (grips) {
    const on = grips.on === 'bar' ? 'the bar' : grips.on.join(', ');
    facts.push(`grip ${sizeText(grips.z1_mm - grips.z0_mm, unit, 'coarse')} on ${on}`);
  }
  if (stick_out_mm !== null) facts.push(`stick out ${sizeText(stick_out_mm, unit, 'coarse')}`);
  if (support.length > 0) facts.push(`with ${support.join(' and ')}`);
  if (steady_at_mm !== null)
    facts.push(`steady at ${sizeText(steady_at_mm, unit, 'coarse')} from the first face`);
  return [
    ...section(
      `Holding ${id}: ${device === 'centres' ? 'between centres' : device}`,
      wrapped('  ', facts.join('; ')),
    ),
    ...wrapped('  zero: ', `station ${datum.station}. ${datum.how}`),
    ...holding.marks.flatMap(markLines),
    ...holding.cuts.flatMap(cutLines),
  ];
}

function markLines({ station, text, rule_text, from, before, waste }: Mark): string[] {
  const rule = rule_text === null ? '' : `, rule ${rule_text} from ${from}`;
  const side = waste === 'none' ? '' : `, waste on the drawn ${waste}`;
  return wrapped('  mark: ', `station ${station} at Z ${text}${rule}${side}; scribe it before cut ${before}`);
}

function cutLines(cut: Cut): string[] {
  const facts: string[] = [cut.kind];
  if (cut.tool !== null) facts.push(cut.tool);
  if (cut.passes > 1) facts.push(`${cut.passes} passes`);
  if (cut.hand_turned) facts.push('turned by hand');
  if (cut.rpm !== null) facts.push(`${cut.rpm} rpm`);
  // The sentence mostly names its readings itself; what it leaves out stands here.
  facts.push(...cut.readings.map(shown).filter((reading) => !cut.say.includes(reading)));
  const lead = `  [ ] ${String(cut.n).padStart(3)}  `;
  return [...wrapped(lead, facts.join(', ')), ...wrapped(' '.repeat(lead.length), cut.say)];
}

function unheldLines({ chart, stiffness }: Plan, unit: Unit): string[] {
  const size = (mm: number) => sizeText(mm, unit, 'fine');
  const held = chart
    .filter(({ ok }) => !ok)
    .map(({ length, allowed_mm: [least, most], held_mm: [from, to] }) => {
      return `${length}: drawn ${size(least)} to ${size(most)}, held ${size(from)} to ${size(to)}`;
    });
  const stiff = stiffness
    .filter(({ ok }) => !ok)
    .map(({ holding, segment, error_mm, limit_mm }) => {
      return `${segment} in ${holding}: bends ${(error_mm * 1000).toFixed(1)} µm on the diameter, ${(limit_mm * 1000).toFixed(1)} µm allowed`;
    });
  return [...held, ...stiff].flatMap((line) => wrapped('  ', line));
}
