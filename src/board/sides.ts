import type { Choice } from './choice.ts';
import type { Drawing } from './drawing.ts';
import type { Measure } from './label.ts';

/** A diameter that stands beside the part: an upright dimension line, its text level with the axis. Px, y down. */
export type SceneSide = {
  readonly choice: Choice;
  readonly text: string;
  /** Where the upright line stands, and where the part's edge is that it measures. */
  readonly x: number;
  readonly edgeX: number;
  readonly radius: number;
  readonly textX: number;
  readonly textY: number;
  readonly width: number;
};

/** Most diameters at one side: each takes room from the drawing. */
const MOST = 2;
/** From the part's end to the first of them, px. */
const FIRST = 22;
const GAP = 14;
/** A text longer than this stays on its leader. */
const LONGEST = 120;

type Seen = { readonly k: number; readonly radius: number; readonly edge: number };

/** Cylinders that can be measured from one end without anything larger before them, the smaller first. */
function seenFrom({ part, places, radii }: Drawing, side: 'left' | 'right'): Seen[] {
  const order = radii.map((_, k) => k);
  const seen: Seen[] = [];
  let before = 0;
  for (const k of side === 'left' ? order : order.reverse()) {
    const { left = 0, right = 0 } = radii[k] ?? {};
    const face = part.faces[side === 'left' ? k : k + 1]?.id ?? '';
    if (part.segments[k]?.form === 'cylinder' && left > before * 1.001)
      seen.push({ k, radius: left, edge: places.at.get(face) ?? 0 });
    before = Math.max(before, left, right);
  }
  return seen;
}

/** Diameters at the sides: the outermost steps of each end, where the shorter way to an end leads past them. */
export function laySides(
  drawing: Drawing,
  scale: number,
  measure: Measure,
  shows: (choice: Choice) => boolean,
): SceneSide[] {
  const { part, callouts, places } = drawing;
  const texts = new Map(callouts.map(({ choice, text }) => [`${choice.kind} ${choice.id}`, text]));
  const taken = new Set<number>();
  return (['left', 'right'] as const).flatMap((side) => {
    const sign = side === 'left' ? -1 : 1;
    let at = (side === 'left' ? 0 : places.extent * scale) + sign * FIRST;
    return seenFrom(drawing, side)
      .filter(({ k, edge }) => {
        const nearer = side === 'left' ? edge <= places.extent / 2 : edge > places.extent / 2;
        return nearer && !taken.has(k);
      })
      .slice(0, MOST)
      .flatMap(({ k, radius, edge }): SceneSide[] => {
        const choice: Choice = { kind: 'segment', id: part.segments[k]?.id ?? '' };
        const text = texts.get(`segment ${choice.id}`);
        const width = text === undefined ? Infinity : measure(text);
        if (text === undefined || width > LONGEST || !shows(choice)) return [];
        taken.add(k);
        const x = at + (sign * width) / 2;
        at += sign * (width + GAP);
        return [
          {
            choice,
            text,
            x,
            edgeX: edge * scale,
            radius: radius * scale,
            textX: x - width / 2,
            textY: 5,
            width,
          },
        ];
      });
  });
}
