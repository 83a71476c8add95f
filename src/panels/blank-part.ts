import type { Unit } from '../core/lengths/length.ts';
import { newPart } from '../core/part/new-part.ts';
import type { GeneralRule, Part } from '../core/part/types.ts';

/** An empty board with general limits as plans of either unit usually state them, so that plain sizes have some. */
export const blankPart = (unit: Unit): Part => ({
  ...newPart(unit),
  material: 'free-cutting-steel',
  general: { lengths: usual[unit], diameters: usual[unit] },
});

// Common practice on inch drawings, no source: what the decimals written imply. Metric ones name a class of ISO 2768-1.
const usual: Readonly<Record<Unit, GeneralRule>> = {
  in: { rule: 'decimals', fraction: '1/64', '2': '.010', '3': '.005', '4': '.0005' },
  mm: { rule: 'iso2768', class: 'm' },
};
