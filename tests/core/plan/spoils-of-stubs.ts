import { metricLathe } from '../../../src/core/part/metric-lathe.ts';
import { ahead, nth } from './spoil.ts';
import type { Spoil } from './spoil.ts';
import { planned } from './spoils-of-shaft.ts';
import { shapes } from './shapes.ts';

const steps = shapes.find((s) => s.name === 'rising steps' && s.unit === 'mm')?.part;
if (!steps) throw new Error('no shape');

/** A spigot of 15 stays beyond A, 20 of bar beyond E. In the planner's own places end A lies at 15, end E at 77. */
export const bench = planned(
  {
    ...steps,
    stubs: [
      { end: 'A', length: '15', diameter: '6' },
      { end: 'E', length: '20' },
    ],
  },
  metricLathe,
);

const moved =
  (by: number): Spoil =>
  (p) => {
    for (const kind of ['part-off', 'sever'] as const) {
      const cut = nth(p, kind);
      cut.z0_mm += by;
      cut.z1_mm += by;
    }
    return undefined;
  };

/** Name, code, what is done to the plan. */
export const spoils: readonly (readonly [name: string, code: string, spoil: Spoil])[] = [
  ['faced off', 'stub-gone', (p) => void (nth(p, 'face').z1_mm += 15)],
  ['parted off at the end of the part, not beyond the stub', 'stub-gone', moved(-20)],
  ['parted off a little short', 'stub-gone', moved(-1)],
  [
    'turned thinner',
    'stub-gone',
    (p) => ahead(p, nth(p, 'part-off'), { ...nth(p, 'finish', 'stub A', -1), d0_mm: 5, d1_mm: 5 }),
  ],
];
