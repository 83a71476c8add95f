import type { Picture, PictureItem } from '../outline/picture.ts';
import { beamOf, deflection } from './beam.ts';
import type { Pass } from './error.ts';

export type DeflectionPicture = {
  readonly picture: Picture;
  /** How many times larger than it is the spring is drawn. */
  readonly times: number;
  /** The most that the work gives under the tool within the pass, mm on the radius. */
  readonly most_mm: number;
};

const SAMPLES = 60;

/**
 * The work as held for one finishing pass, headstock at the left, and over it how far it gives under the tool at each
 * place: the whole length thin, the stretch that the tool runs along heavy, so much exaggerated that it can be seen.
 *
 * @returns Null where no metal carries the load or nothing stands out.
 */
export function deflectionPicture(pass: Pass): DeflectionPicture | null {
  const beam = beamOf(pass.pieces, pass.support, pass.youngs_MPa);
  const length = beam.length_mm;
  const gives = (z: number): number => pass.radialForce_N * deflection(beam, z, z);
  const all = sampled(0, length, gives);
  const most = Math.max(...all.map(([, y]) => y));
  if (!(length > 0) || !Number.isFinite(most)) return null;
  const radius = Math.max(...pass.pieces.map((p) => p.d_mm)) / 2;
  const times = most > 0 ? roundDown((0.2 * length) / most) : 1;
  const base = radius + 0.06 * length;
  const curve = (points: readonly (readonly [number, number])[]): number[] =>
    points.flatMap(([x, y]) => [x, base + y * times]);
  const run = sampled(pass.from_mm, pass.to_mm, gives);
  const items: PictureItem[] = [
    ...held(pass, length, radius),
    { kind: 'line', role: 'thin', points: [0, base, length, base] },
    { kind: 'line', role: 'ghost', points: curve(all) },
    { kind: 'line', role: 'heavy', points: curve(run), id: 'spring' },
    { kind: 'text', x: length, y: base + 0.23 * length, text: `spring × ${times}`, align: 'end' },
  ];
  return { picture: { items }, times, most_mm: Math.max(...run.map(([, y]) => y)) };
}

function sampled(from: number, to: number, of: (z: number) => number): (readonly [number, number])[] {
  return Array.from({ length: SAMPLES + 1 }, (_, i) => {
    const z = from + ((to - from) * i) / SAMPLES;
    return [z, of(z)] as const;
  });
}

/** 1, 2 or 5 times a power of ten, at most the given figure. */
function roundDown(x: number): number {
  const power = 10 ** Math.floor(Math.log10(x));
  return power * ([5, 2, 1].find((step) => step * power <= x) ?? 1);
}

/** Bar, holder, centre and steady. */
function held({ pieces, support }: Pass, length: number, radius: number): PictureItem[] {
  const jaw = 0.07 * length;
  const deep = radius * 1.25;
  const items: PictureItem[] = [];
  const box = (x0: number, x1: number, y0: number, y1: number): number[] => [x0, y0, x1, y0, x1, y1, x0, y1];
  for (const { z0_mm, z1_mm, d_mm } of pieces) {
    const points = box(z0_mm, z1_mm, -d_mm / 2, d_mm / 2);
    items.push({ kind: 'area', role: 'steel', points });
    items.push({ kind: 'line', role: 'outline', points: [...points, ...points.slice(0, 2)] });
  }
  const point = (x: number, way: 1 | -1): PictureItem => ({
    kind: 'line',
    role: 'ghost',
    points: [x + way * jaw, radius / 2, x, 0, x + way * jaw, -radius / 2],
  });
  if (support.start === 'centre') items.push(point(0, -1));
  else items.push({ kind: 'area', role: 'device', points: box(-jaw, 0, -deep, deep) });
  if (support.start !== 'centre')
    items.push({
      kind: 'line',
      role: 'ghost',
      points: [0, -deep, -jaw, -deep, -jaw, deep, 0, deep, 0, -deep],
    });
  if (support.centre) items.push(point(length, 1));
  const at = support.steadyAt_mm;
  if (at !== null) items.push({ kind: 'line', role: 'ghost', points: [at, -deep * 1.2, at, deep * 1.1] });
  items.push({ kind: 'line', role: 'centre', points: [-jaw * 1.3, 0, length + jaw, 0] });
  return items;
}
