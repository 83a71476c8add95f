import type { Lathe } from '../../../src/core/part/lathe.ts';
import type { Part } from '../../../src/core/part/types.ts';

/** What a reason is checked against: the part and the lathe file as they were typed, nothing that the planner made. */
export type Case = { readonly part: Part; readonly lathe: Lathe; readonly way: string };
type Land = {
  readonly id: string;
  readonly form: string;
  readonly d: number;
  readonly low: number;
  readonly l: number;
  readonly role: string;
};

/** "13/16", "1 1/4", ".450 in", "12.5 mm" in millimetres; by hand, so that nothing of the planner is trusted. */
export function mm(text: string, unit: 'in' | 'mm'): number {
  const [, figures = '', named = unit] = /^(.*?)\s*(mm|in)?$/.exec(text.trim()) ?? [];
  const sum = figures.split(' ').reduce((all, figure) => {
    const [top, bottom] = figure.split('/');
    return all + Number(top) / Number(bottom ?? 1);
  }, 0);
  return named === 'in' ? sum * 25.4 : sum;
}

const sizeOf = (typed: unknown): string =>
  typeof typed === 'string' ? typed : (typed as { size: string }).size;

/** Lands of a part whose lengths run from face to face in order, all in millimetres. */
export function landsOf({ segments, lengths }: Part): Land[] {
  return segments.map((s, i) => {
    const typed: unknown[] =
      s.form === 'cylinder' ? [s.diameter] : s.form === 'taper' ? [s.start, s.end] : [s.thread.slice(1)];
    const ds = typed.map((t) => mm(sizeOf(t), 'mm'));
    const l = mm(sizeOf(lengths[i]?.size), 'mm');
    return {
      id: s.id,
      form: s.form,
      d: Math.max(...ds),
      low: Math.min(...ds),
      l,
      role: 'role' in s ? (s.role ?? '') : '',
    };
  });
}

const bladesOf = ({ tools, unit }: Lathe): { width: number; reach: number }[] =>
  tools.flatMap((t) => (t.kind === 'blade' ? [{ width: mm(t.width, unit), reach: mm(t.reach, unit) }] : []));

export function held(d: number, { collets, chucks, unit, spindle_bore }: Lathe): boolean {
  const jaws = chucks.some((c) => d >= mm(c.min, unit) - 1e-6 && d <= mm(c.max, unit) + 1e-6);
  if (jaws || !collets) return jaws;
  const of = (text: string): number => mm(text, unit);
  const [min, max, step, close] = [
    of(collets.min),
    of(collets.max),
    of(collets.step),
    of(collets.close ?? '0'),
  ];
  for (let size = min; size <= max + 1e-9; size += step)
    if (size >= d - 1e-6 && size - d <= close + 1e-6) return d <= mm(spindle_bore, unit);
  return false;
}

const barOf = ({ way, lathe }: Case): number =>
  mm(/(?:the |^)([\d./ ]+) (?:bar|blank)/.exec(way)?.[1] ?? '0', lathe.unit);

/** The land that a reason is about, in what the words after it say. */
function grip(of: Case, ids: readonly string[], why: string): boolean {
  const lands = landsOf(of.part);
  const own = ids.map((id) => lands.find((l) => l.id === id.split(' ')[0]));
  return own.every((land, i) => {
    if (land?.form !== 'cylinder') return false;
    const least =
      of.lathe.min_grip === undefined ? Math.max(land.d, 10) : mm(of.lathe.min_grip, of.lathe.unit);
    if (why === 'worked on in that holding') return true;
    if (why === 'before a thicker land') return lands.some((l) => l.d > land.d);
    if (why === 'before thicker bar that still stands behind it') return barOf(of) > land.d;
    if (why === 'behind it lies what does not pass the spindle')
      return Math.max(barOf(of), land.d) > mm(of.lathe.spindle_bore, of.lathe.unit);
    if (why === 'fits no collet and no chuck') return !held(land.d, of.lathe);
    if (why === 'fits no collet, and hard jaws do not go on a journal')
      return lands.some((l) => l.role === 'journal') && !held(land.d, { ...of.lathe, chucks: [] });
    const short = /\((.*) of the (.*) wanted\)/.exec(ids[i] ?? '');
    if (why !== 'too short' || !short) return false;
    const [is, wanted] = [short[1] ?? '', short[2] ?? ''].map((t) => mm(t, of.lathe.unit));
    return is !== undefined && wanted !== undefined && is < wanted && Math.abs(wanted - least) < 0.02;
  });
}

function noGrip(of: Case, list: string): boolean {
  const cylinders = landsOf(of.part)
    .filter((l) => l.form === 'cylinder')
    .map((l) => l.id);
  if (list === 'there is no cylinder') return cylinders.length === 0;
  const named: string[] = [];
  const good = list.split('; ').every((clause) => {
    const why =
      /(worked on in that holding|before a thicker land|before thicker bar that still stands behind it|behind it lies.*|fits no.*|too short)$/.exec(
        clause,
      )?.[1] ?? '';
    const ids = clause
      .slice(0, clause.length - why.length)
      .trim()
      .split(/, (?![^(]*\))/);
    named.push(...ids.map((id) => id.split(' ')[0] ?? ''));
    return grip(of, ids, why);
  });
  return good && cylinders.every((id) => named.includes(id));
}

/** The thickest bar of a lathe, named as a way names it. */
export const largestBar = ({ bars, unit }: Lathe): string =>
  `out of the ${[...bars.diameters].sort((a, b) => mm(b, unit) - mm(a, unit))[0] ?? ''} bar`;

/** A groove whose walls stand higher on both sides, with its depth under the lower of them. */
function grooveOf(part: Part, id: string): { width: number; depth: number } | null {
  const lands = landsOf(part);
  const i = lands.findIndex((l) => l.id === id);
  const [before, land, after] = [lands[i - 1], lands[i], lands[i + 1]];
  if (!before || !land || !after) return null;
  return { width: land.l, depth: (Math.min(before.d, after.d) - land.d) / 2 };
}

/**
 * A cone that is refused has a wall at its small end, for else the tool that climbs it cuts it whole; and it is too steep
 * for one that goes down it, or has a wall at its large end too and is too short for two tools to meet on it.
 */
function coneOutOfReach(of: Case, id = ''): boolean {
  const lands = landsOf(of.part);
  const i = lands.findIndex((l) => l.id === id);
  const cone = lands[i];
  if (cone?.form !== 'taper') return false;
  // Over an end of the part the bar may stand; turned from both ends, beyond the thickest land as well.
  const bothEnds = !of.way.startsWith('out of') || of.way === largestBar(of.lathe);
  const thickest = Math.max(...lands.map((l) => l.d));
  const byBar = i === 0 || i === lands.length - 1 || (bothEnds && cone.d === thickest);
  const sides = [lands.slice(0, i), lands.slice(i + 1)].map((side) =>
    Math.max(byBar ? barOf(of) : 0, ...side.map((l) => l.d)),
  );
  const drawn = of.part.segments[i];
  if (drawn?.form !== 'taper') return false;
  const [atStart = 0, atEnd = 0] = sides;
  const smallAtStart = mm(sizeOf(drawn.start), 'mm') < mm(sizeOf(drawn.end), 'mm');
  const [bySmall, byLarge] = smallAtStart ? [atStart, atEnd] : [atEnd, atStart];
  const steep = (cone.d - cone.low) / cone.l >= edgeOf(of.lathe);
  return bySmall > cone.low && (steep || (byLarge > cone.d && !twoToolsMeet(of, cone)));
}

/**
 * Whether two tools meet on a cone even between walls as high as the bar right at its ends. The edge of one rises behind
 * its point by 2 tan t on the diameter for each millimetre, the cone by s = (D - d) / l: the tool that goes down it
 * clears a wall W at the large end from (W - D) / (2 tan t - s) on, the one that goes up it a wall at the small end
 * from (W - d) / (2 tan t + s) on. What a wall stands over by no more than the allowance does no harm.
 */
function twoToolsMeet(of: Case, { d, low, l }: Land): boolean {
  const { unit, cut } = of.lathe;
  const edge = edgeOf(of.lathe);
  const slope = (d - low) / l;
  const wall = barOf(of) - mm(cut.allowance_on_diameter, unit);
  return (
    slope < edge && Math.max(0, wall - d) / (edge - slope) + Math.max(0, wall - low) / (edge + slope) < l
  );
}

/** What the edges of a lathe's turning tools rise by on the diameter for each millimetre, the flattest; 0 without both hands. */
function edgeOf({ tools }: Lathe): number {
  const trailing = tools.flatMap((t) =>
    t.kind === 'turn' && t.hand !== 'neutral' ? [{ hand: t.hand, deg: parseFloat(t.trailing ?? '30') }] : [],
  );
  if (new Set(trailing.map((t) => t.hand)).size < 2) return 0;
  return 2 * Math.tan((Math.min(...trailing.map((t) => t.deg)) * Math.PI) / 180);
}

/**
 * Work stands out with nothing to hold it up: what lies between a cut and the grip is at least as thick as its lands are, and
 * no longer than they are with the waste at both ends, the room for the tools and the jaws' distance.
 */
function standsOut(of: Case, diameters = '', without = ''): boolean {
  const lands = landsOf(of.part);
  const hasCentre = of.lathe.support.includes('centre');
  if (diameters === '6' ? !hasCentre || !/^no centre/.test(without) : !/^neither/.test(without)) return false;
  return lands.some((_, i) =>
    lands.slice(i).some((__, k) => {
      const stretch = lands.slice(i, i + k + 1);
      const long = stretch.reduce((sum, l) => sum + l.l, 0) + 20 + barOf(of);
      return long > Number(diameters) * Math.max(...stretch.map((l) => l.low));
    }),
  );
}

/** Every reason there is, and whether it is so, seen from the drawing and the lathe file alone. */
const REASONS: readonly (readonly [RegExp, (of: Case, ...found: string[]) => boolean])[] = [
  [/^the lathe file has no faceplate and dog/, ({ lathe }) => !lathe.between_centres_drive],
  [/^turned round, no finished land can be gripped: (.*)$/, noGrip],
  [
    /^drawn out in stages, a single land still stands out more than 4 of its diameters/,
    // The land, the room beside it for the tools, and the jaws' distance.
    (of) => landsOf(of.part).some((l) => (l.l + barOf(of) + 12) / l.low > 4),
  ],
  [
    /^no turning tool in the lathe file, nor two together, get at all of (\S+) between what stands on both sides/,
    coneOutOfReach,
  ],
  [
    /^the bar, (.*), does not pass the spindle/,
    ({ lathe }, bar = '') => mm(bar, lathe.unit) > mm(lathe.spindle_bore, lathe.unit),
  ],
  [
    /^neither a collet nor a chuck of the lathe holds the bar, (.*)$/,
    ({ lathe }, bar = '') => !held(mm(bar, lathe.unit), lathe),
  ],
  [/^the lathe file has no blade to part off with/, ({ lathe }) => bladesOf(lathe).length === 0],
  [
    /^the lathe file has no right-hand turning tool/,
    ({ lathe }) => !lathe.tools.some((t) => t.kind === 'turn' && t.hand === 'right'),
  ],
  [
    /^(\S+) is a taper, and the lathe file has no compound travel/,
    ({ part, lathe }, id = '') =>
      part.segments.some((s) => s.id === id && s.form === 'taper') &&
      mm(lathe.compound_travel ?? '1', 'mm') === 0,
  ],
  [
    /^the blade does not reach far enough to part off (.*)$/,
    ({ lathe }, d = '') =>
      bladesOf(lathe).every((b) => Math.min(b.reach, 10 * b.width) < mm(d, lathe.unit) / 2 + 1),
  ],
  [
    /^(\S+) is (.*) wide, narrower than every blade/,
    ({ part, lathe }, id = '') =>
      bladesOf(lathe).every((b) => b.width > (landsOf(part).find((l) => l.id === id)?.l ?? Infinity)),
  ],
  [
    /^no blade in the lathe file reaches (?:the bottom of \S+, )?(.*) deep/,
    ({ lathe }, deep = '') =>
      bladesOf(lathe).every(
        (b) => Math.min(b.reach, 10 * b.width) < mm(deep, lathe.unit) + 0.01 || b.width > 3,
      ),
  ],
  [
    /^the (?:work|blank) is longer than the lathe takes/,
    ({ part, lathe }) =>
      landsOf(part).reduce((sum, l) => sum + l.l, 0) + 80 > mm(lathe.between_centres, lathe.unit),
  ],
  [
    /^the thread at the tailstock end would want a holding of its own/,
    ({ part }) => [0, part.segments.length - 1].some((i) => part.segments[i]?.form === 'thread'),
  ],
  [
    /^(?:\S+: )?no die reaches /,
    (of) => {
      const lands = landsOf(of.part);
      return lands.some(
        (l, i) =>
          l.form === 'thread' &&
          (lands.slice(0, i).some((x) => x.d > l.low * 0.8) ||
            lands.slice(i + 1).some((x) => x.d > l.low * 0.8)),
      );
    },
  ],
  [
    /^the hole in the tailstock end is too wide for a centre|^no centre can bear in the tailstock end/,
    ({ part }) => (part.holes ?? []).length > 0,
  ],
  [
    /^no boring tool in the lathe file goes into a bore of (.*), (.*) deep/,
    ({ lathe }, d = '', deep = '') =>
      lathe.tools.every(
        (t) =>
          t.kind !== 'bore' ||
          mm(t.min_bore, lathe.unit) > mm(d, lathe.unit) ||
          mm(t.reach, lathe.unit) < mm(deep, lathe.unit),
      ),
  ],
  [
    /^no-bar bars.diameters$/,
    (of) => Math.max(...landsOf(of.part).map((l) => l.d)) > barOf({ ...of, way: largestBar(of.lathe) }) - 1,
  ],
  [
    /^no-tool (\S+)$/,
    ({ part, lathe }, id = '') => {
      const groove = grooveOf(part, id);
      return (
        groove !== null &&
        bladesOf(lathe).every((b) => b.width > groove.width || Math.min(b.reach, 10 * b.width) < groove.depth)
      );
    },
  ],
  [
    /^it takes (.*) of bar, and the bars at hand are (.*) long$/,
    ({ part, lathe, way }, taken = '', long = '') => {
      const [needs, has] = [mm(taken, lathe.unit), mm(lathe.bars.length, lathe.unit)];
      const least = landsOf(part).reduce((sum, l) => sum + l.l, 0);
      // Facing, parting, a stub for the centre, the jaws' distance and a grip.
      return (
        needs > has &&
        Math.abs(mm(long, lathe.unit) - has) < 0.01 &&
        needs < least + 60 + 2 * barOf({ part, lathe, way })
      );
    },
  ],
  [/^turned in H\d+ the work would stand out over (12|6) of its diameters, with (.*)$/, standsOut],
];

export type Verdict = 'so' | 'not so' | 'unknown';

/** Whether a reason is so. */
export function verdictOn(of: Case, why: string): Verdict {
  for (const [pattern, so] of REASONS) {
    // In an error a reason begins a sentence.
    const plain = why.replace(/\.$/, '');
    const found = pattern.exec(plain) ?? pattern.exec(plain.charAt(0).toLowerCase() + plain.slice(1));
    if (found) return so(of, ...found.slice(1)) ? 'so' : 'not so';
  }
  return 'unknown';
}
