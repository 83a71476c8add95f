import type { ChainState } from '../core/chains/types.ts';
import { fromMm, type Unit } from '../core/lengths/length.ts';
import { writeDecimal } from '../core/lengths/write.ts';
import type { Lathe, LatheTool } from '../core/part/lathe.ts';
import { segmentText as taperText } from '../core/outline/dimensions.ts';
import type { GeneralRule, Part, Segment, SizeText } from '../core/part/types.ts';
import type { BladeEdge } from '../core/plan/types.ts';
import type { Report } from '../core/report-types.ts';

/** What every page is made from. */
export type SheetMatter = { readonly part: Part; readonly report: Report; readonly lathe: Lathe };

const DECIMALS: Readonly<Record<Unit, number>> = { in: 4, mm: 3 };

/** A figure of the report as a person reads it, without the unit; a dash where there is none. */
export function figureText(mm: number | null, unit: Unit, decimals: number = DECIMALS[unit]): string {
  return mm === null || !Number.isFinite(mm) ? '–' : writeDecimal(fromMm(mm), unit, decimals);
}

/** A stretch on the bar in both units, the one asked for first: "5.75 in (146 mm)". */
export function bothUnits(mm: number, unit: Unit): string {
  const inches = `${writeDecimal(fromMm(mm), 'in', 3)} in`;
  const metric = `${writeDecimal(fromMm(mm), 'mm', 1)} mm`;
  return unit === 'in' ? `${inches} (${metric})` : `${metric} (${inches})`;
}

export const sizeText = (size: SizeText): string => (typeof size === 'string' ? size : size.size);
const tolText = (size: SizeText): string => (typeof size === 'string' ? '' : (size.tol ?? ''));

/** A size with its tolerance as they stand on the plan; brackets round a reference. */
export function writtenText(size: SizeText, tol = '', role = ''): string {
  const text = [sizeText(size), tol || tolText(size)].filter((t) => t !== '').join(' ');
  const reference = role === 'reference' || (typeof size !== 'string' && size.role === 'reference');
  return reference ? `(${text})` : text;
}

/** A taper's, a thread's and a cylinder's size in a few characters. */
export function segmentText(segment: Segment): string {
  if (segment.form === 'thread') return segment.thread;
  if (segment.form === 'cylinder') {
    const text = writtenText(segment.diameter);
    return text.startsWith('Ø') ? text : `Ø${text}`;
  }
  return taperText(segment);
}

/** A face or point by its id, with its name where it has one. */
export function stationText(part: Part, id: string): string {
  const name = [...part.faces, ...part.points].find((station) => station.id === id)?.name;
  return name ? `${id} (${name})` : id;
}

export const edgeText = (edge: BladeEdge): string => (edge === 'left' ? 'headstock edge' : 'tailstock edge');

/** A bare designation says what it is; a name that already does stays as it is. */
export const centreDrillText = (name: string): string =>
  /drill|countersink/i.test(name) ? name : `centre drill ${name}`;

export const STATE_TEXTS: Readonly<Record<ChainState, string>> = {
  closed: 'Closed: every place is given once.',
  doubled: 'Said twice: some places are given more than once, and agree.',
  open: 'Open: some places are not given.',
  clashing: 'Clashing: some sizes contradict one another.',
};

export function ruleText(rule: GeneralRule | undefined): string {
  if (!rule) return 'none given';
  if (rule.rule === 'fixed') return rule.tol;
  if (rule.rule === 'iso2768') return `ISO 2768-1 ${rule.class}`;
  const parts = Object.entries(rule)
    .filter(([key]) => /^\d+$/.test(key))
    .map(([count, tol]) => `${count} decimals ±${tol ?? ''}`);
  return [...(rule.fraction ? [`fractions ±${rule.fraction}`] : []), ...parts].join(', ');
}

/** A tool of the lathe as one looks for it in the drawer. */
export function toolText(tool: LatheTool): string {
  switch (tool.kind) {
    case 'turn':
      return `${tool.hand}-hand turning tool${tool.nose ? `, nose radius ${tool.nose}` : ''}`;
    case 'blade':
      return `blade, width ${tool.width}, reach ${tool.reach}, touched off at its ${edgeText(tool.edge)}`;
    case 'bore':
      return `boring bar for holes from ${tool.min_bore}, reach ${tool.reach}`;
    case 'chamfer':
      return `chamfering tool, ${tool.angle}`;
    case 'form':
      return 'form tool';
    case 'thread':
      return 'threading tool';
  }
}

/** Decimal degrees, and minutes as a compound slide's scale is read. */
export function degreesText(value: number): string {
  const minutes = Math.round(Math.abs(value) * 60);
  const whole = `${value < 0 ? '-' : ''}${Math.floor(minutes / 60)}°`;
  return minutes % 60 === 0 ? whole : `${Math.round(value * 1000) / 1000}° (${whole}${minutes % 60}′)`;
}
