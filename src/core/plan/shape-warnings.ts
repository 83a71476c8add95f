import type { Outline, OutlineCrossing, OutlineSegment } from '../outline/types.ts';
import type { ResolvedLathe, ResolvedPart } from '../part/resolved.ts';
import type { Problem } from '../problem.ts';
import { materialOf } from './speeds.ts';
import { turnTool } from './tool-choice.ts';
import { size } from './words.ts';

/**
 * What lies in the drawing itself, whichever way it is made. Codes: `centre-too-wide`, `corner-radius`, `hole-misses`,
 * `lathe-speed`.
 */
export function shapeWarnings(part: ResolvedPart, outline: Outline, lathe: ResolvedLathe): Problem[] {
  return [
    ...wideCentres(outline, lathe),
    ...cornerRadii(part, outline, lathe),
    ...missedHoles(outline, lathe),
    ...speeds(part, outline, lathe),
  ];
}

/** A centre bears on the metal round its mouth: a tenth of the diameter at least (common practice, no source). */
const MOST_OF_END = 0.9;

function wideCentres(outline: Outline, lathe: ResolvedLathe): Problem[] {
  return outline.holes.flatMap((hole) => {
    if (hole.form !== 'centre') return [];
    const first = hole.from === 'first';
    const end = first ? outline.segments[0] : outline.segments.at(-1);
    if (!end) return [];
    const chamfer = outline.edges.find((e) => e.face === (first ? end.left : end.right));
    const outer = first ? end.d0 : end.d1;
    const face = chamfer ? Math.min(chamfer.d0, chamfer.d1) : outer;
    if (hole.diameter < MOST_OF_END * face) return [];
    return [
      {
        code: 'centre-too-wide',
        where: hole.id,
        say: `The centre hole ${hole.id}, ${size(hole.diameter, lathe)} wide, leaves next to nothing of its end, ${size(face, lathe)}: take a smaller centre drill.`,
        facts: { mouth_mm: hole.diameter / 1e9, end_mm: face / 1e9 },
      },
    ];
  });
}

/** What runs up to a shoulder must clear its corner: the fillet drawn there, else the arc that the tool's nose leaves. */
function cornerRadii(part: ResolvedPart, outline: Outline, lathe: ResolvedLathe): Problem[] {
  return part.segments.flatMap((segment, i) => {
    const chamfer = segment.mate?.chamfer;
    const land = outline.segments[i];
    if (chamfer === undefined || chamfer === null || !land) return [];
    const shoulders = [
      { face: land.left, beyond: outline.segments[i - 1]?.d1 ?? 0, hand: 'left' as const },
      { face: land.right, beyond: outline.segments[i + 1]?.d0 ?? 0, hand: 'right' as const },
    ].filter((s) => s.beyond > land.d0);
    return shoulders.flatMap(({ face, hand }) => {
      const edge = outline.edges.find((e) => e.face === face && e.segment === land.id);
      if (edge?.form === 'undercut') return [];
      const radius = edge?.form === 'fillet' ? edge.z1 - edge.z0 : (turnTool(lathe, hand)?.nose ?? 0);
      if (radius < chamfer) return [];
      const what = edge?.form === 'fillet' ? 'the fillet' : "the arc that the tool's nose leaves";
      return [
        {
          code: 'corner-radius',
          where: land.id,
          say: `In the corner at ${face} ${what}, ${size(radius, lathe)}, is no smaller than the corner of what sits on ${land.id}, ${size(chamfer, lathe)}: it would not come up to the shoulder. An undercut or a smaller radius lets it.`,
          facts: { radius_mm: radius / 1e9, clears_mm: chamfer / 1e9 },
        },
      ];
    });
  });
}

/** A cross hole is drilled to meet a hole along the axis: where there is one it must be reached, and be there. */
function missedHoles(outline: Outline, lathe: ResolvedLathe): Problem[] {
  const bores = outline.holes.filter((h) => h.form !== 'centre');
  if (!bores.length) return [];
  return outline.crossings.flatMap((x) => {
    if (x.form !== 'hole' || x.reaches === 'through') return [];
    const here = bores.filter((h) => spans(h, outline.length, x));
    const bore = Math.max(0, ...here.map((h) => h.diameter));
    const outer = outsideAt(outline.segments, x.z0);
    const short = x.reaches === 'depth' && bore > 0 ? (outer - bore) / 2 - (x.depth ?? 0) : 0;
    if (bore > 0 && short <= 0) return [];
    // A hole to a depth of its own, where none runs along the axis, is meant to end in the metal.
    if (bore === 0 && x.reaches === 'depth') return [];
    const why =
      bore > 0
        ? `stops ${size(short, lathe)} short of the hole along the axis`
        : 'goes to the axis where none of the holes along it reaches';
    return [{ code: 'hole-misses', where: x.id, say: `The cross hole ${x.id} ${why}: they do not meet.` }];
  });
}

function spans(hole: Outline['holes'][number], length: number, { z0 }: OutlineCrossing): boolean {
  const deep = hole.depth ?? length;
  return hole.from === 'first' ? z0 <= deep : z0 >= length - deep;
}

const outsideAt = (segments: readonly OutlineSegment[], z: number): number => {
  const at = segments.find((s) => s.z0 <= z && z <= s.z1);
  return at ? Math.min(at.d0, at.d1) : 0;
};

/** Where the metal asks for other speeds than the lathe has: too fast at its slowest, or slower than it likes. */
function speeds(part: ResolvedPart, outline: Outline, lathe: ResolvedLathe): Problem[] {
  const { speed } = materialOf(part.material);
  const all = 'steps' in lathe.speeds ? lathe.speeds.steps : [lathe.speeds.min, lathe.speeds.max];
  const [slowest, fastest] = [Math.min(...all), Math.max(...all)];
  const largest = Math.max(...outline.segments.map((s) => Math.max(s.d0, s.d1))) / 1e9;
  const thinnest = Math.min(...outline.segments.map((s) => Math.min(s.d0, s.d1))) / 1e9;
  const wanted = (v: number, d: number): number => Math.round((1000 * v) / (Math.PI * d));
  const slow = wanted(speed.rough.typical, largest);
  const fast = wanted(speed.finish.low, thinnest);
  const found = (say: string): Problem => ({ code: 'lathe-speed', where: 'speeds', say });
  return [
    ...(slow < slowest
      ? [
          found(
            `The largest diameter wants ${slow} turns a minute at most; the lathe's slowest, ${slowest}, is over that: light cuts, and look to the tool.`,
          ),
        ]
      : []),
    ...(fast > fastest
      ? [
          found(
            `The thinnest diameter wants ${fast} turns a minute, over the lathe's fastest, ${fastest}: a keen tool and a fine feed make up for it.`,
          ),
        ]
      : []),
  ];
}
