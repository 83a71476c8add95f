import { barOf, bladesOf, type Case, held, landsOf, largestBar, mm } from './refusal-drawing.ts';
import { noGrip } from './refusal-grips.ts';
import { coneOutOfReach, grooveOf, standsOut } from './refusal-tools.ts';

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
