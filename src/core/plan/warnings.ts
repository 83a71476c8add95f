import type { Outline } from '../outline/types.ts';
import type { ResolvedLathe, ResolvedPart } from '../part/resolved.ts';
import type { Problem } from '../problem.ts';
import { shapeWarnings } from './shape-warnings.ts';
import { LONG_THREAD } from './threading.ts';
import { FREE_DIAMETERS, type Way } from './way.ts';
import type { Plan } from './types.ts';
import { size } from './words.ts';

/** What a plan is honest about: each a fixed code, listed in docs/part-file.md. */
export function planWarnings(
  part: ResolvedPart,
  outline: Outline,
  lathe: ResolvedLathe,
  way: Way,
  plan: Plan,
): Problem[] {
  return [
    ...centreLeft(way),
    ...matchedApart(outline, plan),
    ...finerThanReadout(part, outline, lathe),
    ...shapeWarnings(part, outline, lathe),
    ...thinWalls(outline, lathe),
    ...runOut(outline),
    ...skin(outline),
    ...longThreads(plan, outline),
    ...overBore(plan, lathe),
    ...held(way),
    ...springs(plan),
    ...toBuy(part, lathe),
  ];
}

const centreLeft = (way: Way): Problem[] =>
  way.centreLeft === null
    ? []
    : [
        {
          code: 'centre-left',
          where: way.centreLeft,
          say: `A centre hole that the drawing does not show stays in end ${way.centreLeft}.`,
        },
      ];

/** Matched diameters that are finished in different holdings. */
export function matchedApart(outline: Outline, plan: Plan): Problem[] {
  const finishedIn = (segment: string): string | undefined =>
    plan.holdings.find((h) =>
      h.cuts.some((c) => c.segment === segment && ['finish', 'groove'].includes(c.kind)),
    )?.id;
  return outline.matched.flatMap((group) => {
    const holdings = new Set(group.map(finishedIn).filter((id) => id !== undefined));
    if (holdings.size < 2) return [];
    const say = `${group.join(' and ')} are to be alike and true to each other, but are finished in ${[...holdings].join(' and ')}.`;
    return [{ code: 'matched-apart', where: group[0] ?? '', say }];
  });
}

function finerThanReadout(part: ResolvedPart, outline: Outline, lathe: ResolvedLathe): Problem[] {
  const count = lathe.readout.resolution * (lathe.readout.x === 'radius' ? 2 : 1);
  const fine = outline.segments.filter(
    (s) => !s.keepsSkin && s.form !== 'thread' && s.max > s.min && s.max - s.min < 2 * count,
  );
  const diameters = fine.map((s) => ({
    code: 'finer-than-readout',
    where: s.id,
    say: `The limits of ${s.id}, ${size(s.max - s.min, lathe)} apart, are finer than two counts of the readout: size it by micrometer, then polish.`,
  }));
  const lengths = part.lengths
    .filter(
      (l) =>
        !l.size.reference &&
        l.size.max > l.size.min &&
        l.size.max - l.size.min < 2 * lathe.readout.resolution,
    )
    .map((l) => ({
      code: 'finer-than-readout',
      where: l.id,
      say: `The limits of ${l.id} are finer than two counts of the readout: measure it, do not read it.`,
    }));
  return [...diameters, ...lengths];
}

/** Common practice, no source: a wall under 1 mm, or under a tenth of the diameter, springs and bells. */
function thinWalls(outline: Outline, lathe: ResolvedLathe): Problem[] {
  const worst = new Map<string, number>();
  for (const hole of outline.holes) {
    const deep = hole.depth ?? outline.length;
    const z0 = hole.from === 'first' ? 0 : outline.length - deep;
    for (const s of outline.segments) {
      if (s.z0 >= z0 + deep || s.z1 <= z0) continue;
      const inner = hole.thread ? Math.max(hole.thread.nominal, hole.diameter) : hole.diameter;
      const outer = s.thread ? s.thread.minor : Math.min(s.d0, s.d1);
      const wall = (outer - inner) / 2;
      if (wall < Math.max(1_000_000_000, outer / 10))
        worst.set(s.id, Math.min(wall, worst.get(s.id) ?? wall));
    }
  }
  return [...worst].map(([id, wall]) => ({
    code: 'thin-wall',
    where: id,
    say: `Only ${size(wall, lathe)} of wall stands between ${id} and the hole inside it: light cuts, and no hard grip there.`,
    facts: { wall_mm: wall / 1e9 },
  }));
}

/** A thread that runs up to a thicker land with no relief between has no room for the last turns of a die. */
function runOut(outline: Outline): Problem[] {
  return outline.segments.flatMap((s, i) => {
    if (!s.thread) return [];
    const before = outline.segments[i - 1];
    const after = outline.segments[i + 1];
    const left = before !== undefined && before.d1 > s.thread.nominal;
    const right = after !== undefined && after.d0 > s.thread.nominal;
    const relieved = (side: 'left' | 'right'): boolean =>
      outline.edges.some(
        (e) => e.form === 'undercut' && e.segment === s.id && (e.side === 'right') === (side === 'left'),
      );
    if ((left && !relieved('left')) || (right && !relieved('right')))
      return [
        {
          code: 'no-run-out',
          where: s.id,
          say: `${s.id} runs up to a shoulder with no relief: the last threads, about a pitch and a quarter to a pitch and three quarters, stay shallow.`,
        },
      ];
    return [];
  });
}

const skin = (outline: Outline): Problem[] =>
  outline.segments
    .filter((s) => s.keepsSkin)
    .map((s) => ({
      code: 'bar-skin',
      where: s.id,
      say: `${s.id} keeps the bar's own skin: measure the bar before it is cut, and expect it to run out by as much as the holder does.`,
    }));

/** A thread that is cut by die although a single point would do better. */
function longThreads(plan: Plan, outline: Outline): Problem[] {
  const byDie = plan.holdings.flatMap((h) => h.cuts.filter((c) => c.setting?.die !== undefined));
  return byDie.flatMap(({ segment }) => {
    const land = outline.segments.find((s) => s.id === segment);
    if (!land?.thread || land.z1 - land.z0 <= LONG_THREAD * land.thread.nominal) return [];
    const say = `${land.id} is long for a die, over ${LONG_THREAD} diameters: it seldom comes out straight. A lathe that cuts threads does it better.`;
    return [{ code: 'long-thread', where: land.id, say }];
  });
}

/** A bar that does not go through the spindle is sawn to a blank first. */
function overBore(plan: Plan, lathe: ResolvedLathe): Problem[] {
  const { bar, diameter_mm, length_mm } = plan.stock;
  if (diameter_mm * 1e9 <= lathe.spindleBore) return [];
  const say = `Bar ${bar} does not pass the spindle bore, ${size(lathe.spindleBore, lathe)}: saw a blank of ${size(length_mm * 1e9, lathe)} and hold it short.`;
  return [{ code: 'bar-over-bore', where: 'plan', say, facts: { bore_mm: lathe.spindleBore / 1e9 } }];
}

function held(way: Way): Problem[] {
  const seat = {
    code: 'seat-in-jaws',
    where: 'plan',
    say: 'A finished seat is gripped in hard jaws: put a shim of soft copper or aluminium under each jaw.',
  };
  const free = {
    code: 'slender',
    where: 'plan',
    say: `The work stands out more than ${FREE_DIAMETERS} of its diameters with no centre or steady: light cuts, and expect it to spring.`,
  };
  return [...(way.shimmed ? [seat] : []), ...(way.unsupported ? [free] : [])];
}

const springs = (plan: Plan): Problem[] =>
  plan.stiffness
    .filter((row) => !row.ok)
    .map((row) => ({
      code: 'springs',
      where: row.segment,
      say: `${row.segment} springs from the tool by ${row.error_mm.toFixed(4)} mm on the diameter along its last cut, where ${row.limit_mm.toFixed(4)} mm are allowed: take the last cut lighter, repeat the spring pass, and measure both ends.`,
    }));

function toBuy(part: ResolvedPart, lathe: ResolvedLathe): Problem[] {
  const key = (text: string): string =>
    text
      .toLowerCase()
      .replace(/×/g, 'x')
      .replace(/-\d[a-h]$/i, '')
      .replace(/\s/g, '');
  const has = (list: readonly string[] | null, name: string): boolean =>
    list === null || list.some((own) => key(own) === key(name));
  const dies = part.segments.flatMap((s) =>
    s.form === 'thread' && s.thread ? [[s.id, s.thread.designation] as const] : [],
  );
  const taps = part.holes.flatMap((h) => (h.form === 'tap' ? [[h.id, h.thread.designation] as const] : []));
  return [
    ...dies.filter(([, name]) => !has(lathe.dies, name)).map(([id, name]) => buy(id, `a die ${name}`)),
    ...taps.filter(([, name]) => !has(lathe.taps, name)).map(([id, name]) => buy(id, `a tap ${name}`)),
  ];
}

const buy = (where: string, what: string): Problem => ({
  code: 'to-buy',
  where,
  say: `The lathe file does not have ${what}: buy or borrow it.`,
});
