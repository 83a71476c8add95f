import type { Problem } from '../../problem.ts';
import { flaw, inMm } from './flaw.ts';
import { at } from './scene.ts';
import type { Scene } from './scene.ts';

/**
 * The bar itself. Codes: `stock-length` (its length is not z1 − z0), `stock-too-small` (the part does not lie inside
 * it), `stock-end` (it does not reach to the inner end of the last grip on bar), `stock-diameter` (the named bar has
 * another), `stock-too-long` (longer than the bars at hand), `out-of-swing`.
 */
export function stockFlaws(scene: Scene): Problem[] {
  return [...stockSize(scene), ...stockAgainstLathe(scene), ...stockEnd(scene)];
}

function stockSize({ plan, outline }: Scene): Problem[] {
  const { stock } = plan;
  const [z0, z1, d] = [at(stock.z0_mm), at(stock.z1_mm), at(stock.diameter_mm)];
  const out: Problem[] = [];
  if (Math.abs(z1 - z0 - at(stock.length_mm)) > 1)
    out.push(
      flaw(
        'stock-length',
        'stock',
        `The bar runs over ${inMm(z1 - z0)} but is said to be ${stock.length_mm} mm long.`,
      ),
    );
  if (z0 > 0 || z1 < outline.length)
    out.push(flaw('stock-too-small', 'stock', 'The part is longer than the bar it is to be cut from.'));
  if (outline.segments.some((s) => Math.max(s.d0, s.d1) > d))
    out.push(flaw('stock-too-small', 'stock', 'The part is thicker than the bar it is to be cut from.'));
  return out;
}

function stockAgainstLathe({ plan, lathe }: Scene): Problem[] {
  const { stock } = plan;
  const out: Problem[] = [];
  const named = lathe.bars.diameters.find((bar) => bar.text === stock.bar);
  if (named && named.diameter !== at(stock.diameter_mm))
    out.push(
      flaw('stock-diameter', 'stock', `A bar of ${stock.bar} does not measure ${stock.diameter_mm} mm.`),
    );
  if (at(stock.length_mm) > lathe.bars.length)
    out.push(
      flaw(
        'stock-too-long',
        'stock',
        `The bars at hand are ${inMm(lathe.bars.length)} long; ${stock.length_mm} mm are wanted.`,
      ),
    );
  if (at(stock.diameter_mm) > lathe.swing)
    out.push(flaw('out-of-swing', 'stock', `A bar of ${stock.diameter_mm} mm does not swing over the bed.`));
  return out;
}

/** Work that is parted off uses up the bar as far as the innermost grip on its skin; a sawn blank is what it is. */
function stockEnd({ plan, held, steps }: Scene): Problem[] {
  const first = held[0];
  if (!steps.some((s) => s.cut.kind === 'part-off')) return [];
  if (!first || first.holding.grips?.on !== 'bar' || first.holding.device === 'centres') return [];
  const grips = held.filter((h) => h.holding.grips?.on === 'bar' && h.toHead === first.toHead);
  const inner = Math.max(...grips.map((h) => (h.grip ? (h.toHead > 0 ? h.grip.z1 : -h.grip.z0) : -Infinity)));
  const end = first.toHead > 0 ? at(plan.stock.z1_mm) : -at(plan.stock.z0_mm);
  return inner === end
    ? []
    : [flaw('stock-end', 'stock', 'The bar does not end where its innermost grip ends.')];
}
