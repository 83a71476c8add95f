import type { Provenance } from './origin.ts';

export const metricSource =
  'ISO 261, ISO 724 and ISO 965, as printed in published thread tables; profile by formula';
export const metricDrillSource =
  'tap drills as printed in published core-hole tables (practice; nominal less pitch)';

const P = 'published';
const R = 'rule';
const M = 'memory';

/**
 * Nominal, pitch and tap drills in mm. `external`: class 6g, major max and min, pitch diameter max and min, in
 * micrometres. `internal`: class 6H, greatest pitch and minor diameter in micrometres, null where no source gives it.
 */
export type MetricRow = readonly [
  series: 'coarse' | 'fine',
  nominal: number,
  pitch: number,
  external: readonly [number, number, number, number],
  externalFrom: Provenance,
  internal: readonly [number | null, number | null],
  tapDrill: number,
  tapDrillFrom: Provenance,
  alternative: number | null,
];

export const metricRows: readonly MetricRow[] = [
  ['coarse', 1.6, 0.35, [1581, 1496, 1354, 1291], P, [1458, 1321], 1.3, P, 1.25],
  ['coarse', 2, 0.4, [1981, 1886, 1721, 1654], P, [1830, 1679], 1.6, P, null],
  ['coarse', 2.5, 0.45, [2480, 2380, 2188, 2117], P, [2303, 2138], 2.1, P, 2],
  ['coarse', 3, 0.5, [2980, 2874, 2655, 2580], P, [2775, 2599], 2.5, P, null],
  ['coarse', 3.5, 0.6, [3479, 3354, 3089, 3004], P, [3222, 3010], 2.9, P, null],
  ['coarse', 4, 0.7, [3978, 3838, 3523, 3433], P, [3663, 3422], 3.3, P, null],
  ['coarse', 5, 0.8, [4976, 4826, 4456, 4361], P, [4605, null], 4.2, P, null],
  ['coarse', 6, 1, [5974, 5794, 5324, 5212], P, [5500, null], 5, P, null],
  ['coarse', 7, 1, [6974, 6794, 6324, 6212], M, [6500, null], 6, P, null],
  ['coarse', 8, 1.25, [7972, 7760, 7160, 7042], M, [7348, null], 6.8, P, 6.75],
  ['coarse', 10, 1.5, [9968, 9732, 8994, 8862], R, [9206, null], 8.5, P, null],
  ['coarse', 12, 1.75, [11966, 11701, 10829, 10679], R, [11063, null], 10.2, P, 10.25],
  ['coarse', 14, 2, [13962, 13682, 12663, 12503], R, [12913, null], 12, P, null],
  ['coarse', 16, 2, [15962, 15682, 14663, 14503], R, [14913, null], 14, P, null],
  ['coarse', 18, 2.5, [17958, 17623, 16334, 16164], R, [16600, null], 15.5, P, null],
  ['coarse', 20, 2.5, [19958, 19623, 18334, 18164], R, [null, null], 17.5, P, null],
  ['coarse', 22, 2.5, [21958, 21623, 20334, 20164], R, [null, null], 19.5, P, null],
  ['coarse', 24, 3, [23952, 23577, 22003, 21803], R, [null, null], 21, P, null],
  ['coarse', 27, 3, [26952, 26577, 25003, 24803], R, [null, null], 24, P, null],
  ['coarse', 30, 3.5, [29947, 29522, 27674, 27462], R, [null, null], 26.5, P, null],
  ['fine', 3, 0.35, [2981, 2896, 2754, 2687], M, [null, 2721], 2.6, P, null],
  ['fine', 4, 0.5, [3980, 3874, 3655, 3580], M, [null, null], 3.5, P, null],
  ['fine', 5, 0.5, [4980, 4874, 4655, 4580], M, [null, null], 4.5, P, null],
  ['fine', 6, 0.75, [5978, 5838, 5491, 5391], M, [null, null], 5.2, P, null],
  ['fine', 8, 1, [7974, 7794, 7324, 7212], M, [null, null], 7, P, null],
  ['fine', 8, 0.75, [7978, 7838, 7491, 7391], M, [null, null], 7.2, P, null],
  ['fine', 10, 1.25, [9972, 9760, 9160, 9042], M, [null, null], 8.8, P, null],
  ['fine', 10, 1, [9974, 9794, 9324, 9212], M, [null, null], 9, P, null],
  ['fine', 10, 0.75, [9978, 9838, 9491, 9391], M, [null, null], 9.2, P, null],
  ['fine', 12, 1.5, [11968, 11732, 10994, 10854], M, [null, null], 10.5, P, null],
  ['fine', 12, 1.25, [11972, 11760, 11160, 11028], M, [null, null], 10.8, P, null],
  ['fine', 12, 1, [11974, 11794, 11324, 11206], M, [null, null], 11, P, null],
  ['fine', 14, 1.5, [13968, 13732, 12994, 12854], M, [null, null], 12.5, R, null],
  ['fine', 14, 1.25, [13972, 13760, 13160, 13028], M, [null, null], 12.8, P, null],
  ['fine', 14, 1, [13974, 13794, 13324, 13206], M, [null, null], 13, P, null],
  ['fine', 16, 1.5, [15968, 15732, 14994, 14854], M, [null, null], 14.5, R, null],
  ['fine', 16, 1, [15974, 15794, 15324, 15206], M, [null, null], 15, R, null],
  ['fine', 18, 1.5, [17968, 17732, 16994, 16854], M, [null, null], 16.5, R, null],
  ['fine', 20, 2, [19962, 19682, 18663, 18503], M, [null, null], 18, R, null],
  ['fine', 20, 1.5, [19968, 19732, 18994, 18854], M, [null, null], 18.5, R, null],
  ['fine', 20, 1, [19974, 19794, 19324, 19206], M, [null, null], 19, R, null],
  ['fine', 22, 1.5, [21968, 21732, 20994, 20854], M, [null, null], 20.5, P, null],
  ['fine', 24, 2, [23962, 23682, 22663, 22493], M, [null, null], 22, P, null],
  ['fine', 24, 1.5, [23968, 23732, 22994, 22844], M, [null, null], 22.5, P, null],
  ['fine', 27, 2, [26962, 26682, 25663, 25493], M, [null, null], 25, P, null],
  ['fine', 30, 2, [29962, 29682, 28663, 28493], M, [null, null], 28, P, null],
  ['fine', 30, 1.5, [29968, 29732, 28994, 28844], M, [null, null], 28.5, P, null],
];
