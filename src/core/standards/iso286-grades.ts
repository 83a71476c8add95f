import type { Origin } from './origin.ts';

export const gradesOrigin: Origin = {
  source: 'ISO 286-1, standard tolerance grades, as printed in published extracts that agree',
  provenance: 'published',
};

/**
 * Tolerance grades IT1 to IT16 in micrometres, for each step of nominal sizes to 500 mm. A step runs over the end of the
 * one before it, up to and including `upTo`, in mm.
 */
export const grades: readonly { readonly upTo: number; readonly it: readonly number[] }[] = [
  { upTo: 3, it: [0.8, 1.2, 2, 3, 4, 6, 10, 14, 25, 40, 60, 100, 140, 250, 400, 600] },
  { upTo: 6, it: [1, 1.5, 2.5, 4, 5, 8, 12, 18, 30, 48, 75, 120, 180, 300, 480, 750] },
  { upTo: 10, it: [1, 1.5, 2.5, 4, 6, 9, 15, 22, 36, 58, 90, 150, 220, 360, 580, 900] },
  { upTo: 18, it: [1.2, 2, 3, 5, 8, 11, 18, 27, 43, 70, 110, 180, 270, 430, 700, 1100] },
  { upTo: 30, it: [1.5, 2.5, 4, 6, 9, 13, 21, 33, 52, 84, 130, 210, 330, 520, 840, 1300] },
  { upTo: 50, it: [1.5, 2.5, 4, 7, 11, 16, 25, 39, 62, 100, 160, 250, 390, 620, 1000, 1600] },
  { upTo: 80, it: [2, 3, 5, 8, 13, 19, 30, 46, 74, 120, 190, 300, 460, 740, 1200, 1900] },
  { upTo: 120, it: [2.5, 4, 6, 10, 15, 22, 35, 54, 87, 140, 220, 350, 540, 870, 1400, 2200] },
  { upTo: 180, it: [3.5, 5, 8, 12, 18, 25, 40, 63, 100, 160, 250, 400, 630, 1000, 1600, 2500] },
  { upTo: 250, it: [4.5, 7, 10, 14, 20, 29, 46, 72, 115, 185, 290, 460, 720, 1150, 1850, 2900] },
  { upTo: 315, it: [6, 8, 12, 16, 23, 32, 52, 81, 130, 210, 320, 520, 810, 1300, 2100, 3200] },
  { upTo: 400, it: [7, 9, 13, 18, 25, 36, 57, 89, 140, 230, 360, 570, 890, 1400, 2300, 3600] },
  { upTo: 500, it: [8, 10, 15, 20, 27, 40, 63, 97, 155, 250, 400, 630, 970, 1550, 2500, 4000] },
];
