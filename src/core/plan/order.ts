import { PM_PER, pm, type Length } from '../lengths/length.ts';
import { largestDiameter } from '../outline/solid.ts';
import type { Outline } from '../outline/types.ts';
import type { ResolvedLathe } from '../part/resolved.ts';
import { barAtOrOver } from '../standards/bars.ts';
import { fromReport, removesMetal } from './bar.ts';
import { barGrip } from './grips.ts';
import { roomBehind, turnTool } from './tool-choice.ts';
import type { BarRow, Plan } from './types.ts';

/** What a saw takes, with the slant of its cut: 2 mm. Common practice, no source. */
const SAW = 2_000_000_000;

type Bar = { readonly text: string; readonly diameter: Length; readonly at_hand: boolean };

/** Picometres: what every part uses up, what the bar needs once besides, and what goes between two parts. */
type Use = { readonly each: number; readonly rest: number; readonly between: number };

/**
 * What each bar costs in length, thinnest first: the bar of the plan, those of the lathe file that clean up and can be
 * held, and the smallest commonly stocked one that cleans up. `B` is the length of a bar of the lathe file.
 *
 * - Out of the bar, one part after another: a part uses the bar from its free end to the innermost place that a tool
 *   reaches, `each` (facing, the part, kerf, room for a tool behind it). What stands from there to the inner end of the
 *   grip, `rest`, is needed only once and stays in the holder at the end. One part takes `each + rest`, a bar yields
 *   `floor((B − rest) / each)`, and `B − parts · each` remains.
 * - Sawn to blanks (a plan with no part-off, or a bar that does not pass the spindle): every part takes a whole blank,
 *   with a saw cut between two. A bar yields `floor((B + saw) / (blank + saw))`, and `B − parts · (blank + saw)`
 *   remains, never less than nothing.
 *
 * The lengths are the plan's. For another diameter they grow or shrink with what must be gripped, and grow with the
 * room that the left-hand tool wants behind a taller wall: no plan is made for that bar, so they are the most it takes.
 *
 * @returns Lengths in millimetres. No row for a bar that is not to be had by name: never throws, whatever the figures.
 */
export function orderOf(plan: Plan, outline: Outline, lathe: ResolvedLathe): NonNullable<Plan['order']> {
  const own = fromReport(plan.stock.diameter_mm) ?? pm(0);
  const cleans = pm(largestDiameter(outline) + lathe.cut.allowance);
  const fits = ({ diameter }: Bar): boolean =>
    diameter === own || (diameter >= cleans && diameter <= lathe.swing && barGrip(lathe, diameter) !== null);
  const bars = barsToBeHad(lathe, cleans)
    .filter(fits)
    .sort((a, b) => a.diameter - b.diameter)
    .map(({ text, diameter, at_hand }): BarRow => {
      const use = useOf(plan, lathe, own, diameter);
      const sawn = use.between > 0;
      return {
        bar: text,
        diameter_mm: mm(diameter),
        at_hand,
        planned: diameter === own,
        sawn,
        one_mm: mm(use.each + use.rest),
        next_mm: mm(use.each + use.between),
        ...yielded(use, lathe.bars.length),
      };
    });
  return { bar_mm: mm(lathe.bars.length), bars };
}

function barsToBeHad(lathe: ResolvedLathe, cleans: Length): Bar[] {
  const own = lathe.bars.diameters.map((bar) => ({ ...bar, at_hand: true }));
  const stocked = barAtOrOver(cleans, lathe.unit);
  if (!stocked || own.some((bar) => bar.diameter === stocked.diameter)) return own;
  // Bars go by their size alone here, as they do in the lathe file.
  return [...own, { text: stocked.name.replace(' mm', ''), diameter: stocked.diameter, at_hand: false }];
}

function useOf(plan: Plan, lathe: ResolvedLathe, own: number, diameter: number): Use {
  const whole = (fromReport(plan.stock.length_mm) ?? 0) + gripDifference(plan, lathe, own, diameter);
  const room = roomDifference(lathe, own, diameter);
  const parted = plan.holdings.some((h) => h.cuts.some((c) => c.kind === 'part-off'));
  if (!parted || diameter > lathe.spindleBore) return { each: whole + room, rest: 0, between: SAW };
  const each = reached(plan);
  return { each: each + room, rest: whole - each, between: 0 };
}

/** From the bar's free end to the innermost place that is cut while the bar itself is held. */
function reached({ stock, holdings }: Plan): number {
  const first = holdings[0]?.headstock ?? 'right';
  const cuts = holdings
    .filter((h) => h.grips?.on === 'bar' && h.headstock === first)
    .flatMap((h) => h.cuts.filter(removesMetal));
  const places = cuts.flatMap((c) => [fromReport(c.z0_mm) ?? 0, fromReport(c.z1_mm) ?? 0]);
  const [z0, z1] = [fromReport(stock.z0_mm) ?? 0, fromReport(stock.z1_mm) ?? 0];
  return first === 'right' ? Math.max(z0, ...places) - z0 : z1 - Math.min(z1, ...places);
}

/** How much longer a bar of another diameter is gripped; between centres, by the dog. */
function gripDifference(plan: Plan, lathe: ResolvedLathe, own: number, diameter: number): number {
  const dog = (d: number): number => Math.max(d / 2, 10_000_000_000);
  if (plan.holdings.some((h) => h.device === 'centres')) return Math.round(dog(diameter) - dog(own));
  const grip = (d: number): number => barGrip(lathe, d)?.length ?? 0;
  return grip(diameter) - grip(own);
}

function roomDifference(lathe: ResolvedLathe, own: number, diameter: number): number {
  const left = turnTool(lathe, 'left');
  return left && diameter > own ? roomBehind(left, (diameter - own) / 2) : 0;
}

function yielded({ each, rest, between }: Use, bar: number): { parts: number; left_mm: number } {
  if (each + rest > bar || each + between <= 0) return { parts: 0, left_mm: mm(bar) };
  const parts = Math.floor((bar - rest + between) / (each + between));
  return { parts, left_mm: mm(Math.max(0, bar - parts * (each + between))) };
}

const mm = (count: number): number => count / PM_PER.mm;
