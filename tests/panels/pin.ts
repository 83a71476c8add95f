import type { Part } from '../../src/core/part/types.ts';

/** A closed pin with three steps, of our own scenario: small enough to see through. */
export const pin: Part = {
  shaftwright: 1,
  title: 'Latch pin',
  unit: 'in',
  material: 'mild-steel',
  general: { lengths: { rule: 'fixed', tol: '±.005' }, diameters: { rule: 'fixed', tol: '±.002' } },
  faces: [
    { id: 'A', sketched: 0 },
    { id: 'B', sketched: 0.5 },
    { id: 'C', sketched: 1.25 },
    { id: 'D', sketched: 1.5 },
  ],
  segments: [
    { id: 's1', form: 'cylinder', diameter: '3/8' },
    { id: 's2', form: 'cylinder', diameter: { size: '.5000', tol: '±.001' } },
    { id: 's3', form: 'cylinder', diameter: '3/8' },
  ],
  points: [],
  lengths: [
    { id: 'L1', from: 'A', to: 'B', size: '1/2' },
    { id: 'L2', from: 'B', to: 'C', size: '.750', tol: '±.002' },
    { id: 'L3', from: 'C', to: 'D', size: '1/4' },
  ],
  edges: [],
  holes: [],
  crossings: [],
  requirements: [],
  matched: [],
};
