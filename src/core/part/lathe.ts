import type { Unit } from '../lengths/length.ts';

export type LatheTool =
  | { id: string; kind: 'turn'; hand: 'right' | 'left' | 'neutral'; nose?: string; trailing?: string }
  | {
      id: string;
      kind: 'blade';
      width: string;
      width_known_to?: string;
      reach: string;
      edge: 'left' | 'right';
    }
  | { id: string; kind: 'bore'; min_bore: string; reach: string; nose?: string }
  | { id: string; kind: 'chamfer'; angle: string }
  | { id: string; kind: 'form'; nose?: string }
  | { id: string; kind: 'thread' };

/** The lathe file, version 1, sizes as the texts that were typed. */
export type Lathe = {
  shaftwright_lathe: 1;
  name: string;
  unit: Unit;
  swing: string;
  between_centres: string;
  spindle_bore: string;
  collets: { min: string; max: string; step: string; close?: string; runout?: string } | null;
  chucks: { jaws: number; min: string; max: string; runout?: string }[];
  min_grip?: string;
  support: string[];
  between_centres_drive: boolean;
  speeds: number[] | { min: number; max: number };
  feeds?: string[];
  readout: {
    x: 'diameter' | 'radius';
    z_positive: 'tailstock' | 'headstock';
    resolution: string;
    repeat: string;
    touch: string;
  };
  compound_travel?: string;
  quill_travel?: string;
  tools: LatheTool[];
  at_hand?: { taps?: string[]; dies?: string[]; drills?: string | string[] };
  cut: { rough_on_diameter: string; finish_on_diameter: string; allowance_on_diameter: string };
  bars: { diameters: string[]; length: string };
};
