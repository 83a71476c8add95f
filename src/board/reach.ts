import { sameChoice, type Choice } from './choice.ts';
import { hitAreas } from './hit-areas.ts';
import type { Scene } from './scene.ts';
import type { Spot, Viewport } from './viewport.ts';

type Bounds = Scene['bounds'];

function boundsOf(points: readonly number[]): Bounds {
  const xs = points.filter((_, i) => i % 2 === 0);
  const ys = points.filter((_, i) => i % 2 === 1);
  return {
    left: Math.min(...xs),
    right: Math.max(...xs),
    top: Math.min(...ys),
    bottom: Math.max(...ys),
  };
}

/** What lies wholly inside a box drawn from one place of the window to another, each thing once. */
export function boxed(scene: Scene, { x, y }: Viewport, from: Spot, to: Spot): Choice[] {
  const [left, right] = [Math.min(from.x, to.x) - x, Math.max(from.x, to.x) - x];
  const [top, bottom] = [Math.min(from.y, to.y) - y, Math.max(from.y, to.y) - y];
  const inside = hitAreas(scene).filter(({ points }) => {
    const bounds = boundsOf(points);
    return bounds.left >= left && bounds.right <= right && bounds.top >= top && bounds.bottom <= bottom;
  });
  return inside.reduce<Choice[]>(
    (list, { choice }) => (list.some((one) => sameChoice(one, choice)) ? list : [...list, choice]),
    [],
  );
}

/** What some choices cover, px from the drawing's origin; null where none of them is on the drawing. */
export function stretchAround(scene: Scene, choices: readonly Choice[]): Bounds | null {
  const points = hitAreas(scene)
    .filter(({ choice }) => choices.some((one) => sameChoice(one, choice)))
    .flatMap((area) => area.points);
  return points.length > 0 ? boundsOf(points) : null;
}
