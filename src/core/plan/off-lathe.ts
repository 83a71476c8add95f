import type { Outline, OutlineCrossing } from '../outline/types.ts';
import type { ResolvedLathe, ResolvedPart } from '../part/resolved.ts';
import { drillName } from '../standards/drills.ts';
import { materialOf, rpmFor } from './speeds.ts';
import type { Cut } from './types.ts';
import { size } from './words.ts';

/** What is cut off the lathe, in order: cross holes, keyseats and flats at their clocking, then deburring. */
export function offLathe(outline: Outline, part: ResolvedPart, lathe: ResolvedLathe): Cut[] {
  const order = { keyseat: 0, flat: 1, hole: 2 };
  const cuts = [...outline.crossings]
    .sort((a, b) => order[a.form] - order[b.form])
    .map((c) => crossCut(c, part, lathe));
  const stubs = part.stubs.map(({ face }) => ` The stub beyond end ${face} stays on.`).join('');
  return [
    ...cuts,
    {
      ...blank,
      kind: 'deburr',
      hand_turned: true,
      z0_mm: 0,
      z1_mm: outline.length / 1e9,
      say: `Break every edge by hand, off the lathe; clean the work and check it against the drawing.${stubs}`,
    },
  ];
}

const blank: Omit<Cut, 'kind' | 'z0_mm' | 'z1_mm' | 'say'> = {
  n: 0,
  segment: null,
  makes: null,
  tool: null,
  inside: false,
  d0_mm: null,
  d1_mm: null,
  passes: 1,
  rpm: null,
  feed_mm: null,
  hand_turned: false,
  support: null,
  readings: [],
  setting: null,
};

function crossCut(crossing: OutlineCrossing, part: ResolvedPart, lathe: ResolvedLathe): Cut {
  const d = crossing.size / 1e9;
  const across = crossing.form === 'hole';
  const metal = materialOf(part.material);
  return {
    ...blank,
    kind: 'cross',
    makes: crossing.id,
    z0_mm: crossing.z0 / 1e9,
    z1_mm: crossing.z1 / 1e9,
    d0_mm: d,
    d1_mm: d,
    rpm: across ? rpmFor(metal.speed.drill.low, crossing.size, lathe) : null,
    setting: {
      angle_deg: crossing.angleDeg,
      ...(crossing.depth === null ? {} : { depth_mm: crossing.depth / 1e9 }),
      ...(across ? { drill: drillName(crossing.size, lathe.unit) } : { width_mm: d }),
    },
    say: sentence(crossing, lathe),
  };
}

function sentence(crossing: OutlineCrossing, lathe: ResolvedLathe): string {
  const clock = `clocked ${crossing.angleDeg}° from the scribed line, counter-clockwise seen from the drawn right end`;
  const wide = size(crossing.size, lathe);
  if (crossing.form === 'hole') {
    const how =
      crossing.reaches === 'through'
        ? 'right through'
        : crossing.reaches === 'axis'
          ? 'to the axis'
          : `${size(crossing.depth ?? 0, lathe)} deep`;
    return `Off the lathe, in a V-block: cross-drill ${drillName(crossing.size, lathe.unit)} ${how}, ${clock}. Centre-punch the scribed line first.`;
  }
  const deep = crossing.depth === null ? '' : `, ${size(crossing.depth, lathe)} deep`;
  const what = crossing.form === 'keyseat' ? `keyseat ${wide} wide` : `flat`;
  return `Off the lathe: mill the ${what}${deep} between the scribed lines, ${clock}.`;
}
