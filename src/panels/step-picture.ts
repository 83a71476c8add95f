import type { Step } from '../bench/steps.ts';
import { barPicture } from '../core/marks/bar-picture.ts';
import type { Picture } from '../core/outline/picture.ts';
import { handlesOf, type Handles } from './plan/handles.ts';
import type { Shop } from './shop.svelte.ts';

/** The bar as it stands at a step; null before there is a plan. */
export function pictureOf({ report, unit }: Shop, { holding, cut }: Step): Picture | null {
  if (!report.plan || !holding) return null;
  return barPicture(report.plan, report.plan.holdings.indexOf(holding), cut.n, { unit });
}

/** What lies on the board instead of the drawing: the bar of the step or the holding that is looked at. */
export function pictureAt(shop: Shop): Picture | null {
  const { plan } = shop.report;
  const step = shop.plan.steps[shop.plan.at];
  if (shop.place === 'cut' && step) return pictureOf(shop, step);
  if (shop.place !== 'hold' || !plan || !shop.plan.holding) return null;
  return barPicture(plan, plan.holdings.indexOf(shop.plan.holding), null, { unit: shop.unit });
}

/** What can be dragged on that bar; null where nothing can. */
export function handlesAt(shop: Shop): Handles | null {
  const { plan, chains } = shop.report;
  const holding = shop.place === 'cut' ? shop.plan.steps[shop.plan.at]?.holding : shop.plan.holding;
  if (!plan || !holding) return null;
  return handlesOf(plan, holding, shop.document.part, chains.stations);
}
