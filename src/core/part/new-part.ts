import type { Unit } from '../lengths/length.ts';
import type { Part } from './types.ts';

/** A part with nothing on it yet but its first face. */
export const newPart = (unit: Unit, title = ''): Part => ({
  shaftwright: 1,
  title,
  unit,
  faces: [{ id: 'A', sketched: 0 }],
  segments: [],
  points: [],
  lengths: [],
  edges: [],
  holes: [],
  crossings: [],
  requirements: [],
  matched: [],
  scan: null,
});
