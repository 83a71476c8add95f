import { fromMm, type Length, minus, plus, pm, toMm, ZERO } from '../lengths/length.ts';
import { writeReading } from '../lengths/write.ts';
import type { ResolvedLathe } from '../part/resolved.ts';
import type { Cut, Holding, Reading } from '../plan/types.ts';
import type { FaceLog } from './face-log.ts';
import { type Measured, readShown } from './read-actual.ts';
import { byEdge, type Edge } from './blade-edge.ts';
import { correction, onReadout, shiftRow, writeChange } from './rezero.ts';
import type { Placed } from './step-name.ts';
import type { AimNow, MarkNow, Places, ReadingNow, ShiftRow } from './types.ts';

/** A size measured at a step, with its number in the log. */
export type AtStep = { readonly actual: Measured; readonly at: number; readonly size: Length };

export type Shop = {
  readonly lathe: ResolvedLathe;
  readonly steps: readonly Placed[];
  readonly done: ReadonlySet<number>;
  readonly aims: Places;
  readonly faces: FaceLog;
  readonly diameters: readonly AimNow[];
  readonly measuredAt: ReadonlyMap<number, readonly AtStep[]>;
  /** The edge that each blade was touched off by, by the number of the cut from which that holds. */
  readonly edgeAt: ReadonlyMap<number, ReadonlyMap<string, Edge>>;
};

const SIZING: ReadonlySet<Cut['kind']> = new Set<Cut['kind']>(['finish', 'spring', 'measure', 'groove']);

/** Readings as they are now, step by step: what one axis of one tool is off by in a holding, until touched off again. */
class Follower {
  readonly shifts: ShiftRow[] = [];
  readonly readings: ReadingNow[] = [];
  readonly #shop: Shop;
  readonly #off = new Map<string, Length>();
  /** The edge that a blade was touched off by, where it was said. */
  readonly #edge = new Map<string, Edge>();
  /** The tool that last worked a segment or a hole in the holding. */
  readonly #toolOn = new Map<string, string>();
  /** The tool that last cut up to a face in the holding, and what Z was to show by the plan. */
  readonly #makerOf = new Map<string, { tool: string; value_mm: number }>();

  constructor(shop: Shop) {
    this.#shop = shop;
  }

  hold(holding: Holding, steps: readonly Placed[]): void {
    this.#off.clear();
    this.#edge.clear();
    this.#toolOn.clear();
    this.#makerOf.clear();
    for (const { cut } of steps) {
      for (const [blade, edge] of this.#shop.edgeAt.get(cut.n) ?? []) this.#edge.set(blade, edge);
      const tool = this.#toolOf(cut);
      if (cut.kind === 'touch') for (const axis of ['X', 'Z'] as const) this.#off.delete(axis + tool);
      const now = cut.readings.map((reading, at) => this.#now(holding, { cut, reading, at, tool }));
      if (!this.#shop.done.has(cut.n)) this.readings.push(...now.filter(({ by_mm }) => by_mm !== 0));
      for (const one of this.#shop.measuredAt.get(cut.n) ?? []) this.#take(holding, cut, tool, now, one);
    }
  }

  #toolOf(cut: Cut): string {
    const works = [cut.segment, cut.makes].filter((of) => of !== null);
    const { tool } = cut;
    if (tool === null) return works.map((of) => this.#toolOn.get(of)).find((found) => found) ?? '';
    for (const of of works) this.#toolOn.set(of, tool);
    for (const reading of cut.kind === 'touch' ? [] : cut.readings) {
      const { axis, station } = reading;
      const { value_mm } = byEdge(reading, this.#edge.get(tool));
      if (axis === 'Z' && station) this.#makerOf.set(station, { tool, value_mm });
    }
    return tool;
  }

  #shift(axis: 'X' | 'Z', tool: string): Length {
    return this.#off.get(axis + tool) ?? ZERO;
  }

  #now(
    holding: Holding,
    { cut, reading: drawn, at, tool }: { cut: Cut; reading: Reading; at: number; tool: string },
  ): ReadingNow {
    // A tool is touched off on the face itself, by whichever edge.
    const reading = cut.kind === 'touch' ? drawn : byEdge(drawn, this.#edge.get(tool));
    const { lathe } = this.#shop;
    const shift = reading.axis === 'quill' ? ZERO : this.#shift(reading.axis, tool);
    const wanted = drawn.axis === 'X' ? this.#aimChange(cut) : this.#faceChange(holding, cut, drawn);
    const round = reading.axis === 'Z' ? 'nearest' : cut.inside ? 'down' : 'up';
    const { resolution } = lathe.readout;
    const write = (value_mm: number) => {
      const value = pm(fromMm(value_mm) + wanted - shift);
      return { value, text: writeReading(value, lathe.unit, resolution, round) };
    };
    const planned = readShown(drawn.text, lathe.unit) ?? fromMm(drawn.value_mm);
    // A reading that nothing moved keeps its text, whatever it was rounded by.
    const same = wanted === shift || reading.axis === 'quill';
    const value = same ? fromMm(reading.value_mm) : write(reading.value_mm).value;
    const text = same ? reading.text : write(reading.value_mm).text;
    const by = text === drawn.text ? ZERO : minus(readShown(text, lathe.unit) ?? planned, planned);
    const other = reading.other ? (same ? reading.other : write(reading.other.value_mm)) : null;
    return {
      n: cut.n,
      at,
      axis: reading.axis,
      planned: drawn.text,
      text,
      value_mm: toMm(value),
      edge: reading.edge ?? null,
      other:
        reading.other && other
          ? {
              edge: reading.other.edge,
              text: other.text,
              value_mm: 'value' in other ? toMm(other.value) : other.value_mm,
            }
          : null,
      by_mm: toMm(by),
      by: writeChange(by, lathe),
      why: [
        ...(reading === drawn ? [] : (['edge'] as const)),
        ...(shift === 0 ? [] : (['readout'] as const)),
        ...(wanted === 0 ? [] : [reading.axis === 'X' ? ('aim' as const) : ('face' as const)]),
      ],
    };
  }

  /** By how much X is to show more, because the diameter has another aim. */
  #aimChange(cut: Cut): Length {
    const aim = this.#shop.diameters.find(({ segment }) => segment === cut.segment);
    if (!aim || !SIZING.has(cut.kind)) return ZERO;
    return onReadout(fromMm(aim.aim_mm) - fromMm(aim.was_mm), this.#shop.lathe);
  }

  #faceChange(holding: Holding, cut: Cut, reading: Reading): Length {
    if (reading.axis !== 'Z') return ZERO;
    const station = reading.station ?? this.#nearestFace(holding, cut, reading);
    const { aims, faces } = this.#shop;
    return station === null ? ZERO : faceChange(aims, faces.resolved.places, holding, station);
  }

  /** The shoulder that a roughing cut stops short of, which it keeps its distance from. */
  #nearestFace(holding: Holding, cut: Cut, reading: Reading): string | null {
    if (cut.kind === 'touch') return null;
    const tip = holding.zero_z_mm + holding.z_sign * reading.value_mm;
    const wall = Math.abs(cut.z0_mm - tip) <= Math.abs(cut.z1_mm - tip) ? cut.z0_mm : cut.z1_mm;
    const near = toMm(this.#shop.lathe.cut.allowance);
    let found: string | null = null;
    let best = near;
    for (const [station, place] of this.#shop.aims) {
      const apart = Math.abs(toMm(place) - wall);
      if (apart <= best) [found, best] = [station, apart];
    }
    return found;
  }

  /** A size measured at this step corrects its tool from the next step on. */
  #take(
    holding: Holding,
    cut: Cut,
    tool: string,
    now: readonly ReadingNow[],
    { actual, at, size }: AtStep,
  ): void {
    if (actual.what === 'face') return this.#takeFace(holding, cut, actual, at);
    if (actual.what !== 'diameter' && actual.what !== 'touch') return;
    const by = actual.what === 'touch' && actual.of !== '' ? actual.of : tool;
    const reading = now.find(({ axis }) => axis === 'X');
    const { lathe } = this.#shop;
    const shown = readShown(actual.shown ?? reading?.text ?? '', actual.unit ?? lathe.unit);
    if (shown === null || by === '') return;
    const truth = onReadout(size, lathe);
    this.#correct({ holding, cut, tool: by, axis: 'X' }, shown, truth, actual.set ?? 'readings');
  }

  /** A face that came out elsewhere was a slip unless it is said that the readout was off. */
  #takeFace(holding: Holding, cut: Cut, actual: Measured & { what: 'face' }, at: number): void {
    const out = this.#shop.faces.cameOut.get(at);
    const made = this.#makerOf.get(actual.of);
    if (!actual.set || !out || !made) return;
    const { lathe, aims } = this.#shop;
    const { tool } = made;
    const wanted = plus(fromMm(made.value_mm), faceChange(aims, out.before, holding, actual.of));
    const truth = plus(wanted, pm((out.apart - out.aimed) * holding.z_sign));
    const typed = actual.shown === undefined ? null : readShown(actual.shown, actual.unit ?? lathe.unit);
    const shown = typed ?? minus(wanted, this.#shift('Z', tool));
    this.#correct({ holding, cut, tool, axis: 'Z' }, shown, truth, actual.set);
  }

  #correct(
    { holding, cut, tool, axis }: { holding: Holding; cut: Cut; tool: string; axis: 'X' | 'Z' },
    shown: Length,
    truth: Length,
    set: 'readout' | 'readings',
  ): void {
    const made = correction(this.#shift(axis, tool), shown, truth, set, this.#shop.lathe);
    this.#off.set(axis + tool, made.shift);
    const at = { holding: holding.id, tool, axis, after: cut.n, shown };
    this.shifts.push(shiftRow(at, made, this.#shop.lathe));
  }
}

/** By how much Z is to show more in a holding, because a face goes elsewhere, seen from the holding's datum. */
function faceChange(aims: Places, now: Places, holding: Holding, station: string): Length {
  const moved = (id: string) => (now.get(id) ?? 0) - (aims.get(id) ?? 0);
  return pm((moved(station) - moved(holding.datum.station)) * holding.z_sign);
}

/**
 * Readings and corrections with what was measured up to now. Steps that are ticked keep the readings they were cut by.
 */
export function followReadings(shop: Shop): { shifts: ShiftRow[]; readings: ReadingNow[]; marks: MarkNow[] } {
  const follower = new Follower(shop);
  const marks: MarkNow[] = [];
  const held = new Map<Holding, Placed[]>();
  for (const step of shop.steps)
    if (step.holding) held.set(step.holding, [...(held.get(step.holding) ?? []), step]);
  for (const [holding, steps] of held) {
    follower.hold(holding, steps);
    for (const mark of holding.marks) {
      const change = faceChange(shop.aims, shop.faces.resolved.places, holding, mark.station);
      if (change === 0 || shop.done.has(mark.before)) continue;
      const value = pm(fromMm(mark.reading_mm) + change);
      const text = writeReading(value, shop.lathe.unit, shop.lathe.readout.resolution, 'nearest');
      marks.push({ holding: holding.id, station: mark.station, text, reading_mm: toMm(value) });
    }
  }
  return { shifts: follower.shifts, readings: follower.readings, marks };
}
