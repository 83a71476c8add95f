import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import type { Lathe } from '../../../src/core/part/lathe.ts';
import { metricLathe } from '../../../src/core/part/metric-lathe.ts';
import { readPart } from '../../../src/core/part/read-part.ts';
import type { Part } from '../../../src/core/part/types.ts';

/** A lathe with little: a chuck, no collets, a radius readout that counts up toward the headstock. */
export const plainLathe: Lathe = {
  ...firstLathe,
  name: 'plain lathe',
  collets: null,
  support: ['centre', 'steady'],
  between_centres_drive: false,
  readout: { ...firstLathe.readout, x: 'radius', z_positive: 'headstock' },
  tools: firstLathe.tools.map((t) => (t.kind === 'blade' ? { ...t, edge: 'right' as const } : t)),
};

export const threeLathes: readonly Lathe[] = [firstLathe, metricLathe, plainLathe];

/** Mulberry32: a small seeded generator, so that a failing part can be named by its seed. */
export function random(seed: number): () => number {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const FACES = 'ABCDEFGHJKMNPQRSTUVW';

/**
 * A part that a turner could make: lands that rise to one thick land and fall away again, long enough to be gripped
 * there, with grooves, threads and tapers at the ends, chamfers, and holes that leave a wall.
 */
export function makeablePart(seed: number): Part {
  const next = random(seed);
  const int = (from: number, to: number): number => from + Math.floor(next() * (to - from + 1));
  const chance = (p: number): boolean => next() < p;
  const top = int(20, 34) / 2;
  const rising = steps(top, int(0, 3), int).reverse();
  const falling = steps(top, int(0, 3), int);
  const diameters = [...rising, top, ...falling];
  const segments: object[] = diameters.map((d, i) => land(i, d, d === top, chance, next));
  const lengths = diameters.map((d) => (d === top ? int(Math.ceil(top) + 4, 34) : int(8, 24)));
  endForms(segments, diameters, lengths, chance);
  if (chance(0.4)) groove(segments, lengths, diameters, rising.length, int);
  const ends = holes(diameters, chance);
  const faces = Array.from({ length: segments.length + 1 }, (_, i) => ({ id: FACES[i], sketched: i }));
  const last = FACES[segments.length] ?? 'A';
  const document = {
    shaftwright: 1,
    title: `Random ${seed}`,
    unit: 'mm',
    material: 'mild-steel',
    general: { lengths: { rule: 'iso2768', class: 'm' }, diameters: { rule: 'iso2768', class: 'm' } },
    faces,
    segments: segments.map((s, i) => ({ ...s, id: `s${i}` })),
    lengths: lengths.map((l, i) => ({ id: `L${i}`, from: FACES[i], to: FACES[i + 1], size: String(l) })),
    edges: chance(0.5)
      ? [{ id: 'e1', face: 'A', side: 'right', form: 'chamfer', size: '0.5', angle: '45°' }]
      : [],
    holes: [
      ...(ends.first ? [{ id: 'h1', from: 'A', ...ends.first }] : []),
      ...(ends.last ? [{ id: 'h2', from: last, ...ends.last }] : []),
    ],
  };
  const read = readPart(JSON.stringify(document), document.title);
  if (!read.ok) throw new Error(read.problem.say);
  return read.value;
}

function steps(top: number, count: number, int: (a: number, b: number) => number): number[] {
  const found: number[] = [];
  let d = top;
  for (let i = 0; i < count; i++) {
    d -= int(3, 8) / 2;
    if (d < 5) break;
    found.push(d);
  }
  return found;
}

function land(
  i: number,
  d: number,
  thick: boolean,
  chance: (p: number) => boolean,
  next: () => number,
): object {
  const fits = ['h6', 'h7', 'k6', 'g6'];
  const tol = fits[Math.floor(next() * fits.length)];
  if (thick || chance(0.6)) return { form: 'cylinder', diameter: String(d) };
  return { form: 'cylinder', diameter: { size: String(d), tol }, role: i % 2 ? 'seat' : 'journal' };
}

function endForms(
  segments: object[],
  diameters: number[],
  lengths: number[],
  chance: (p: number) => boolean,
): void {
  const at = [0, diameters.length - 1];
  for (const i of at) {
    const d = diameters[i] ?? 0;
    if (segments.length < 3 || d === Math.max(...diameters)) continue;
    if (chance(0.25) && d >= 6 && d <= 10.5)
      segments[i] = { form: 'thread', thread: d >= 10 ? 'M10' : d >= 8 ? 'M8' : 'M6' };
    else if (chance(0.2)) {
      const small = String(d - Math.min(2, (lengths[i] ?? 8) / 8));
      segments[i] =
        i === 0
          ? { form: 'taper', start: small, end: String(d) }
          : { form: 'taper', start: String(d), end: small };
    }
  }
}

/** A groove that splits the thick land in two, both long enough to be gripped. */
function groove(
  segments: object[],
  lengths: number[],
  diameters: number[],
  at: number,
  int: (a: number, b: number) => number,
): void {
  const d = diameters[at] ?? 10;
  const whole = lengths[at] ?? 20;
  segments.splice(at + 1, 0, { form: 'cylinder', diameter: String(d - int(2, 5)) }, segments[at] ?? {});
  lengths.splice(at + 1, 0, int(3, 8), whole);
  diameters.splice(at + 1, 0, d - 2, d);
}

function holes(
  diameters: number[],
  chance: (p: number) => boolean,
): { first: object | null; last: object | null } {
  const tap = { form: 'tap', thread: 'M5', depth: '9', drill_depth: '12' };
  const drill = { form: 'drill', diameter: '3.2', depth: '12' };
  const of = (d: number): object | null =>
    d < 9.5 || !chance(0.3) ? null : d > 10.5 && chance(0.5) ? tap : drill;
  return { first: of(diameters[0] ?? 0), last: of(diameters.at(-1) ?? 0) };
}
