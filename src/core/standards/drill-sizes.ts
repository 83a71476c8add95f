import type { Origin } from './origin.ts';

export const drillsOrigin: Origin = {
  source: 'number, letter and fractional drill sizes, three independent published lists',
  provenance: 'published',
};

/** Number drills #80 to #1, in ten-thousandths of an inch, ascending. */
export const numberDrills: readonly number[] = [
  135, 145, 160, 180, 200, 210, 225, 240, 250, 260, 280, 292, 310, 320, 330, 350, 360, 370, 380, 390, 400,
  410, 420, 430, 465, 520, 550, 595, 635, 670, 700, 730, 760, 785, 810, 820, 860, 890, 935, 960, 980, 995,
  1015, 1040, 1065, 1100, 1110, 1130, 1160, 1200, 1285, 1360, 1405, 1440, 1470, 1495, 1520, 1540, 1570, 1590,
  1610, 1660, 1695, 1730, 1770, 1800, 1820, 1850, 1890, 1910, 1935, 1960, 1990, 2010, 2040, 2055, 2090, 2130,
  2210, 2280,
];

/** Letter drills A to Z, in ten-thousandths of an inch. */
export const letterDrills: readonly number[] = [
  2340, 2380, 2420, 2460, 2500, 2570, 2610, 2660, 2720, 2770, 2810, 2900, 2950, 3020, 3160, 3230, 3320, 3390,
  3480, 3580, 3680, 3770, 3860, 3970, 4040, 4130,
];
