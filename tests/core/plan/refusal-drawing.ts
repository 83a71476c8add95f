import type { Lathe } from '../../../src/core/part/lathe.ts';
import type { Part } from '../../../src/core/part/types.ts';
/** What a reason is checked against: the part and the lathe file as they were typed, nothing that the planner made. */
export type Case = { readonly part: Part; readonly lathe: Lathe; readonly way: string };
export type Land = {
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

export const sizeOf = (typed: unknown): string =>
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

export const bladesOf = ({ tools, unit }: Lathe): { width: number; reach: number }[] =>
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

export const barOf = ({ way, lathe }: Case): number =>
  mm(/(?:the |^)([\d./ ]+) (?:bar|blank)/.exec(way)?.[1] ?? '0', lathe.unit);
/** The thickest bar of a lathe, named as a way names it. */
export const largestBar = ({ bars, unit }: Lathe): string =>
  `out of the ${[...bars.diameters].sort((a, b) => mm(b, unit) - mm(a, unit))[0] ?? ''} bar`;
