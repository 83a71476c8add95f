import { roomWanted, thickest } from './billet.ts';
import { isPlunged, MOST_PLUNGES, type OutsideJob, plunges, touch } from './outside-job.ts';
import { bladeFor, roomBehind, type TurnTool, turnTool } from './tool-choice.ts';
import { list, size } from './words.ts';

/**
 * Roughs lands i…j and what lies between them, largest diameter first, the way a turner brings a bar down in steps:
 * the whole stretch to its largest rough size, then each lower stretch between the highest lands. A stretch behind a
 * shoulder that looks to the headstock is opened with the blade, wide enough for the turning tool to get in.
 *
 * @returns Why it cannot be done, or null.
 */
export function rough(job: OutsideJob, i: number, j: number): string | null {
  const targets = job.targets.slice(i, j + 1);
  const top = Math.max(...targets);
  const lo = job.bounds[i] ?? 0;
  const hi = job.bounds[j + 1] ?? 0;
  const current = thickest(job.draft.pieces, lo, hi);
  if (top < current && hi > lo) {
    const why = takeDown(job, { lo, hi, from: current, to: top });
    if (why) return why;
  }
  let start: number | null = null;
  for (let k = i; k <= j + 1; k++) {
    const lower = k <= j && (job.targets[k] ?? 0) < top;
    if (lower && start === null) start = k;
    if (!lower && start !== null) {
      const why = rough(job, start, k - 1);
      if (why) return why;
      start = null;
    }
  }
  return null;
}

type Stretch = { lo: number; hi: number; from: number; to: number };

function takeDown(job: OutsideJob, stretch: Stretch): string | null {
  const right = turnTool(job.draft.bench.lathe, 'right');
  const room = right
    ? roomWanted(job.draft.pieces, { u: stretch.lo, d: stretch.to }, 'tail', {
        trailingDeg: right.trailingDeg,
        slack: job.draft.bench.lathe.cut.allowance,
      })
    : Infinity;
  // Nothing stands in front: the tool comes in from the tailstock.
  if (room === 0) {
    roughTurn(job, stretch.lo, stretch);
    return null;
  }
  const wall = (thickest(job.draft.pieces, stretch.lo - 2e9, stretch.lo) - stretch.to) / 2;
  const blade = bladeFor(job.draft.bench.lathe, stretch.hi - stretch.lo, wall);
  if (!blade) {
    const tooNarrow = !bladeFor(job.draft.bench.lathe, stretch.hi - stretch.lo, 0);
    // Too narrow to rough: the groove itself is plunged from the full size.
    if (tooNarrow) return null;
    return `no blade in the lathe file reaches ${size(wall, job.draft.bench.lathe)} deep behind a shoulder`;
  }
  if (isPlunged(job, stretch.lo, stretch.hi, blade.width)) return null;
  const opening = Math.max(blade.width, room);
  if (right && plunges(opening, blade.width) > MOST_PLUNGES && descend(job, stretch, right)) return null;
  const all = !right || opening + blade.width >= stretch.hi - stretch.lo;
  const end = all ? stretch.hi : stretch.lo + opening;
  roughPlunge(job, { ...stretch, hi: end }, blade);
  if (!all) roughTurn(job, end, stretch);
  return null;
}

/**
 * Into a long low stretch without the blade: the right-hand tool goes down along the slope of its trailing edge and on
 * to the far wall, the left-hand one takes what is left under the near one (common practice, no source).
 *
 * @returns False where there is no left-hand tool, no room for both, or behind the near wall a higher one.
 */
function descend(job: OutsideJob, stretch: Stretch, right: TurnTool): boolean {
  const { draft } = job;
  const { lathe, material } = draft.bench;
  const left = turnTool(lathe, 'left');
  const { lo, hi, from, to } = stretch;
  const edge = { trailingDeg: right.trailingDeg, slack: lathe.cut.allowance };
  if (!left || roomWanted(draft.pieces, { u: lo, d: from }, 'tail', edge) > 0) return false;
  const foot = lo + roomBehind(right, (from - to) / 2);
  // The far wall may be higher than what is taken down here.
  const far = Math.max(from, thickest(draft.pieces, hi, Infinity));
  if (foot + roomBehind(left, (far - to) / 2) > hi) return false;
  touch(job, right);
  const passes = Math.ceil((from - to) / lathe.cut.rough);
  const common = { surface: material.speed.rough.low, feed: job.roughFeed, passes };
  const down = [draft.x(to), draft.z(foot, null)];
  draft.add({
    ...{ ...common, kind: 'rough', u0: lo, u1: foot, d0: from, d1: to, tool: right, readings: down },
    segment: job.landAt(lo, foot),
    say: `Rough down into the low stretch, each cut begun a little farther from the wall, to ${list(down)} in ${passes} ${passes === 1 ? 'cut' : 'cuts'}: no steeper than the ${Math.round(right.trailingDeg)}° at which the edge of ${right.id} falls away behind its point.${chipNote(draft)}`,
  });
  roughTurn(job, foot, stretch);
  touch(job, left);
  const back = [draft.x(to), draft.z(lo, null)];
  draft.add({
    ...{ ...common, kind: 'rough', u0: lo, u1: foot, d0: to, tool: left, readings: back },
    segment: job.landAt(lo, foot),
    say: `Rough toward the tailstock, up to the near wall, to ${list(back)} in ${passes} ${passes === 1 ? 'cut' : 'cuts'}: the slope that ${right.id} left.`,
  });
  return true;
}

function roughTurn(job: OutsideJob, lo: number, stretch: Stretch): void {
  const { draft } = job;
  const right = turnTool(draft.bench.lathe, 'right');
  if (!right) return;
  touch(job, right);
  const passes = Math.ceil((stretch.from - stretch.to) / draft.bench.lathe.cut.rough);
  const readings = [draft.x(stretch.to), draft.z(stretch.hi, null)];
  draft.add({
    kind: 'rough',
    u0: lo,
    u1: stretch.hi,
    d0: stretch.to,
    segment: job.landAt(lo, stretch.hi),
    tool: right,
    passes,
    surface: draft.bench.material.speed.rough.low,
    feed: job.roughFeed,
    readings,
    say: `Rough toward the headstock to ${list(readings)} in ${passes} ${passes === 1 ? 'cut' : 'cuts'}.${chipNote(draft)}`,
  });
}

/** Oil and chip, said once in each holding. */
function chipNote({ bench: { material }, cuts }: OutsideJob['draft']): string {
  if (cuts.some((cut) => cut.kind === 'rough')) return '';
  return ` On the cut: ${material.oil}. The chip: ${material.chip}.`;
}

function roughPlunge(job: OutsideJob, stretch: Stretch, blade: ReturnType<typeof bladeFor>): void {
  if (!blade) return;
  const { draft } = job;
  touch(job, blade);
  const passes = plunges(stretch.hi - stretch.lo, blade.width);
  const readings = [draft.bladeZ(stretch.lo, 'right', null, blade), draft.x(stretch.to)];
  if (passes > 1) readings.splice(1, 0, draft.bladeZ(stretch.hi, 'left', null, blade));
  draft.add({
    kind: 'rough',
    u0: stretch.lo,
    u1: stretch.hi,
    d0: stretch.to,
    segment: job.landAt(stretch.lo, stretch.hi),
    tool: blade,
    passes,
    surface: draft.bench.material.speed.part.low,
    readings,
    say: `Open behind the shoulder with the blade, ${passes === 1 ? 'one plunge at' : `${passes} plunges between`} ${list(readings)}. Slow; ${draft.bench.material.oil}; stop if it chatters.`,
  });
}
