import type { Measured } from '../core/actuals/read-actual.ts';
import { sameStep, type Placed } from '../core/actuals/step-name.ts';
import type { InspectionRow } from '../core/actuals/types.ts';
import type { Unit } from '../core/lengths/length.ts';
import type { Part } from '../core/part/types.ts';
import type { DiameterRow } from '../core/report-types.ts';
import { edgeWords } from './steps.ts';

/** What was typed, and how the person wants it dealt with. */
export type Typed = {
  readonly text: string;
  readonly unit: Unit;
  /** What the readout showed; empty where it does not matter. */
  readonly shown: string;
  readonly set: 'readout' | 'readings';
  /** The station a face was measured from. */
  readonly from: string;
};

/** A size that can be typed at a step. */
export type Entry = {
  readonly key: string;
  /** "Diameter of left", as the field is called. */
  readonly label: string;
  /** What the readout shows at this moment, where the entry sets an axis right. */
  readonly shown: string | null;
  /** Stations it may be measured from, the likeliest first; null where it is from nowhere. */
  readonly froms: readonly string[] | null;
  readonly make: (typed: Typed) => Measured;
};

const MAKES_FACES: readonly string[] = ['face', 'finish', 'spring', 'groove', 'fillet', 'taper'];

/**
 * What can be measured at a step: the diameter where the plan says to measure, the size that fitted, the diameter a
 * tool was touched off on, and the faces that this step, or the cut just before it, has made.
 *
 * @param shownX - What the X readout shows at the step.
 */
export function entriesAt(
  steps: readonly Placed[],
  at: number,
  part: Part,
  diameters: readonly DiameterRow[],
  shownX: string | null,
): readonly Entry[] {
  const step = steps[at];
  if (!step) return [];
  return [...sizesOf(step, diameters, shownX), ...facesOf(steps, at, part)];
}

function sizesOf(
  { cut, holding, name }: Placed,
  diameters: readonly DiameterRow[],
  shownX: string | null,
): Entry[] {
  const common = ({ text, unit, shown, set }: Typed) => ({
    text,
    unit,
    step: name,
    cut: cut.n,
    ...(holding ? { holding: holding.id } : {}),
    ...(shown.trim() === '' ? {} : { shown, set }),
  });
  const of = cut.segment;
  if (cut.kind === 'touch' && cut.tool !== null && shownX !== null) {
    const tool = cut.tool;
    return [
      {
        key: 'touch',
        label: `Diameter ${tool} touches`,
        shown: shownX,
        froms: null,
        make: (typed) => ({ what: 'touch', of: tool, ...common(typed) }),
      },
    ];
  }
  if (cut.kind === 'prove') return provedOf(cut.segment, diameters).map((segment) => fit(segment, common));
  if (of === null) return [];
  if (cut.kind !== 'measure') return [];
  const end = endAt(diameters, of, cut.d1_mm);
  return [
    {
      key: 'diameter',
      label:
        end === null
          ? `Diameter of ${of}`
          : `Diameter of ${of}, its ${end === 'start' ? 'left' : 'right'} end`,
      shown: shownX,
      froms: null,
      make: (typed) => ({ what: 'diameter', of, ...(end === null ? {} : { end }), ...common(typed) }),
    },
  ];
}

type Common = (typed: Typed) => Omit<Measured & { what: 'fit' }, 'what' | 'of'>;

const fit = (segment: string, common: Common): Entry => ({
  key: `fit ${segment}`,
  label: `Size at which the mate of ${segment} fitted`,
  shown: null,
  froms: null,
  make: (typed) => ({ what: 'fit', of: segment, ...common(typed) }),
});

/** What a trial land proves: the segment it names, else every one that something is to fit. */
const provedOf = (segment: string | null, diameters: readonly DiameterRow[]): readonly string[] =>
  segment !== null
    ? [segment]
    : diameters.flatMap((row) => (row.fit !== null && row.end === null ? [row.segment] : []));

/** The end of a taper that is as thick as what is measured; null on a cylinder. */
function endAt(
  diameters: readonly DiameterRow[],
  segment: string,
  d_mm: number | null,
): 'start' | 'end' | null {
  const ends = diameters.filter((row) => row.segment === segment && row.end !== null && row.aim_mm !== null);
  const off = (row: DiameterRow) => Math.abs((row.aim_mm ?? 0) - (d_mm ?? 0));
  return ends.sort((a, b) => off(a) - off(b))[0]?.end ?? null;
}

function facesOf(steps: readonly Placed[], at: number, part: Part): Entry[] {
  const step = steps[at];
  if (!step) return [];
  const maker = step.cut.kind === 'measure' ? cutBefore(steps, at) : step;
  if (!maker || !MAKES_FACES.includes(maker.cut.kind)) return [];
  const named = maker.cut.readings.flatMap(({ axis, station }) => (axis === 'Z' && station ? [station] : []));
  const { cut, holding, name } = step;
  const datum = holding?.datum.station;
  const stations = [...part.faces, ...part.points].map(({ id }) => id);
  return [...new Set(named)].map((of) => {
    const others = stations.filter((id) => id !== of);
    const froms =
      datum === undefined || datum === of ? others : [datum, ...others.filter((id) => id !== datum)];
    return {
      key: `face ${of}`,
      label: `Where face ${of} came out`,
      shown: null,
      froms,
      make: ({ text, unit, from }) => ({
        what: 'face',
        of,
        from,
        text,
        unit,
        step: name,
        cut: cut.n,
        ...(holding ? { holding: holding.id } : {}),
      }),
    };
  });
}

/** The last step before this one that worked the same segment. */
function cutBefore(steps: readonly Placed[], at: number): Placed | undefined {
  const segment = steps[at]?.cut.segment;
  return steps.slice(0, at).findLast(({ cut }) => cut.kind !== 'measure' && cut.segment === segment);
}

/** Everything typed at a step, with its place in the log. */
export function typedAt(part: Part, { name }: Placed): readonly { at: number; actual: Measured }[] {
  return (part.actuals ?? []).flatMap((actual, at) =>
    actual.what !== 'done' && actual.step && sameStep(actual.step, name) ? [{ at, actual }] : [],
  );
}

/** "Diameter of left .4036", as the log is read. */
export function entryWords(actual: Measured): string {
  const { of, text } = actual;
  if (actual.what === 'diameter') return `Diameter of ${of} ${text}`;
  if (actual.what === 'touch' && actual.edge && text === '')
    return `${of} touched off on its ${edgeWords(actual.edge)}`;
  if (actual.what === 'touch') return `${of} touched off on ${text}`;
  if (actual.what === 'fit') return `${of} fitted at ${text}`;
  if (actual.what === 'face') return `Face ${of} ${text} from ${actual.from}`;
  return `${of}, ${actual.field} ${text}`;
}

/** A size of the inspection record as it is typed into the log, when the piece is off the lathe. */
export function inspected(row: InspectionRow, part: Part, text: string, unit: Unit): Measured {
  if (row.between) return { what: 'face', from: row.between[0], of: row.between[1], text, unit };
  const segment = part.segments.some(({ id }) => id === row.of);
  if (segment && row.size === 'diameter') return { what: 'diameter', of: row.of, text, unit };
  if (segment && (row.size === 'start' || row.size === 'end'))
    return { what: 'diameter', of: row.of, end: row.size, text, unit };
  return { what: 'size', of: row.of, field: row.size, text, unit };
}
