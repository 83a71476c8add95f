import type { Scene } from './scene.ts';
import type { SizeTarget } from './size-target.ts';
import type { Size, Spot, Viewport } from './viewport.ts';

/** Room above the middle of the field, for its label, and below it, px. */
const ABOVE = 42;
const BELOW = 34;

/** Where the field for a size stands: over its text, kept within the window; in its middle where the text has no room on the drawing. */
export function fieldSpot(scene: Scene, view: Viewport, window: Size, target: SizeTarget): Spot {
  const spot = onDrawing(scene, target);
  if (!spot) return { x: window.width / 2, y: window.height / 2 };
  const keep = (v: number, least: number, most: number) =>
    Math.min(Math.max(v, least), Math.max(most, least));
  return {
    x: keep(spot.x + view.x, 24, window.width - 24),
    y: keep(spot.y + view.y, ABOVE, window.height - BELOW),
  };
}

function onDrawing(scene: Scene, target: SizeTarget): Spot | null {
  if (target.kind === 'length') {
    const d = scene.dimensions.find((one) => one.id === target.id);
    return d ? { x: d.textX + d.width / 2, y: d.y - 10 } : null;
  }
  if (target.kind === 'new-length') {
    const [a, b] = [target.from, target.to].map((id) => scene.stations.find((s) => s.id === id));
    const below = scene.drawing.tall * scene.view.scale + 24;
    return a && b ? { x: (a.x + b.x) / 2, y: below } : null;
  }
  const side = scene.sides.find(({ choice }) => choice.kind === target.kind && choice.id === target.id);
  if (side) return { x: side.textX + side.width / 2, y: side.textY - 5 };
  const leader = scene.leaders.find((l) => l.choice.kind === target.kind && l.choice.id === target.id);
  return leader ? { x: leader.x + leader.width / 2, y: leader.y - 6 } : null;
}
