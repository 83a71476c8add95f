import type { OutlineSegment } from '../../outline/types.ts';
import type { Problem } from '../../problem.ts';
import { flaw, inMm } from './flaw.ts';
import type { Scene } from './scene.ts';

/**
 * Threads and tapers. Codes: `not-threaded`, `thread-figures` (the thread step states the nominal diameter over its
 * whole segment), `thread-blank` (the blank is not within 0.9 to 1 of nominal), `thread-too-early` (before its blank
 * is finished), `thread-before-taper`, `taper-before-parallel` (a cylinder finished after a taper in one holding).
 */
export function threadFlaws(scene: Scene): Problem[] {
  const own = scene.outline.segments.filter((s) => s.form === 'thread');
  return [...own.flatMap((s) => oneThread(scene, s)), ...tapersLast(scene)];
}

function oneThread(scene: Scene, segment: OutlineSegment): Problem[] {
  const nominal = segment.thread?.nominal ?? segment.max;
  const steps = scene.steps.filter((s) => s.cut.segment === segment.id);
  const thread = steps.find((s) => s.cut.kind === 'thread');
  if (!thread) return [flaw('not-threaded', segment.id, `No step cuts the thread ${segment.id}.`)];
  const { cut, where } = thread;
  const out: Problem[] = [];
  const states = [cut.d0_mm, cut.d1_mm].every((d) => d !== null && Math.abs(d * 1e9 - nominal) < 1);
  if (!states || thread.z0 < segment.z0 || thread.z1 > segment.z1)
    out.push(flaw('thread-figures', where, `${where} does not state ${inMm(nominal)} on ${segment.id}.`));
  const blanks = steps.filter((s) => s.cut.kind === 'finish' || s.cut.kind === 'groove');
  const blank = blanks.at(-1)?.curve?.d0 ?? segment.d0;
  if (blank < 0.9 * nominal || blank > nominal)
    out.push(
      flaw(
        'thread-blank',
        blanks.at(-1)?.where ?? segment.id,
        `A blank of ${inMm(blank)} does not suit a thread of ${inMm(nominal)}.`,
      ),
    );
  if (blanks.some((s) => s.cut.n > cut.n))
    out.push(flaw('thread-too-early', where, `${where} threads ${segment.id} before its blank is finished.`));
  const meets = scene.outline.segments.filter(
    (s) => s.form === 'taper' && (s.z1 === segment.z0 || s.z0 === segment.z1),
  );
  const late = scene.steps.some(
    (s) => s.cut.kind === 'taper' && s.cut.n > cut.n && meets.some((m) => m.id === s.cut.segment),
  );
  if (late)
    out.push(flaw('thread-before-taper', where, `${where} threads before the taper beside it is turned.`));
  return out;
}

/** The swung compound spoils X for everything else, so in a holding what is parallel comes first. */
function tapersLast({ held, outline }: Scene): Problem[] {
  const level = new Set(outline.segments.filter((s) => s.form !== 'taper').map((s) => s.id));
  return held.flatMap(({ steps }) => {
    const taper = steps.findIndex((s) => s.cut.kind === 'taper' && !s.inside);
    if (taper < 0) return [];
    return steps
      .slice(taper)
      .filter((s) => s.cut.kind === 'finish' && level.has(s.cut.segment ?? ''))
      .map((s) =>
        flaw(
          'taper-before-parallel',
          s.where,
          `${s.where} finishes a cylinder after the compound was swung for a taper.`,
        ),
      );
  });
}
