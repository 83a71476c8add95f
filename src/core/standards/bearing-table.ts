import type { Origin, Provenance } from './origin.ts';

export const bearingOrigin: Origin = {
  source: 'boundary dimensions as printed in published bearing size charts; rows from memory are marked',
  provenance: 'published',
};
export const boreOrigin: Origin = {
  source: 'ISO 492, class Normal, bore deviation, as printed in three published tables',
  provenance: 'published',
};
export const chamferOrigin: Origin = {
  source: 'least corner chamfers, from memory: check the maker’s table',
  provenance: 'memory',
};

type Row = readonly [
  designation: string,
  bore: number,
  outside: number,
  width: number,
  chamferMm: number | null,
  from: Provenance,
];

const P = 'published';
const M = 'memory';

/** Sizes in mm. */
export const metricBearings: readonly Row[] = [
  ['623', 3, 10, 4, 0.15, P],
  ['624', 4, 13, 5, 0.2, M],
  ['625', 5, 16, 5, 0.3, P],
  ['626', 6, 19, 6, 0.3, P],
  ['627', 7, 22, 7, 0.3, M],
  ['628', 8, 24, 8, 0.3, M],
  ['629', 9, 26, 8, 0.3, P],
  ['608', 8, 22, 7, 0.3, P],
  ['6000', 10, 26, 8, 0.3, P],
  ['6001', 12, 28, 8, 0.3, P],
  ['6002', 15, 32, 9, 0.3, P],
  ['6003', 17, 35, 10, 0.3, P],
  ['6004', 20, 42, 12, 0.6, P],
  ['6005', 25, 47, 12, 0.6, P],
  ['6006', 30, 55, 13, 1, P],
  ['6007', 35, 62, 14, 1, P],
  ['6008', 40, 68, 15, 1, P],
  ['6200', 10, 30, 9, 0.6, P],
  ['6201', 12, 32, 10, 0.6, P],
  ['6202', 15, 35, 11, 0.6, P],
  ['6203', 17, 40, 12, 0.6, P],
  ['6204', 20, 47, 14, 1, P],
  ['6205', 25, 52, 15, 1, P],
  ['6206', 30, 62, 16, 1, P],
  ['6207', 35, 72, 17, 1.1, P],
  ['6208', 40, 80, 18, 1.1, P],
];

/** Sizes in inches, open bearings; shielded and sealed ones are wider. No chamfers: none are firm. */
export const inchBearings: readonly Row[] = [
  ['R2', 0.125, 0.375, 5 / 32, null, M],
  ['R3', 0.1875, 0.5, 5 / 32, null, M],
  ['R4', 0.25, 0.625, 0.196, null, P],
  ['R4A', 0.25, 0.75, 7 / 32, null, M],
  ['R6', 0.375, 0.875, 7 / 32, null, M],
  ['R8', 0.5, 1.125, 0.25, null, M],
  ['R10', 0.625, 1.375, 9 / 32, null, M],
  ['R12', 0.75, 1.625, 0.3125, null, M],
];

/** The bore is nominal at most, and at least this much from it; bore up to and including, in mm. */
export const boreTolerance: readonly { readonly upTo: number; readonly lowerMicrometres: number }[] = [
  { upTo: 18, lowerMicrometres: -8 },
  { upTo: 30, lowerMicrometres: -10 },
  { upTo: 50, lowerMicrometres: -12 },
  { upTo: 80, lowerMicrometres: -15 },
  { upTo: 120, lowerMicrometres: -20 },
];
