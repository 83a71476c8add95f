import type { Outline } from '../outline/types.ts';
import type { ResolvedLathe, ResolvedPins, ResolvedTool } from '../part/resolved.ts';
import type { Material } from '../standards/materials.ts';
import { coned, type Piece, thickest, turned } from './billet.ts';
import { mm, type Work, zOf } from './frame.ts';
import { bladeReading, signOf, xReading, type Zero, zReading } from './readings.ts';
import type { Trial } from './trial.ts';
import { rpmFor } from './speeds.ts';
import { reachOf } from './unheld.ts';
import type { BladeEdge, Cut, CutKind, Holding, Reading, Setting, Support } from './types.ts';

/** What every step of planning needs to know. */
export type Bench = {
  readonly lathe: ResolvedLathe;
  readonly outline: Outline;
  readonly material: Material;
  readonly bar: number;
  /** Points where something crosses the axis. */
  readonly points: readonly string[];
  readonly pins: ResolvedPins;
  /** Fits that are proved on a trial land first. */
  readonly trials: readonly Trial[];
  /** The land that keeps a line along the axis; null: wherever something crosses the axis first. */
  readonly indexLine: string | null;
};

/** A cut as the planner thinks of it: places in u, diameters and lengths in pm. */
export type Step = {
  readonly kind: CutKind;
  readonly u0: number;
  readonly u1: number;
  readonly d0: number | null;
  readonly d1?: number | null;
  readonly segment?: string | null;
  readonly makes?: string | null;
  readonly tool?: ResolvedTool | null;
  readonly inside?: boolean;
  readonly passes?: number;
  readonly surface?: number;
  /** Diameter that the spindle speed goes by, pm; the thickest that stands (of a hole: what it leaves) where not said. */
  readonly across?: number | undefined;
  readonly feed?: number | null;
  readonly handTurned?: boolean;
  readonly support?: Support[] | null;
  readonly readings?: Reading[];
  readonly setting?: Setting | null;
  readonly say: string;
};

/** A finishing cut as it was met: what stood, how it was held up, how deep the last pass was (radius, pm). */
export type FinishNote = {
  readonly land: string;
  readonly u0: number;
  readonly u1: number;
  readonly depth: number;
  readonly pieces: readonly Piece[];
  readonly support: readonly Support[];
};

/** One holding while it is being planned: its cuts so far, the bar as it stands, which tools are touched off. */
export class HoldingDraft {
  readonly cuts: Cut[] = [];
  readonly finishes: FinishNote[] = [];
  /** How far out of the grip a cut reaches while nothing else holds the work up, in diameters of what stands there. */
  readonly reaches = new Map<Cut, number>();
  readonly zero: Zero;
  pieces: Piece[];
  support: Support[];
  private readonly touched = new Set<string>();
  readonly bench: Bench;
  readonly work: Work;
  readonly setup: Omit<Holding, 'marks' | 'cuts' | 'zero_z_mm' | 'z_sign'>;
  readonly datumU: number;
  /** Waste stands over the free end of the part when the holding begins. */
  readonly startsInWaste: boolean;

  constructor(
    bench: Bench,
    work: Work,
    pieces: readonly Piece[],
    setup: Omit<Holding, 'marks' | 'cuts' | 'zero_z_mm' | 'z_sign'>,
    datumU: number,
  ) {
    this.bench = bench;
    this.work = work;
    this.pieces = [...pieces];
    this.setup = setup;
    this.datumU = datumU;
    this.startsInWaste = (pieces[0]?.u0 ?? 0) < 0;
    this.support = [...setup.support];
    this.zero = { z: zOf(work, datumU), sign: signOf(work.headstock, bench.lathe) };
  }

  /** The place of a station in u. */
  at(station: string): number {
    const z = this.bench.outline.stations.get(station);
    if (z === undefined) throw new RangeError(`HoldingDraft.at: no station ${station}`);
    return this.work.headstock === 'left' ? this.work.length - z : z;
  }

  /** Z reading of a pointed tool. */
  z(u: number, station: string | null): Reading {
    return zReading(this.zero, zOf(this.work, u), station, this.bench.lathe);
  }

  /** Z reading of a blade whose given edge makes the wall at u. */
  bladeZ(
    u: number,
    makes: BladeEdge,
    station: string | null,
    blade: ResolvedTool & { kind: 'blade' },
  ): Reading {
    const at = { zero: this.zero, z: zOf(this.work, u), station, makes, headstock: this.work.headstock };
    return bladeReading(at, blade, this.bench.lathe);
  }

  /** Z reading for a tool that may be a blade: its tailstock edge makes a wall that looks to the headstock. */
  zOfWall(
    u: number,
    looksTo: 'tailstock' | 'headstock',
    station: string | null,
    tool: ResolvedTool,
  ): Reading {
    if (tool.kind !== 'blade') return this.z(u, station);
    return this.bladeZ(u, looksTo === 'tailstock' ? 'left' : 'right', station, tool);
  }

  x(d: number, inside = false): Reading {
    return xReading(d, this.bench.lathe, inside);
  }

  /** Adds a cut, turned into part coordinates. Metal that goes is taken off `pieces`. */
  add(step: Step): void {
    const { work, bench } = this;
    const turn = work.headstock === 'left';
    const dTail = step.d0;
    const dHead = step.d1 === undefined ? step.d0 : step.d1;
    const [dLeft, dRight] = turn ? [dHead, dTail] : [dTail, dHead];
    const za = zOf(work, step.u0);
    const zb = zOf(work, step.u1);
    const largest = Math.max(dTail ?? 0, dHead ?? 0);
    const cutting = step.surface !== undefined && !step.handTurned;
    const standing = step.inside ? largest : thickest(this.pieces, step.u0, step.u1);
    const across = step.across ?? Math.max(standing, largest);
    const cut: Cut = {
      n: 0,
      kind: step.kind,
      segment: step.segment ?? null,
      makes: step.makes ?? null,
      tool: step.tool?.id ?? null,
      inside: step.inside ?? false,
      z0_mm: mm(Math.min(za, zb)),
      z1_mm: mm(Math.max(za, zb)),
      d0_mm: dLeft === null ? null : mm(dLeft),
      d1_mm: dRight === null ? null : mm(dRight),
      passes: step.passes ?? 1,
      rpm: cutting ? rpmFor(step.surface, across, bench.lathe) : null,
      feed_mm: step.feed === undefined || step.feed === null ? null : mm(step.feed),
      hand_turned: step.handTurned ?? false,
      support: step.support ?? null,
      readings: step.readings ?? [],
      setting: step.setting ?? null,
      say: step.say,
    };
    this.cuts.push(cut);
    this.reaches.set(cut, reachOf(this, step));
    if (!REMOVES_OUTSIDE.has(step.kind) || step.inside) return;
    this.pieces =
      dTail === dHead || !['taper', 'rough'].includes(step.kind)
        ? turned(this.pieces, step.u0, step.u1, largest)
        : coned(this.pieces, step.u0, step.u1, dTail ?? 0, dHead ?? 0);
  }

  /** Keeps what the stiffness of a finishing cut depends on; only the last one of a land counts. */
  noteFinish(land: string, u0: number, u1: number, depth: number): void {
    const note = { land, u0, u1, depth, pieces: this.pieces, support: this.support };
    const at = this.finishes.findIndex((f) => f.land === land);
    if (at >= 0) this.finishes.splice(at, 1, note);
    else this.finishes.push(note);
  }

  /** True the first time a tool is asked for in this holding (or after `unset`). */
  needsTouch(tool: ResolvedTool): boolean {
    if (this.touched.has(tool.id)) return false;
    this.touched.add(tool.id);
    return true;
  }

  /** The tool was swung or taken out: it must be touched off again. */
  unset(tool: ResolvedTool): void {
    this.touched.delete(tool.id);
  }

  finished(): Holding {
    return {
      ...this.setup,
      zero_z_mm: mm(this.zero.z),
      z_sign: this.zero.sign,
      marks: [],
      cuts: this.cuts,
    };
  }
}

const REMOVES_OUTSIDE: ReadonlySet<CutKind> = new Set<CutKind>([
  'face',
  'rough',
  'finish',
  'groove',
  'taper',
  'chamfer',
  'fillet',
  'undercut',
  'part-off',
  'sever',
]);
