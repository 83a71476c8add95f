import { flushSync, mount, unmount } from 'svelte';
import { page, userEvent } from 'vitest/browser';
import '../../src/app.css';
import Board from '../../src/board/Board.svelte';
import type { Choice } from '../../src/board/choice.ts';
import { fitted, showsKind, type Detail } from '../../src/board/fit.ts';
import { readInks } from '../../src/board/inks.ts';
import { labelMeasure } from '../../src/board/label.ts';
import { drawingOf } from '../../src/board/drawing.ts';
import { sceneOf, type Scene } from '../../src/board/scene.ts';
import type { Size, Spot, Viewport } from '../../src/board/viewport.ts';
import { solveChains } from '../../src/core/chains/solve.ts';
import type { Picture } from '../../src/core/outline/picture.ts';
import { applyAll, type Transaction } from '../../src/core/part/edit.ts';
import { resolvePart } from '../../src/core/part/resolve.ts';
import type { Part } from '../../src/core/part/types.ts';
import type { Report } from '../../src/core/report-types.ts';

/** The chains solved, the rest of a report left empty: all that the board reads but diameters, which it can do without. */
export const reportOf = (part: Part): Report => ({
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

/** A board on a page, with what it asked for kept, driven by real pointer and key events. */
export class BoardBench {
  part = $state.raw() as Part;
  chosen = $state.raw<Choice | null>(null);
  lit = $state.raw<readonly string[]>([]);
  picture = $state.raw<Picture | null>(null);
  readonly changes: Transaction[] = [];
  #app: Record<string, unknown> = {};
  readonly #host = document.createElement('div');

  constructor(part: Part, size = { width: 1000, height: 600 }) {
    this.part = part;
    this.#host.style.width = `${size.width}px`;
    this.#host.style.height = `${size.height}px`;
    document.body.append(this.#host);
    const bench = (): BoardBench => this;
    this.#app = mount(Board, {
      target: this.#host,
      props: {
        get part() {
          return bench().part;
        },
        get report() {
          return reportOf(bench().part);
        },
        get chosen() {
          return bench().chosen;
        },
        get lit() {
          return bench().lit;
        },
        get picture() {
          return bench().picture;
        },
        get unit() {
          return bench().part.unit;
        },
        onedit: (change: Transaction) => {
          this.changes.push(change);
          this.part = applyAll(this.part, change);
        },
        onchoose: (choice: Choice | null) => (this.chosen = choice),
      },
    });
    flushSync();
  }

  static async of(part: Part, size?: Size): Promise<BoardBench> {
    await page.viewport(1100, 700);
    const bench = new BoardBench(part, size);
    await bench.settled();
    return bench;
  }

  close(): void {
    void unmount(this.#app);
    this.#host.remove();
  }

  get surface(): HTMLElement {
    const found = this.#host.querySelector<HTMLElement>('.surface');
    if (!found) throw new Error('the board has no surface');
    return found;
  }

  get field(): HTMLInputElement | null {
    return this.#host.querySelector<HTMLInputElement>('.field input');
  }

  get saidWrong(): string {
    return this.#host.querySelector('.say')?.textContent ?? '';
  }

  get label(): string {
    return this.surface.getAttribute('aria-label') ?? '';
  }

  button(name: string): HTMLElement {
    const found = [...this.#host.querySelectorAll<HTMLElement>('button')].find(
      (b) => b.textContent?.trim() === name,
    );
    if (!found) throw new Error(`no button ${name}`);
    return found;
  }

  /** Until the font is there and the canvas is drawn. */
  async settled(): Promise<void> {
    await document.fonts.ready;
    for (let i = 0; i < 50 && !this.surface.querySelector('canvas'); i++) await pause(20);
    await pause(50);
  }

  /** The fitted drawing, worked out beside the board with the same font and window. */
  fitted(): { scene: Scene; view: Viewport; detail: Detail } {
    const pen = document.createElement('canvas').getContext('2d');
    if (!pen) throw new Error('no 2D context');
    const measure = labelMeasure(pen, { family: readInks(this.surface).family, size: 13.5 });
    const drawing = drawingOf(this.part, reportOf(this.part), this.part.unit);
    const window = { width: this.surface.clientWidth, height: this.surface.clientHeight };
    const { view, detail, sides, spacing } = fitted(drawing, window, measure);
    const at = { scale: view.scale, x: 0, y: 0 };
    const scene = sceneOf(drawing, { items: [] }, at, measure, {
      shows: ({ kind }) => showsKind(detail, kind),
      sides,
      spacing,
    });
    return { scene, view, detail };
  }

  /** Where a station is, halfway up its face. */
  faceSpot(id: string): Spot {
    const { scene, view } = this.fitted();
    const station = scene.stations.find((s) => s.id === id);
    if (!station) throw new Error(`no station ${id}`);
    return { x: view.x + station.x, y: view.y - (station.radius * view.scale) / 2 };
  }

  lengthSpot(id: string): Spot {
    const { scene, view } = this.fitted();
    const d = scene.dimensions.find((one) => one.id === id);
    if (!d) throw new Error(`no length ${id}`);
    return { x: view.x + d.textX + d.width / 2, y: view.y + d.y - 10 };
  }

  noteSpot(id: string): Spot {
    const { scene, view } = this.fitted();
    const side = scene.sides.find((s) => s.choice.id === id);
    if (side) return { x: view.x + side.textX + side.width / 2, y: view.y + side.textY - 5 };
    const leader = scene.leaders.find((l) => l.choice.id === id);
    if (!leader) throw new Error(`no note for ${id}`);
    return { x: view.x + leader.x + leader.width / 2, y: view.y + leader.y - 6 };
  }

  async click(position: Spot): Promise<void> {
    await userEvent.click(this.surface, { position });
    await pause(20);
  }

  async double(position: Spot): Promise<void> {
    await userEvent.dblClick(this.surface, { position });
    await pause(20);
  }

  async drag(from: Spot, to: Spot): Promise<void> {
    await userEvent.dragAndDrop(this.surface, this.surface, {
      sourcePosition: from,
      targetPosition: to,
      steps: 6,
    });
    await pause(20);
  }

  /** Moves the paper: a drag with the space bar held. */
  async pan(from: Spot, to: Spot): Promise<void> {
    this.surface.focus();
    await this.keys('[Space>]');
    await this.drag(from, to);
    await this.keys('[/Space]');
  }

  async keys(keys: string): Promise<void> {
    await userEvent.keyboard(keys);
    await pause(20);
  }

  /** A pixel of what is drawn, layers put together. */
  pixel({ x, y }: Spot): number[] {
    const layers = [...this.surface.querySelectorAll('canvas')];
    const sum = document.createElement('canvas');
    const pen = sum.getContext('2d');
    const first = layers[0];
    if (!pen || !first) throw new Error('nothing is drawn');
    sum.width = first.width;
    sum.height = first.height;
    for (const layer of layers) pen.drawImage(layer, 0, 0);
    const ratio = first.width / this.surface.clientWidth;
    return [...pen.getImageData(Math.round(x * ratio), Math.round(y * ratio), 1, 1).data];
  }
}

export const pause = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));
