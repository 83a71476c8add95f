import type { Lathe } from './lathe.ts';

/** A metric bench lathe of our own scenario, kept beside the first one as an example. Common practice, no source. */
export const metricLathe: Lathe = {
  shaftwright_lathe: 1,
  name: 'boathouse lathe',
  unit: 'mm',
  swing: '180',
  between_centres: '350',
  spindle_bore: '20',
  collets: { min: '1', max: '16', step: '0.5', close: '0.5', runout: '0.02' },
  chucks: [{ jaws: 3, min: '3', max: '100', runout: '0.08' }],
  min_grip: '10',
  support: ['centre', 'steady', 'travelling-steady'],
  between_centres_drive: true,
  speeds: { min: 100, max: 2500 },
  feeds: ['0.05', '0.1', '0.15'],
  readout: { x: 'diameter', z_positive: 'tailstock', resolution: '0.01', repeat: '0.01', touch: '0.01' },
  compound_travel: '55',
  quill_travel: '50',
  tools: [
    { id: 'T1', kind: 'turn', hand: 'right', nose: '0.2', trailing: '30°' },
    { id: 'T2', kind: 'turn', hand: 'left', nose: '0.2', trailing: '30°' },
    { id: 'T3', kind: 'blade', width: '2', width_known_to: '0.01', reach: '12', edge: 'left' },
    { id: 'T4', kind: 'chamfer', angle: '45°' },
    { id: 'T5', kind: 'bore', min_bore: '6', reach: '30', nose: '0.2' },
  ],
  at_hand: { drills: 'all' },
  cut: { rough_on_diameter: '1', finish_on_diameter: '0.25', allowance_on_diameter: '0.5' },
  bars: { diameters: ['6', '8', '10', '12', '16', '20', '25', '30'], length: '300' },
};
