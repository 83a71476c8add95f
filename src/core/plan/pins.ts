import type { ResolvedLathe, ResolvedPart, ResolvedPins } from '../part/resolved.ts';
import type { Problem } from '../problem.ts';
import { facesMade } from './faces-made.ts';
import { type Work, zOf } from './frame.ts';
import type { Bench, HoldingDraft } from './holding-draft.ts';
import { endFace } from './way.ts';
import { size } from './words.ts';

/** Where in the part file something settled stands, and what it is in words: "the grip of H2". */
export type PinItem = { readonly where: string; readonly words: string; readonly rest: ResolvedPins };

/** Everything settled, one by one, each with what is left when that one is let go. */
export function pinItems(pins: ResolvedPins): PinItem[] {
  const single = (key: keyof ResolvedPins, words: string): PinItem[] =>
    pins[key] === undefined ? [] : [{ where: `pins.${key}`, words, rest: without(pins, key) }];
  const many = <K extends 'faces' | 'grips' | 'measured'>(
    key: K,
    words: (item: NonNullable<ResolvedPins[K]>[number]) => string,
  ): PinItem[] => {
    const list: readonly NonNullable<ResolvedPins[K]>[number][] = pins[key] ?? [];
    return list.map((item, i) => ({
      where: `pins.${key}[${i}]`,
      words: words(item),
      rest: { ...pins, [key]: list.filter((_, at) => at !== i) },
    }));
  };
  return [
    ...single('way', 'the way of holding'),
    ...single('first', `end ${pins.first ?? ''} first`),
    ...single('centre', pins.centre === true ? 'the live centre' : 'doing without a centre'),
    ...single('bar', `bar ${pins.bar ?? ''}`),
    ...single('grip', `the grip on ${pins.grip ?? ''}`),
    ...single('blade', `blade ${pins.blade ?? ''}`),
    ...single('seat', "the centre's seat"),
    ...single('part_off', 'doing without parting off'),
    ...single('split', `the split at ${pins.split ?? ''}`),
    ...many('faces', ({ face, from }) => `face ${face} cut from end ${from}`),
    ...many('grips', ({ holding }) => `the place of the grip in ${holding}`),
    ...many('measured', (length) => `measuring ${length}`),
  ];
}

const without = (pins: ResolvedPins, key: keyof ResolvedPins): ResolvedPins =>
  Object.fromEntries(Object.entries(pins).filter(([name]) => name !== key));

/**
 * Pins that name what is not there any more (a deleted land, another lathe's blade): they bind nothing.
 *
 * @returns What still binds, and a warning for each that does not.
 */
export function bindingPins(
  part: ResolvedPart,
  lathe: ResolvedLathe,
): { readonly pins: ResolvedPins; readonly voids: readonly Problem[] } {
  const { faces } = part;
  const ends = [faces[0] ?? '', faces.at(-1) ?? ''];
  const isThere = ({ where }: PinItem): boolean => {
    const { bar, blade, first, grip, split } = part.pins;
    const at = Number(/\[(\d+)\]$/.exec(where)?.[1]);
    if (where === 'pins.bar') return lathe.bars.diameters.some((b) => b.text === bar);
    if (where === 'pins.blade') return lathe.tools.some((t) => t.kind === 'blade' && t.id === blade);
    if (where === 'pins.first') return ends.includes(first ?? '');
    if (where === 'pins.grip') return part.segments.some((s) => s.id === grip);
    if (where === 'pins.split') return faces.includes(split ?? '') && !ends.includes(split ?? '');
    if (where.startsWith('pins.faces')) {
      const pin = part.pins.faces?.[at];
      return pin !== undefined && faces.includes(pin.face) && ends.includes(pin.from);
    }
    if (where.startsWith('pins.measured'))
      return part.lengths.some((l) => l.id === part.pins.measured?.[at] && !l.size.reference);
    return true;
  };
  let pins = part.pins;
  const voids: Problem[] = [];
  // From the last to the first, so that the places of those before it stay what they are.
  for (const item of pinItems(part.pins).reverse()) {
    if (isThere(item)) continue;
    pins = pinItems(pins).find(({ where }) => where === item.where)?.rest ?? pins;
    const say = `The plan was settled on ${item.words}, which is not there: it is planned without.`;
    voids.unshift({ code: 'pin-void', where: item.where, say });
  }
  return { pins, voids };
}

/** Whether a way is to be thought through: what only one way has settles the way. */
export function wantsWay(pins: ResolvedPins, way: NonNullable<ResolvedPins['way']>): boolean {
  if (pins.way !== undefined) return pins.way === way;
  return pins.split === undefined || way === 'both-ends';
}

/**
 * Where a holding grips, counted from the finished end at the tailstock: as it was settled, else as planned.
 *
 * @param least - Nothing is gripped nearer the end than this: it is cut there, or the grip would stand on nothing.
 * @returns The place in pm, or the sentence why what was settled cannot be kept.
 */
export function gripAt(bench: Bench, id: string, least: number, planned: number): number | string {
  const pin = bench.pins.grips?.find(({ holding }) => holding === id);
  if (!pin) return planned;
  const { lathe } = bench;
  return pin.out >= least
    ? pin.out
    : `the grip of ${id} cannot stand ${size(pin.out, lathe)} from the end: it must leave ${size(least, lathe)} free`;
}

/**
 * The last land, from the tailstock, that the first of two holdings turns: as settled by the split and by single
 * faces, else as planned. A face is made with the lower of the lands beside it.
 *
 * @returns Its index, or the sentence why not.
 */
export function splitAt(work: Work, pins: ResolvedPins, planned: number): number | string {
  const { lands } = work;
  const end = endFace(work);
  let [least, most] = [0, lands.length - 2];
  if (pins.split !== undefined) {
    const at = lands.findIndex((l) => l.headFace === pins.split);
    [least, most] = [at, at];
  }
  for (const { face, from } of pins.faces ?? []) {
    const at = lands.findIndex((l, i) => i > 0 && l.tailFace === face);
    if (at < 0) continue;
    const lower = (lands[at - 1]?.blank ?? 0) <= (lands[at]?.blank ?? 0) ? at - 1 : at;
    if (from === end) least = Math.max(least, lower);
    else most = Math.min(most, lower - 1);
  }
  if (most < least) return 'no split between the two holdings cuts every face from the end that was settled';
  return Math.min(Math.max(planned, least), most);
}

/** Why a plan that was thought through is not as settled, or null: a face cut from the other end, no such holding. */
export function againstPins(pins: ResolvedPins, drafts: readonly HoldingDraft[]): string | null {
  for (const { holding, out } of pins.grips ?? []) {
    const draft = drafts.find(({ setup }) => setup.id === holding);
    if (!draft) return `a grip was settled for ${holding}, and it has no such holding`;
    if (Math.abs(gripEdge(draft) - out) > 1000)
      return `${holding} grips ${size(gripEdge(draft), draft.bench.lathe)} from the end there, not where it was settled`;
  }
  if (pins.part_off === false && drafts.some(({ cuts }) => cuts.some(({ kind }) => kind === 'part-off')))
    return 'the work is parted off there, and that was settled against';
  for (const { face, from } of pins.faces ?? []) {
    const maker = [...drafts].reverse().find((draft) => facesMade(draft).has(face));
    const end = maker && endFace(maker.work);
    if (end !== undefined && end !== from)
      return `face ${face} is cut in ${maker?.setup.id ?? ''} with end ${end} at the tailstock, not ${from}`;
  }
  return null;
}

/** Where a holding grips, counted from the finished end at the tailstock, pm. */
function gripEdge({ setup: { grips }, work }: HoldingDraft): number {
  const places = [grips?.z0_mm ?? 0, grips?.z1_mm ?? 0].map((z_mm) => zOf(work, Math.round(z_mm * 1e9)));
  return Math.min(...places);
}
