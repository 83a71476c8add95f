import type { PictureItem } from '../core/outline/picture.ts';
import { sameChoice, type Choice } from './choice.ts';
import { trace } from './draw-picture.ts';
import type { Pen } from './pen.ts';
import type { Inks } from './inks.ts';
import type { Scene } from './scene.ts';

/** What is to be told apart from the rest: by weight and a soft rim in graphite, as no colour is free for it. */
export type Lights = {
  readonly chosen: readonly Choice[];
  readonly hovered: Choice | null;
  /** Ids of stations, lengths, segments and so on that are being talked about elsewhere. */
  readonly lit: readonly string[];
};
type Weight = { readonly rim: number; readonly rimAlpha: number; readonly core: number };

const weights = {
  hovered: { rim: 9, rimAlpha: 0.1, core: 0 },
  lit: { rim: 10, rimAlpha: 0.2, core: 2 },
  chosen: { rim: 10, rimAlpha: 0.26, core: 2.8 },
} satisfies Record<string, Weight>;

export function drawLights(pen: Pen, scene: Scene, { chosen, hovered, lit }: Lights, inks: Inks): void {
  pen.lineJoin = 'round';
  pen.lineCap = 'round';
  pen.strokeStyle = inks.graphite;
  const litIds = new Set(lit);
  if (litIds.size > 0)
    glow(
      pen,
      pathsOf(scene, (_kind, id) => litIds.has(id)),
      weights.lit,
    );
  if (hovered && !chosen.some((one) => sameChoice(one, hovered)))
    glow(pen, pathsFor(scene, hovered), weights.hovered);
  for (const one of chosen) glow(pen, pathsFor(scene, one), weights.chosen);
}

const pathsFor = (scene: Scene, choice: Choice) =>
  pathsOf(scene, (kind, id) => id === choice.id && kind === choice.kind);

/** Lines to trace, in px from the drawing's origin (y down). */
function pathsOf(scene: Scene, wanted: (kind: Choice['kind'], id: string) => boolean): number[][] {
  const { scale } = scene.view;
  const inPx = (points: readonly number[]) => points.map((v, i) => (i % 2 === 0 ? v : -v) * scale);
  const tall = scene.drawing.tall * scale;
  const kinds = scene.drawing.kinds;
  const drawn = scene.picture.items.flatMap((item: PictureItem) => {
    if (item.kind === 'text' || item.id === undefined) return [];
    const kind = kinds.get(item.id);
    if (kind === undefined || kind === 'station' || !wanted(kind, item.id)) return [];
    if (item.kind === 'line') return kind === 'segment' ? [] : [inPx(item.points)];
    return offAxis([...item.points, ...item.points.slice(0, 2)]).map(inPx);
  });
  const stations = scene.stations
    .filter((s) => wanted('station', s.id))
    .map((s) => [s.x, -tall - 8, s.x, s.line?.to ?? tall + 8]);
  const dimensions = scene.dimensions
    .filter((d) => wanted('length', d.id))
    .flatMap((d) => [[d.x0, d.y, d.x1, d.y], box(d.textX - 4, d.y - 20, d.width + 8, 18)]);
  const leaders = scene.leaders
    .filter((l) => wanted(l.choice.kind, l.choice.id))
    .map((l) => box(l.x, l.y - 15, l.width + 2, 19));
  const sides = scene.sides
    .filter((s) => wanted(s.choice.kind, s.choice.id))
    .map((s) => box(s.textX - 4, s.textY - 16, s.width + 8, 22));
  return [...drawn, ...stations, ...dimensions, ...leaders, ...sides];
}

/** A border without its stretch along the axis, where the other half joins. */
function offAxis(points: readonly number[]): number[][] {
  const runs: number[][] = [];
  let open = false;
  for (let i = 0; i + 3 < points.length; i += 2) {
    const [ax = 0, ay = 0, bx = 0, by = 0] = points.slice(i, i + 4);
    if (ay === 0 && by === 0) open = false;
    else {
      if (!open) runs.push([ax, ay]);
      runs.at(-1)?.push(bx, by);
      open = true;
    }
  }
  return runs;
}

const box = (x: number, y: number, w: number, h: number) => [x, y, x + w, y, x + w, y + h, x, y + h, x, y];

function glow(pen: Pen, paths: readonly number[][], weight: Weight): void {
  if (paths.length === 0) return;
  pen.beginPath();
  for (const points of paths)
    trace(
      pen,
      points.map((v, i) => (i % 2 === 0 ? v : -v)),
      1,
    );
  pen.globalAlpha = weight.rimAlpha;
  pen.lineWidth = weight.rim;
  pen.stroke();
  pen.globalAlpha = 1;
  if (weight.core === 0) return;
  pen.lineWidth = weight.core;
  pen.stroke();
}
