import type { Unit } from '../core/lengths/length.ts';
import { calloutsOf, type Dimension } from '../core/outline/dimensions.ts';
import { drawingDiameters } from '../core/outline/drawing-diameters.ts';
import { drawingPlaces, type DrawingPlaces } from '../core/outline/drawing-places.ts';
import { ordinatesOf, presented, type Ordinate, type Presentation } from '../core/outline/presentation.ts';
import type { Part } from '../core/part/types.ts';
import type { Report } from '../core/report-types.ts';
import { anchorsOf, type Anchor } from './anchors.ts';
import { kindsOf, type ChoiceKind } from './choice.ts';

/** What does not change with zoom: places in millimetres, and what wants room around them. */
export type Drawing = {
  readonly part: Part;
  readonly places: DrawingPlaces;
  readonly stations: readonly Station[];
  readonly dimensions: readonly Dimension[];
  /** Places written at the stations, where lengths are presented so. */
  readonly ordinates: readonly Ordinate[];
  readonly callouts: readonly Anchor[];
  /** Largest radius of each segment at its left and right face, mm, in order. */
  readonly radii: readonly { readonly left: number; readonly right: number }[];
  /** Largest radius, mm. */
  readonly tall: number;
  /** What each id of the part names. */
  readonly kinds: ReadonlyMap<string, ChoiceKind>;
};
export type Station = {
  readonly id: string;
  readonly name: string | null;
  readonly kind: 'face' | 'point';
  readonly mm: number;
  /** Largest drawn radius beside it, mm. */
  readonly radius: number;
  readonly loose: boolean;
};

/** As much of a drawing as it takes to tell what can be done to a part. */
export type Ground = Pick<Drawing, 'part' | 'places' | 'radii'>;

/** Where the stations of a part are drawn, and how tall its segments, mm. */
export function groundOf(part: Part, report: Report): Ground {
  const places = drawingPlaces(part, report.chains);
  const diameters = drawingDiameters(part, report.diameters, places.extent);
  const radii = part.segments.map((s) => {
    const d = diameters.get(s.id);
    return { left: (d?.left ?? 0) / 2, right: (d?.right ?? 0) / 2 };
  });
  return { part, places, radii };
}

/** Everything about a part that the board lays out, before zoom. */
export function drawingOf(part: Part, report: Report, unit: Unit, how: Presentation = 'plan'): Drawing {
  const { places, radii } = groundOf(part, report);
  const faceRadius = (k: number) => Math.max(radii[k - 1]?.right ?? 0, radii[k]?.left ?? 0);
  const mmOf = (id: string) => places.at.get(id) ?? 0;
  const radiusAt = (mm: number) => {
    const k = part.faces.findLastIndex((f, i) => i < part.segments.length && mmOf(f.id) <= mm);
    return Math.max(radii[Math.max(k, 0)]?.left ?? 0, radii[Math.max(k, 0)]?.right ?? 0);
  };
  const station = (kind: Station['kind'], radius: (mm: number, i: number) => number) => {
    return ({ id, name }: { id: string; name?: string }, i: number): Station => ({
      id,
      name: name ?? null,
      kind,
      mm: mmOf(id),
      radius: radius(mmOf(id), i),
      loose: places.loose.has(id),
    });
  };
  return {
    part,
    places,
    stations: [
      ...part.faces.map(station('face', (_mm, i) => faceRadius(i))),
      ...part.points.map(station('point', radiusAt)),
    ],
    dimensions: presented(part, report.chains, unit, how, places.at),
    ordinates: how === 'ordinate' ? ordinatesOf(part, report.chains, unit) : [],
    radii,
    callouts: anchorsOf(part, calloutsOf(part), mmOf, radiusAt),
    kinds: kindsOf(part),
    tall: Math.max(1e-3, ...radii.flatMap((r) => [r.left, r.right])),
  };
}
