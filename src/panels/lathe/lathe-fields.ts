import { latheFrom } from '../../core/part/read-lathe.ts';
import type { Lathe, LatheTool } from '../../core/part/lathe.ts';
import { resolveLathe } from '../../core/part/resolve-lathe.ts';
import type { Note } from '../../core/report-types.ts';

/** A field that is typed as one text, by its path in the lathe file. */
export type TextField = { readonly path: string; readonly label: string; readonly may?: boolean };

export const sizes: readonly TextField[] = [
  { path: 'swing', label: 'Swing over the bed' },
  { path: 'between_centres', label: 'Between centres' },
  { path: 'spindle_bore', label: 'Spindle bore' },
  { path: 'min_grip', label: 'Shortest grip', may: true },
  { path: 'compound_travel', label: 'Compound travel', may: true },
  { path: 'quill_travel', label: 'Quill travel', may: true },
];
export const colletFields: readonly TextField[] = [
  { path: 'collets.min', label: 'Smallest' },
  { path: 'collets.max', label: 'Largest' },
  { path: 'collets.step', label: 'Step' },
  { path: 'collets.close', label: 'Closes by', may: true },
  { path: 'collets.runout', label: 'Runout', may: true },
];
export const readoutFields: readonly TextField[] = [
  { path: 'readout.resolution', label: 'One count' },
  { path: 'readout.repeat', label: 'Comes back within ±' },
  { path: 'readout.touch', label: 'Touching off within ±' },
];
export const cutFields: readonly TextField[] = [
  { path: 'cut.rough_on_diameter', label: 'Roughing cut' },
  { path: 'cut.finish_on_diameter', label: 'Finishing cut' },
  { path: 'cut.allowance_on_diameter', label: 'Left for finishing' },
];
export const chuckFields: readonly TextField[] = [
  { path: 'min', label: 'Smallest' },
  { path: 'max', label: 'Largest' },
  { path: 'runout', label: 'Runout', may: true },
];
export const toolFields: Readonly<Record<LatheTool['kind'], readonly TextField[]>> = {
  turn: [
    { path: 'nose', label: 'Nose radius', may: true },
    { path: 'trailing', label: 'Trailing angle', may: true },
  ],
  blade: [
    { path: 'width', label: 'Width' },
    { path: 'width_known_to', label: 'Known to ±', may: true },
    { path: 'reach', label: 'Reach' },
  ],
  bore: [
    { path: 'min_bore', label: 'Smallest bore' },
    { path: 'reach', label: 'Reach' },
    { path: 'nose', label: 'Nose radius', may: true },
  ],
  chamfer: [{ path: 'angle', label: 'Angle' }],
  form: [{ path: 'nose', label: 'Nose radius', may: true }],
  thread: [],
};
export const toolKinds: Readonly<Record<LatheTool['kind'], string>> = {
  turn: 'turning',
  blade: 'blade',
  bore: 'boring',
  chamfer: 'chamfering',
  form: 'form, round nose',
  thread: 'threading',
};

type Json = Record<string, unknown>;
const isJson = (value: unknown): value is Json => typeof value === 'object' && value !== null;

/** The text at a path; empty where nothing stands. */
export function textAt(of: object, path: string): string {
  let value: unknown = of;
  for (const step of path.split('.')) value = isJson(value) ? value[step] : undefined;
  return typeof value === 'string' ? value : '';
}

/** The same thing with a text put in; an empty text in a field that may be left out takes it out. */
export function withText<T extends object>(of: T, field: TextField, text: string): T {
  const [head = '', ...rest] = field.path.split('.');
  const old = of as unknown as Json;
  if (rest.length > 0) {
    const inner = isJson(old[head]) ? old[head] : {};
    return { ...of, [head]: withText(inner, { ...field, path: rest.join('.') }, text) };
  }
  if (text !== '' || !field.may) return { ...of, [head]: text };
  return Object.fromEntries(Object.entries(of).filter(([key]) => key !== head)) as T;
}

/** "1/4, 3/8" as a list. */
export const listed = (text: string): string[] =>
  text
    .split(/[,;\n]/)
    .map((each) => each.trim())
    .filter((each) => each !== '');

/** Taps, dies or drills at hand as they are typed; an empty text takes the list out. “all” stands for any drill. */
export function withAtHand(lathe: Lathe, kind: 'taps' | 'dies' | 'drills', text: string): Lathe {
  const list = listed(text);
  const value = kind === 'drills' && list.length === 1 && list[0] === 'all' ? 'all' : list;
  const wanted: Json = { ...lathe.at_hand, [kind]: list.length > 0 ? value : undefined };
  const known = Object.entries(wanted).filter(([, each]) => each !== undefined);
  const others = Object.entries(lathe).filter(([key]) => key !== 'at_hand');
  return Object.fromEntries([
    ...others,
    ...(known.length > 0 ? [['at_hand', Object.fromEntries(known)]] : []),
  ]) as Lathe;
}

/** Speeds as they are typed: "125, 210, 420" for steps, "100 to 2500" for a variable drive. Null where neither. */
export function readSpeeds(text: string): Lathe['speeds'] | null {
  const range = /^\s*(\d+(?:\.\d+)?)\s*(?:to|…|\.\.\.?|–|-)\s*(\d+(?:\.\d+)?)\s*$/.exec(text);
  if (range) return { min: Number(range[1]), max: Number(range[2]) };
  const steps = listed(text).map(Number);
  return steps.length > 0 && steps.every((n) => Number.isFinite(n) && n > 0) ? steps : null;
}

export const writeSpeeds = (speeds: Lathe['speeds']): string =>
  Array.isArray(speeds) ? speeds.join(', ') : `${speeds.min} to ${speeds.max}`;

const emptyTools: { readonly [Kind in LatheTool['kind']]: (id: string) => LatheTool } = {
  turn: (id) => ({ id, kind: 'turn', hand: 'right', trailing: '30°' }),
  blade: (id) => ({ id, kind: 'blade', width: '', reach: '', edge: 'left' }),
  bore: (id) => ({ id, kind: 'bore', min_bore: '', reach: '' }),
  chamfer: (id) => ({ id, kind: 'chamfer', angle: '45°' }),
  form: (id) => ({ id, kind: 'form', nose: '' }),
  thread: (id) => ({ id, kind: 'thread' }),
};

/** A new tool of a kind with the fields that must be typed still empty. */
export function newTool(kind: LatheTool['kind'], taken: readonly string[]): LatheTool {
  let n = taken.length + 1;
  while (taken.includes(`T${n}`)) n += 1;
  return emptyTools[kind](`T${n}`);
}

/** Everything that is wrong with a lathe, each with its place; empty where it can be planned for. */
export function latheErrors(lathe: Lathe, taken: readonly string[]): Note[] {
  const named: Note[] = [];
  if (lathe.name.trim() === '')
    named.push({ code: 'no-name', where: 'name', say: 'The lathe wants a name.' });
  if (taken.includes(lathe.name))
    named.push({ code: 'name-taken', where: 'name', say: `“${lathe.name}” is the name of another lathe.` });
  const read = latheFrom(lathe, 'this lathe');
  if (!read.ok) return [...named, { ...read.problem, where: read.problem.where }];
  return [...named, ...resolveLathe(read.value).errors];
}

/** The sentence for a field, where something is wrong in it or in an item of its list. */
export const errorAt = (errors: readonly Note[], path: string): string | null =>
  errors.find(({ where }) => where === path || where.startsWith(`${path}[`))?.say ?? null;
