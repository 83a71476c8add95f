import { fromMm, pm, ZERO, type Length, type Unit } from '../lengths/length.ts';
import { readAngle } from '../lengths/read-angle.ts';
import { readSize } from '../lengths/read-size.ts';
import type { Problem } from '../problem.ts';
import type { Lathe, LatheTool } from './lathe.ts';
import type { ResolvedLathe, ResolvedTool } from './resolved.ts';

/** Reads the texts of one lathe and keeps what is wrong with them. */
class LatheTexts {
  readonly unit: Unit;
  readonly errors: Problem[] = [];

  constructor(unit: Unit) {
    this.unit = unit;
  }

  fault(code: string, where: string, say: string): void {
    this.errors.push({ code, where, say });
  }

  /** A length over 0, and not under `least`; null where the text is none. */
  length(text: string, where: string, least: Length = ZERO): Length | null {
    const read = readSize(text, this.unit);
    if (!read.ok) {
      this.errors.push({ ...read.problem, where });
      return null;
    }
    const { nominal, limits, fit } = read.value;
    if (limits || fit !== null) this.fault('plain-size-wanted', where, `“${text}” takes no tolerance here.`);
    if (nominal > 0 && nominal >= least) return nominal;
    if (nominal > 0) {
      const usual = `${least / 1e9} mm, or ${(least / 25.4e9).toFixed(4).slice(1)} in`;
      this.fault(
        'lathe-too-fine',
        where,
        `“${text}” is less than a lathe works with; the least here is ${usual}.`,
      );
      return null;
    }
    this.fault('size-zero', where, `“${text}” is nothing; a size is larger than 0.`);
    return null;
  }

  /** A length that may be 0 or left out, such as a runout. */
  amount(text: string | undefined, where: string): Length {
    if (text === undefined || /^\s*[.,]?0[0.,]*\s*$/.test(text)) return ZERO;
    return this.length(text, where) ?? ZERO;
  }

  optional(text: string | undefined, where: string, least: Length = ZERO): Length | null {
    return text === undefined ? null : this.length(text, where, least);
  }

  angle(text: string, where: string, otherwise: number): number {
    const read = readAngle(text);
    if (read.ok && read.value > 0 && read.value < 90) return read.value;
    if (!read.ok) this.errors.push({ ...read.problem, where });
    else this.fault('angle-out-of-range', where, `The angle lies between 0° and 90°, not at ${text}.`);
    return otherwise;
  }
}

function resolveTool(texts: LatheTexts, tool: LatheTool, where: string): ResolvedTool | null {
  const { id } = tool;
  if (tool.kind === 'turn') {
    const nose = texts.amount(tool.nose, `${where}.nose`);
    const trailingDeg = texts.angle(tool.trailing ?? '30°', `${where}.trailing`, 30);
    return { id, kind: 'turn', hand: tool.hand, nose, trailingDeg };
  }
  if (tool.kind === 'blade') {
    const width = texts.length(tool.width, `${where}.width`);
    const reach = texts.length(tool.reach, `${where}.reach`);
    const widthKnownTo = texts.amount(tool.width_known_to, `${where}.width_known_to`);
    return width === null || reach === null
      ? null
      : { id, kind: 'blade', width, widthKnownTo, reach, edge: tool.edge };
  }
  if (tool.kind === 'bore') {
    const minBore = texts.length(tool.min_bore, `${where}.min_bore`);
    const reach = texts.length(tool.reach, `${where}.reach`);
    return minBore === null || reach === null ? null : { id, kind: 'bore', minBore, reach };
  }
  if (tool.kind === 'chamfer') {
    return { id, kind: 'chamfer', angleDeg: texts.angle(tool.angle, `${where}.angle`, 45) };
  }
  if (tool.kind === 'form') return { id, kind: 'form', nose: texts.amount(tool.nose, `${where}.nose`) };
  return { id, kind: 'thread' };
}

type Range = { readonly min: Length; readonly max: Length };

function range(texts: LatheTexts, { min, max }: { min: string; max: string }, where: string): Range | null {
  const least = texts.length(min, `${where}.min`);
  const most = texts.length(max, `${where}.max`);
  if (least === null || most === null) return null;
  if (least <= most) return { min: least, max: most };
  texts.fault('limits-crossed', `${where}.min`, `The least, ${min}, is more than the most, ${max}.`);
  return null;
}

function resolveCollets(texts: LatheTexts, collets: Lathe['collets']): ResolvedLathe['collets'] {
  if (!collets) return null;
  const span = range(texts, collets, 'collets');
  const step = texts.length(collets.step, 'collets.step');
  const close = texts.amount(collets.close, 'collets.close');
  const runout = texts.amount(collets.runout, 'collets.runout');
  return span && step && { ...span, step, close, runout };
}

function resolveChucks(texts: LatheTexts, chucks: Lathe['chucks']): ResolvedLathe['chucks'] {
  return chucks.flatMap((chuck, i) => {
    const span = range(texts, chuck, `chucks[${i}]`);
    const runout = texts.amount(chuck.runout, `chucks[${i}].runout`);
    return span ? [{ jaws: chuck.jaws, ...span, runout }] : [];
  });
}

function resolveSpeeds(texts: LatheTexts, speeds: Lathe['speeds']): ResolvedLathe['speeds'] {
  if (Array.isArray(speeds)) {
    if (speeds.length === 0) texts.fault('no-speeds', 'speeds', 'The lathe needs one speed at least.');
    return { steps: speeds.toSorted((a, b) => a - b) };
  }
  const { min, max } = speeds;
  if (min > max)
    texts.fault('limits-crossed', 'speeds.min', `The least, ${min}, is more than the most, ${max}.`);
  return { min: Math.min(min, max), max: Math.max(min, max) };
}

function resolveReadout(texts: LatheTexts, readout: Lathe['readout']): ResolvedLathe['readout'] {
  const fine = texts.unit === 'in' ? pm(12_700_000) : fromMm(0.01);
  return {
    x: readout.x,
    zPositive: readout.z_positive,
    resolution: texts.length(readout.resolution, 'readout.resolution') ?? fine,
    repeat: texts.amount(readout.repeat, 'readout.repeat'),
    touch: texts.amount(readout.touch, 'readout.touch'),
  };
}

/** A cut lighter than this rubs instead of cutting (common practice, no source). */
const LIGHTEST_CUT = fromMm(0.005);
/** A cone is cut in bites of the compound's travel: one that hardly moves would take them without end. */
const SHORTEST_TRAVEL = fromMm(1);
/** Finishing cuts that nobody takes one after another: each is a step of the plan. */
const MOST_CUTS = 50;

function resolveCut(texts: LatheTexts, cut: Lathe['cut']): ResolvedLathe['cut'] {
  const read = (text: string, field: string, mm: number) =>
    texts.length(text, `cut.${field}`, LIGHTEST_CUT) ?? fromMm(mm);
  const rough = read(cut.rough_on_diameter, 'rough_on_diameter', 1);
  const finish = read(cut.finish_on_diameter, 'finish_on_diameter', 0.25);
  const allowance = read(cut.allowance_on_diameter, 'allowance_on_diameter', 0.5);
  if (allowance <= finish * MOST_CUTS) return { rough, finish, allowance };
  const say = `An allowance of ${cut.allowance_on_diameter} takes more than ${MOST_CUTS} finishing cuts of ${cut.finish_on_diameter}.`;
  texts.fault('too-many-cuts', 'cut.allowance_on_diameter', say);
  return { rough, finish: fromMm(0.25), allowance: fromMm(0.5) };
}

function resolveBars(texts: LatheTexts, bars: Lathe['bars']): ResolvedLathe['bars'] {
  const diameters = bars.diameters.flatMap((text, i) => {
    const diameter = texts.length(text, `bars.diameters[${i}]`);
    return diameter === null ? [] : [{ text, diameter }];
  });
  const length = texts.length(bars.length, 'bars.length') ?? fromMm(300);
  return { diameters: diameters.sort((a, b) => a.diameter - b.diameter), length };
}

/**
 * The lathe with every text read, in pm. Speeds, feeds and bars come in ascending order. A size that cannot be read
 * stands in `errors` with its place (`tools[2].width`); the tool, chuck, feed or bar that needs it is left out, and
 * what the lathe itself cannot do without falls to a small usual figure, so that the view has something to show.
 * A turning tool without `trailing` has 30°; a nose radius that is not given is 0; drills not restricted are "all".
 */
export function resolveLathe(lathe: Lathe): ResolvedLathe {
  const texts = new LatheTexts(lathe.unit);
  const atHand = lathe.at_hand;
  const drills = atHand?.drills;
  return {
    name: lathe.name,
    unit: lathe.unit,
    swing: texts.length(lathe.swing, 'swing') ?? fromMm(150),
    betweenCentres: texts.length(lathe.between_centres, 'between_centres') ?? fromMm(300),
    spindleBore: texts.amount(lathe.spindle_bore, 'spindle_bore'),
    collets: resolveCollets(texts, lathe.collets),
    chucks: resolveChucks(texts, lathe.chucks),
    minGrip: texts.optional(lathe.min_grip, 'min_grip'),
    support: lathe.support,
    betweenCentresDrive: lathe.between_centres_drive,
    speeds: resolveSpeeds(texts, lathe.speeds),
    feeds: (lathe.feeds ?? [])
      .flatMap((text, i) => texts.optional(text, `feeds[${i}]`) ?? [])
      .sort((a, b) => a - b),
    readout: resolveReadout(texts, lathe.readout),
    compoundTravel: texts.optional(lathe.compound_travel, 'compound_travel', SHORTEST_TRAVEL),
    quillTravel: texts.optional(lathe.quill_travel, 'quill_travel', SHORTEST_TRAVEL),
    tools: lathe.tools.flatMap((tool, i) => resolveTool(texts, tool, `tools[${i}]`) ?? []),
    taps: atHand?.taps ?? null,
    dies: atHand?.dies ?? null,
    drills: drills === undefined || drills === 'all' ? 'all' : [drills].flat(),
    cut: resolveCut(texts, lathe.cut),
    bars: resolveBars(texts, lathe.bars),
    errors: texts.errors,
  };
}
