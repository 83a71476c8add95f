import type { Part } from '../../../src/core/part/types.ts';
import { barOf, type Case, held, landsOf, largestBar, mm, sizeOf } from './refusal-drawing.ts';

/** The land that a reason is about, in what the words after it say. */
function grip(of: Case, ids: readonly string[], why: string): boolean {
  const lands = landsOf(of.part);
  const own = ids.map((id) => lands.find((l) => l.id === id.split(' ')[0]));
  return own.every((land, i) => {
    if (land?.form !== 'cylinder') return false;
    const least =
      of.lathe.min_grip === undefined ? Math.max(land.d, 10) : mm(of.lathe.min_grip, of.lathe.unit);
    if (why === 'worked on in that holding') return isWorkedOn(of, land.id);
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

export function noGrip(of: Case, list: string): boolean {
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

/**
 * A land that is worked on when the work is turned round: it lies within 1 mm of what is cut from the end that is free then,
 * as far as the drawing tells. From either end that may be the chamfer there, and threads that a die comes to; where the work is
 * turned from both ends, from the other end than was first every land before the thickest as well.
 */
function isWorkedOn(of: Case, id: string): boolean {
  const first = /end (\S+)/.exec(of.way)?.[1];
  const bothEnds = of.way.startsWith('from both ends') || of.way === largestBar(of.lathe);
  const ends = [of.part.faces[0]?.id, of.part.faces.at(-1)?.id];
  return ends.some((end, k) => {
    const lands = k === 0 ? landsOf(of.part) : [...landsOf(of.part)].reverse();
    const at = lands.map((_, i) => lands.slice(0, i + 1).reduce((sum, l) => sum + l.l, 0));
    // A thread is cut on a blank a little under its size. Of lands alike the one nearest the first end is the thickest.
    const blanks = lands.map((l) => (l.form === 'thread' ? 0.97 * l.d : l.d));
    const turned = blanks.lastIndexOf(Math.max(...blanks));
    const worked = lands.flatMap((land, i) => {
      const byDie = land.form === 'thread' && lands.slice(0, i).every((l) => l.low < land.d);
      return byDie || (bothEnds && end !== first && i < turned) ? [at[i] ?? 0] : [];
    });
    const reach = Math.max(0, chamferAt(of.part, end), ...worked) + 1;
    // What an end is chamfered by is no grip either.
    const far = (at[lands.findIndex((l) => l.id === id)] ?? Infinity) - chamferAt(of.part, ends[1 - k]);
    return far <= reach + 1e-6;
  });
}

/** Length of the chamfer at an end, 0 where none. */
function chamferAt({ edges = [] }: Part, end: string | undefined): number {
  const sizes = edges.flatMap((e) =>
    e.form === 'chamfer' && e.face === end ? [mm(sizeOf(e.size), 'mm')] : [],
  );
  return Math.max(0, ...sizes);
}
