import type { Crossing, Part } from '../part/types.ts';
import type { DrawingPlaces } from './drawing-places.ts';
import { drawnAngle, drawnSize } from './profile.ts';
import { radiusAt, type Piece, type Radial } from './radial.ts';

/** A cross hole, keyseat or flat as drawn, mm. Angles: 0° at the top of the drawing, 90° toward the viewer. */
export type DrawnCrossing = {
  readonly id: string;
  readonly form: Crossing['form'];
  readonly x0: number;
  readonly x1: number;
  /** What it takes from the upper (and lower) outline where it is seen edge-on: radius left standing. */
  readonly upper: readonly Piece[];
  readonly lower: readonly Piece[];
  /** Its shape where it is seen face-on, as lines; empty where it is seen edge-on. */
  readonly shape: readonly (readonly number[])[];
  /** Thin diagonals that mark a flat. */
  readonly diagonals: readonly (readonly number[])[];
  /** Whether the face-on shape lies on the near side. */
  readonly near: boolean;
};
type Cut = {
  readonly x0: number;
  readonly x1: number;
  /** Half width across the axis, and the radius left standing below it. */
  readonly half: number;
  readonly left: number;
  readonly through: boolean;
};

/** Within about 20° of the drawing's plane a crossing is drawn edge-on. */
const EDGE_ON = Math.sin((20 * Math.PI) / 180);

/** Crossings with readable sizes; the others are left out. */
export function drawnCrossings(part: Part, places: DrawingPlaces, outside: Radial): DrawnCrossing[] {
  return part.crossings.flatMap((crossing) => {
    const at = places.at.get(crossing.at);
    const cut = at === undefined ? null : cutOf(crossing, at, part, places, outside);
    if (!cut) return [];
    const turn = (drawnAngle(crossing.angle, 0) * Math.PI) / 180;
    const [toward, up] = [Math.sin(turn), Math.cos(turn)];
    const edgeOn = Math.abs(toward) < EDGE_ON;
    const piece = [{ x0: cut.x0, x1: cut.x1, r0: cut.left, r1: cut.left }];
    const seat = (radiusAt(outside, (cut.x0 + cut.x1) / 2) || cut.half) * up;
    const faceOn = edgeOn ? null : shapeOf(crossing.form, cut, seat, Math.abs(toward));
    return [
      {
        id: crossing.id,
        form: crossing.form,
        x0: cut.x0,
        x1: cut.x1,
        upper: edgeOn && (up > 0 || cut.through) ? piece : [],
        lower: edgeOn && (up < 0 || cut.through) ? piece : [],
        shape: faceOn?.shape ?? [],
        diagonals: faceOn?.diagonals ?? [],
        near: toward > 0 || cut.through,
      },
    ];
  });
}

function cutOf(
  crossing: Crossing,
  at: number,
  part: Part,
  places: DrawingPlaces,
  outside: Radial,
): Cut | null {
  const radius = radiusAt(outside, at);
  if (crossing.form === 'hole') {
    const d = drawnSize(crossing.diameter, part.unit);
    if (!d) return null;
    const through = crossing.reaches === 'through';
    const depth = through || crossing.reaches === 'axis' ? radius : drawnSize(crossing.reaches, part.unit);
    return { x0: at - d / 2, x1: at + d / 2, half: d / 2, left: Math.max(radius - (depth ?? 0), 0), through };
  }
  const to = places.at.get(crossing.to);
  if (to === undefined || to === at) return null;
  const [x0, x1] = [Math.min(at, to), Math.max(at, to)];
  const seat = radiusAt(outside, (x0 + x1) / 2);
  const depth = drawnSize(crossing.depth, part.unit);
  if (crossing.form === 'keyseat') {
    const width = drawnSize(crossing.width, part.unit);
    if (!width || !depth) return null;
    return { x0, x1, half: width / 2, left: Math.max(seat - depth, 0), through: false };
  }
  const across = drawnSize(crossing.across, part.unit);
  const left = depth ? seat - depth : across ? across - seat : null;
  if (left === null || left <= -seat || left >= seat) return null;
  return { x0, x1, half: Math.sqrt(seat * seat - left * left), left: Math.max(left, 0), through: false };
}

type Shape = { shape: number[][]; diagonals: number[][] };

/** Seen face-on, foreshortened across the axis: a circle, a slot with round ends, a flat with its diagonals. */
function shapeOf(form: Crossing['form'], { x0, x1, half }: Cut, y: number, shorten: number): Shape {
  const tall = half * shorten;
  if (form === 'flat')
    return {
      shape: [[x0, y - tall, x1, y - tall, x1, y + tall, x0, y + tall, x0, y - tall]],
      diagonals: [
        [x0, y - tall, x1, y + tall],
        [x0, y + tall, x1, y - tall],
      ],
    };
  const round = Math.min(half, (x1 - x0) / 2);
  const slot: number[] = [];
  const steps = 16;
  for (let i = 0; i <= 2 * steps; i++) {
    const turn = -Math.PI / 2 + (i / steps) * Math.PI;
    const centre = i <= steps ? x1 - round : x0 + round;
    slot.push(centre + round * Math.cos(turn), y + tall * Math.sin(turn));
  }
  return { shape: [[...slot, slot[0] ?? 0, slot[1] ?? 0]], diagonals: [] };
}
