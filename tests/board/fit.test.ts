import { expect, test } from 'vitest';
import blower from '../../static/examples/blower-shaft.json';
import idler from '../../static/examples/idler-axle-open.json';
import winch from '../../static/examples/winch-spindle-clash.json';
import { drawingOf, type Drawing } from '../../src/board/drawing.ts';
import { fitted, showsKind } from '../../src/board/fit.ts';
import { labelMeasure } from '../../src/board/label.ts';
import { dimensionLabel, sceneOf, TIGHT, type Scene } from '../../src/board/scene.ts';
import type { Size } from '../../src/board/viewport.ts';
import { firstReport } from '../../src/core/first-report.ts';
import { readPart } from '../../src/core/part/read-part.ts';

const pen = document.createElement('canvas').getContext('2d');
if (!pen) throw new Error('no 2D context');
const SIZE = 13.5;
const measure = labelMeasure(pen, { family: 'sans-serif', size: SIZE });

function drawn(example: unknown): Drawing {
  const read = readPart(JSON.stringify(example), 'example');
  if (!read.ok) throw new Error(read.problem.say);
  return drawingOf(read.value, firstReport(read.value), read.value.unit);
}

function shown(drawing: Drawing, window: Size): { scene: Scene; written: Box[]; window: Size } {
  const { view, detail, sides, spacing } = fitted(drawing, window, measure);
  const at = { scale: view.scale, x: 0, y: 0 };
  const shows = ({ kind }: { kind: Parameters<typeof showsKind>[1] }) => showsKind(detail, kind);
  const scene = sceneOf(drawing, { items: [] }, at, measure, { shows, sides, spacing });
  const written = boxes(scene).map(({ says, x, y, width }) => ({
    says,
    x: x + view.x,
    y: y + view.y,
    width,
  }));
  return { scene, written, window };
}

/** A text on its baseline. */
type Box = { readonly says: string; readonly x: number; readonly y: number; readonly width: number };

/** Everything that is written beside the part, as `draw-dimension.ts` puts it. */
const boxes = ({ dimensions, leaders, sides }: Scene): Box[] => [
  ...dimensions.map((d) => ({ says: dimensionLabel(d), x: d.textX, y: d.y - 5, width: d.width })),
  ...leaders.map((l) => ({ says: l.text, x: l.x + 3, y: l.y - 1, width: l.width - 6 })),
  ...sides.map((s) => ({ says: s.text, x: s.textX, y: s.textY, width: s.width })),
];

/** Figures are about .72 of a font's size high. Source: cap height of common sans-serif faces, from memory. */
const HIGH = 0.72 * SIZE;

const boards = { desk: { width: 1440, height: 438 }, tablet: { width: 1024, height: 353 } } as const;
const phone: Size = { width: 390, height: 285 };
const examples = { blower, idler, winch } as const;

for (const [name, example] of Object.entries(examples)) {
  test(`every length and diameter of the ${name} example is written at the first fit, on a desk and a tablet`, () => {
    const drawing = drawn(example);
    for (const window of Object.values(boards)) {
      const { scene } = shown(drawing, window);
      expect(scene.dimensions.map(({ id }) => id).sort()).toEqual(
        drawing.dimensions.map(({ id }) => id).sort(),
      );
      const segments = [...scene.leaders, ...scene.sides].filter(({ choice }) => choice.kind === 'segment');
      expect(segments).toHaveLength(drawing.part.segments.length);
    }
  });

  test(`every length of the ${name} example is written on a phone too`, () => {
    const { scene } = shown(drawn(example), phone);
    expect(scene.dimensions).toHaveLength(drawn(example).dimensions.length);
  });

  test(`nothing that is written about the ${name} example lies on something else or off the board`, () => {
    for (const window of [...Object.values(boards), phone]) {
      const { written } = shown(drawn(example), window);
      for (const [i, a] of written.entries()) {
        expect(a.x, a.says).toBeGreaterThanOrEqual(0);
        expect(a.x + a.width, a.says).toBeLessThanOrEqual(window.width);
        expect(a.y - HIGH, a.says).toBeGreaterThanOrEqual(0);
        expect(a.y, a.says).toBeLessThanOrEqual(window.height);
        for (const b of written.slice(i + 1)) {
          const apart = a.x + a.width <= b.x || b.x + b.width <= a.x || Math.abs(a.y - b.y) >= HIGH;
          expect(apart, `${a.says} and ${b.says}`).toBe(true);
        }
      }
    }
  });
}

test('where a board is low, lanes move together before sizes are left out', () => {
  const drawing = drawn(blower);
  const tight = shown(drawing, boards.tablet).scene;
  expect(tight.spacing).toBe(TIGHT);
  const lanes = [...new Set(tight.dimensions.map(({ y }) => y))].sort((a, b) => a - b);
  for (const [i, y] of lanes.slice(1).entries()) expect(y - (lanes[i] ?? 0)).toBeCloseTo(TIGHT.lane, 6);
  const roomy = shown(drawing, { width: 1440, height: 800 }).scene;
  expect(roomy.spacing.lane).toBeGreaterThan(TIGHT.lane);
});
