import type { Lathe } from './lathe.ts';

/**
 * The lathe that serves until the user describes an own one: a common 7 by 14 inch bench lathe. Common practice, no
 * source. Taps and dies are left open: what a part needs is listed to have ready, and none is ruled out.
 */
export const firstLathe: Lathe = {
  shaftwright_lathe: 1,
  name: 'bench lathe',
  unit: 'in',
  swing: '7',
  between_centres: '14',
  spindle_bore: '13/16',
  collets: { min: '1/16', max: '3/4', step: '1/64', close: '.005', runout: '.0005' },
  chucks: [{ jaws: 3, min: '1/8', max: '4', runout: '.003' }],
  min_grip: '3/8',
  support: ['centre', 'steady', 'travelling-steady'],
  between_centres_drive: true,
  speeds: [125, 210, 420, 620, 1000, 1500, 2500],
  feeds: ['.002', '.004', '.006'],
  readout: { x: 'diameter', z_positive: 'tailstock', resolution: '.0005', repeat: '.0005', touch: '.0005' },
  compound_travel: '2',
  quill_travel: '2',
  tools: [
    { id: 'T1', kind: 'turn', hand: 'right', nose: '.008', trailing: '30°' },
    { id: 'T2', kind: 'turn', hand: 'left', nose: '.008', trailing: '30°' },
    { id: 'T3', kind: 'blade', width: '.078', width_known_to: '.0005', reach: '.45', edge: 'left' },
    { id: 'T4', kind: 'chamfer', angle: '45°' },
    { id: 'T5', kind: 'bore', min_bore: '.230', reach: '1 1/4', nose: '.008' },
  ],
  at_hand: { drills: 'all' },
  cut: { rough_on_diameter: '.040', finish_on_diameter: '.010', allowance_on_diameter: '.020' },
  bars: { diameters: ['1/4', '5/16', '3/8', '7/16', '1/2', '5/8', '3/4', '1'], length: '12' },
};
