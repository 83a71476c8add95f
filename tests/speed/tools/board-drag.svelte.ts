import Konva from 'konva';
import { flushSync, mount } from 'svelte';
import Board from '../../../src/board/Board.svelte';
import type { Choice } from '../../../src/board/choice.ts';
import { drawingOf } from '../../../src/board/drawing.ts';
import { labelMeasure } from '../../../src/board/label.ts';
import { sceneOf, type Scene } from '../../../src/board/scene.ts';
import { solveChains } from '../../../src/core/chains/solve.ts';
import { profilePicture } from '../../../src/core/outline/profile-picture.ts';
import { applyAll, type Transaction } from '../../../src/core/part/edit.ts';
import { readPart } from '../../../src/core/part/read-part.ts';
import { resolvePart } from '../../../src/core/part/resolve.ts';
import type { Part } from '../../../src/core/part/types.ts';
import type { Report } from '../../../src/core/report-types.ts';

const SEGMENTS = 200;
const FRAMES = 240;
/** The face that nothing ties to the left half: it is dragged, and all to its right goes along. */
const LOOSE = SEGMENTS / 2;
const SIZE = { width: 1400, height: 800 };

/** 200 segments with a diameter each, and 200 lengths: a chain with one link missing, and a bracketed one. */
function longPart(): Part {
  const at = (i: number) => i * 6;
  const lengths = Array.from({ length: SEGMENTS }, (_, i) => ({
    id: `L${i}`,
    from: `F${i}`,
    to: `F${i + 1}`,
    size: '6',
  })).filter((_, i) => i !== LOOSE - 1);
  const file = {
    shaftwright: 1,
    title: 'long',
    unit: 'mm',
    faces: Array.from({ length: SEGMENTS + 1 }, (_, i) => ({ id: `F${i}`, sketched: at(i) })),
    segments: Array.from({ length: SEGMENTS }, (_, i) => ({
      id: `s${i}`,
      form: 'cylinder',
      diameter: String(20 + (i % 5) * 4),
    })),
    points: [],
    lengths: [...lengths, { id: 'R', from: 'F0', to: 'F2', size: '12', role: 'reference' }],
  };
  const read = readPart(JSON.stringify(file), 'long');
  if (!read.ok) throw new Error(read.problem.say);
  return read.value;
}

const reportOf = (part: Part): Report => ({
  report: 1,
  part: part.title,
  unit: part.unit,
  chains: solveChains(resolvePart(part)).report,
  requirements: [],
  diameters: [],
  plan: null,
  warnings: [],
  errors: [],
});

/** Frames are asked for here and done when the clock says so, so that a whole frame's work is timed as one. */
const asked: FrameRequestCallback[] = [];
function holdFrames(): () => void {
  const own = window.requestAnimationFrame;
  window.requestAnimationFrame = (then) => asked.push(then);
  return () => (window.requestAnimationFrame = own);
}
const doFrames = () => {
  for (const then of asked.splice(0)) then(performance.now());
};

export type Row = { readonly mean: number; readonly p95: number };
/** Milliseconds of work a frame: `move` with what it asked to be drawn, and one pixel read so that it is really drawn. */
async function timed(move: (i: number) => void, canvases: () => readonly HTMLCanvasElement[]): Promise<Row> {
  const times: number[] = [];
  for (let i = 0; i < FRAMES + 30; i++) {
    const start = performance.now();
    move(i);
    flushSync();
    doFrames();
    for (const canvas of canvases()) canvas.getContext('2d')?.getImageData(0, 0, 1, 1);
    if (i >= 30) times.push(performance.now() - start);
    if (i % 10 === 0) await new Promise((done) => setTimeout(done, 0));
  }
  times.sort((a, b) => a - b);
  const mean = times.reduce((a, b) => a + b, 0) / times.length;
  return { mean, p95: times[Math.floor(times.length * 0.95)] ?? NaN };
}
const swing = (i: number) => Math.round(40 * Math.sin(i / 12));

class Bench {
  part = $state.raw() as Part;
  chosen = $state.raw<Choice | null>(null);
  readonly report = $derived.by(() => reportOf(this.part));
}

function host(): HTMLDivElement {
  const element = document.createElement('div');
  element.style.cssText = `width:${SIZE.width}px;height:${SIZE.height}px;position:absolute;top:0;left:0`;
  document.body.append(element);
  return element;
}

/** Our board, zoomed in until all is written, its loose face held by a pointer. */
async function ours(part: Part): Promise<Row & { restingDraws: number }> {
  const element = host();
  const bench = new Bench();
  bench.part = part;
  mount(Board, {
    target: element,
    props: {
      get part() {
        return bench.part;
      },
      get report() {
        return bench.report;
      },
      get chosen() {
        return bench.chosen;
      },
      lit: [],
      unit: 'mm',
      onedit: (change: Transaction) => (bench.part = applyAll(bench.part, change)),
      onchoose: (choice: Choice | null) => (bench.chosen = choice),
    },
  });
  flushSync();
  const surface = element.querySelector<HTMLElement>('.surface');
  if (!surface) throw new Error('no surface');
  for (let i = 0; i < 100 && !surface.querySelector('canvas'); i++)
    await new Promise((done) => setTimeout(done, 20));
  const middle = { x: SIZE.width / 2, y: surface.getBoundingClientRect().top + surface.clientHeight / 2 };
  const pointer = (type: string, x: number, y: number) =>
    surface.dispatchEvent(
      new PointerEvent(type, { clientX: x, clientY: y, pointerId: 5, button: 0, bubbles: true }),
    );
  // A made-up pointer cannot be captured; the board must not mind.
  surface.setPointerCapture = () => undefined;
  const wheel = { clientX: middle.x, clientY: middle.y, deltaY: -300, bubbles: true, cancelable: true };
  surface.dispatchEvent(new WheelEvent('wheel', wheel));
  flushSync();
  doFrames();
  const x = findFace(pointer, middle, () => bench.chosen);
  const layers = [...surface.querySelectorAll('canvas')];
  const draws = layers.map((layer) => countDraws(layer));
  pointer('pointerdown', x, middle.y);
  pointer('pointermove', x + 8, middle.y);
  flushSync();
  doFrames();
  const lifted = draws.map((count) => count.texts);
  const written = (draws[0]?.texts ?? 0) + (draws[1]?.texts ?? 0);
  if (written < 400) throw new Error(`only ${written} labels were drawn`);
  const row = await timed(
    (i) => pointer('pointermove', x + swing(i), middle.y),
    () => layers.slice(1),
  );
  const restingDraws = (draws[0]?.texts ?? 0) - (lifted[0] ?? 0);
  pointer('pointerup', x, middle.y);
  element.remove();
  return { ...row, restingDraws };
}

function findFace(
  pointer: (type: string, x: number, y: number) => void,
  middle: { x: number; y: number },
  chosen: () => Choice | null,
): number {
  const seen: string[] = [];
  for (let x = 40; x < SIZE.width; x += 4) {
    // A click far away between two near ones, or they would be a double click.
    for (const [at, y] of [
      [5, 90],
      [x, middle.y],
    ] as const) {
      pointer('pointerdown', at, y);
      pointer('pointerup', at, y);
    }
    flushSync();
    const id = chosen()?.id ?? '';
    if (id === `F${LOOSE}`) return x;
    seen.push(id);
  }
  throw new Error(`face F${LOOSE} was not found among ${seen.join(' ')}`);
}

/** Counts the texts that are written on a canvas from now on. */
function countDraws(canvas: HTMLCanvasElement): { texts: number } {
  const count = { texts: 0 };
  const pen = canvas.getContext('2d');
  if (!pen) return count;
  const own = pen.fillText.bind(pen);
  pen.fillText = (text: string, x: number, y: number) => {
    count.texts += 1;
    own(text, x, y);
  };
  return count;
}

/** The same shapes for the bare contenders: every line, area and label of the scene with its place. */
type Shape =
  | { readonly kind: 'path'; readonly points: number[]; readonly closed: boolean; readonly moves: boolean }
  | {
      readonly kind: 'text';
      readonly x: number;
      readonly y: number;
      readonly text: string;
      readonly moves: boolean;
    };

function shapesOf(scene: Scene, loose: ReadonlySet<string>, from: number): Shape[] {
  const { scale } = scene.view;
  const inPx = (points: readonly number[]) => points.map((v, i) => (i % 2 === 0 ? v * scale : -v * scale));
  const path = (points: number[], closed: boolean, moves: boolean): Shape => ({
    kind: 'path',
    points,
    closed,
    moves,
  });
  const arrow = (x: number, y: number, d: number, moves: boolean) =>
    path([x, y, x + d, y - 2.4, x + d, y + 2.4], true, moves);
  return [
    ...scene.picture.items.flatMap((item): Shape[] =>
      item.kind === 'text'
        ? []
        : [path(inPx(item.points), item.kind === 'area', (item.points[0] ?? 0) >= from)],
    ),
    ...scene.stations.flatMap((s): Shape[] =>
      s.line ? [path([s.x, s.line.from, s.x, s.line.to], false, loose.has(s.id))] : [],
    ),
    ...scene.dimensions.flatMap((d): Shape[] => {
      const moves = loose.has(d.from) || loose.has(d.to);
      return [
        path([d.x0, d.y, d.x1, d.y], false, moves),
        arrow(d.x0, d.y, 8, moves),
        arrow(d.x1, d.y, -8, moves),
        path(
          [d.textX, d.y - 16, d.textX + d.width, d.y - 16, d.textX + d.width, d.y - 3, d.textX, d.y - 3],
          true,
          moves,
        ),
        { kind: 'text', x: d.textX, y: d.y - 5, text: d.text, moves },
      ];
    }),
    ...scene.leaders.flatMap((l): Shape[] => {
      const moves = l.x / scale >= from;
      return [
        path([l.x, l.anchorY, l.x, l.y + 3, l.x + l.width, l.y + 3], false, moves),
        path(
          [l.x - 2, l.anchorY - 2, l.x + 2, l.anchorY - 2, l.x + 2, l.anchorY + 2, l.x - 2, l.anchorY + 2],
          true,
          moves,
        ),
        { kind: 'text', x: l.x + 3, y: l.y - 1, text: l.text, moves },
      ];
    }),
  ];
}

/** A bare stage: a node for each shape, what moves on a layer of its own and shifted as one group. */
async function twoLayers(shapes: readonly Shape[]): Promise<Row> {
  const element = host();
  const stage = new Konva.Stage({ container: element, ...SIZE });
  const [rest, move] = [new Konva.Layer(), new Konva.Layer({ listening: false })];
  const [still, moved] = [new Konva.Group({ x: 60, y: 400 }), new Konva.Group({ x: 60, y: 400 })];
  rest.add(still);
  move.add(moved);
  stage.add(rest, move);
  for (const shape of shapes) (shape.moves ? moved : still).add(nodeOf(shape));
  rest.draw();
  const row = await timed(
    (i) => {
      moved.x(60 + swing(i));
      move.batchDraw();
    },
    () => [move.getNativeCanvasElement()],
  );
  stage.destroy();
  element.remove();
  return row;
}

function nodeOf(shape: Shape): Konva.Shape {
  const plain = { listening: false, perfectDrawEnabled: false };
  if (shape.kind === 'text')
    return new Konva.Text({
      ...plain,
      x: shape.x,
      y: shape.y - 12,
      text: shape.text,
      fontSize: 13.5,
      fill: 'black',
    });
  const { points, closed } = shape;
  return new Konva.Line({
    ...plain,
    points,
    closed,
    stroke: 'black',
    strokeWidth: 1,
    ...(closed ? { fill: 'silver' } : {}),
  });
}

/** The whole drawing anew in plain calls, with every frame. */
async function raw(shapes: readonly Shape[]): Promise<Row> {
  const element = host();
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [SIZE.width, SIZE.height];
  element.append(canvas);
  const pen = canvas.getContext('2d');
  if (!pen) throw new Error('no 2D context');
  const row = await timed(
    (i) => {
      pen.setTransform(1, 0, 0, 1, 0, 0);
      pen.clearRect(0, 0, SIZE.width, SIZE.height);
      pen.font = '13.5px sans-serif';
      for (const shape of shapes) {
        pen.setTransform(1, 0, 0, 1, 60 + (shape.moves ? swing(i) : 0), 400);
        paint(pen, shape);
      }
    },
    () => [canvas],
  );
  element.remove();
  return row;
}

function paint(pen: CanvasRenderingContext2D, shape: Shape): void {
  if (shape.kind === 'text') {
    pen.fillStyle = 'black';
    return pen.fillText(shape.text, shape.x, shape.y);
  }
  pen.beginPath();
  shape.points.forEach((x, i) => {
    if (i % 2 === 1) return;
    if (i === 0) pen.moveTo(x, shape.points[1] ?? 0);
    else pen.lineTo(x, shape.points[i + 1] ?? 0);
  });
  if (shape.closed) {
    pen.closePath();
    pen.fillStyle = 'silver';
    pen.fill();
  }
  pen.stroke();
}

export async function measure() {
  const part = longPart();
  const pen = document.createElement('canvas').getContext('2d');
  if (!pen) throw new Error('no 2D context');
  const report = reportOf(part);
  const drawing = drawingOf(part, report, 'mm');
  const scale = (1.6 * SIZE.width) / drawing.places.extent;
  const written = labelMeasure(pen, { family: 'sans-serif', size: 13.5 });
  const picture = profilePicture(part, report, { places: drawing.places, hatch: 8 / scale });
  const scene = sceneOf(drawing, picture, { scale, x: 0, y: 0 }, written);
  const shapes = shapesOf(scene, drawing.places.loose, drawing.places.at.get(`F${LOOSE}`) ?? 0);
  const release = holdFrames();
  const rows = { ours: await ours(part), twoLayers: await twoLayers(shapes), raw: await raw(shapes) };
  release();
  return { ...rows, shapes: shapes.length, labels: shapes.filter(({ kind }) => kind === 'text').length };
}

Object.assign(globalThis, { measure });
