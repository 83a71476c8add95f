import { readPart } from '../../../src/core/part/read-part.ts';
import type { Part } from '../../../src/core/part/types.ts';

/** Shapes of our own, so that the planner is fitted to no single example. Sizes in the unit named. */
type Land = { d: string; l: string; role?: string; form?: 'thread'; tol?: string };
type Shape = { title: string; lands: Land[]; edges?: object[]; holes?: object[]; ltol?: string };

const inch: Record<string, Shape> = {
  'rising steps': {
    title: 'Rising steps',
    lands: [
      { d: '.3120', l: '5/8', role: 'journal', tol: '±.0005' },
      { d: '.4370', l: '1/2' },
      { d: '.5620', l: '3/4' },
      { d: '.6870', l: '1/2' },
    ],
  },
  'falling steps': {
    title: 'Falling steps',
    lands: [
      { d: '.6870', l: '3/4' },
      { d: '.5620', l: '3/4' },
      { d: '.4370', l: '1/2' },
      { d: '.3120', l: '5/8', role: 'journal', tol: '±.0005' },
    ],
  },
  'a valley between two large lands': {
    title: 'Bobbin',
    lands: [
      { d: '.6870', l: '3/4' },
      { d: '.4990', l: '5/8', role: 'journal', tol: '±.0005' },
      { d: '.6870', l: '3/4' },
    ],
  },
  'a hill': {
    title: 'Hill',
    lands: [
      { d: '.3740', l: '7/8' },
      { d: '.5000', l: '3/8' },
      { d: '.6870', l: '5/8' },
      { d: '.5000', l: '3/8' },
      { d: '.3740', l: '7/8', role: 'seat', tol: '±.0005' },
    ],
  },
  'a tapped and chamfered end': {
    title: 'Tapped pin',
    lands: [
      { d: '.4990', l: '1 1/4' },
      { d: '.6240', l: '3/8' },
    ],
    edges: [
      { id: 'e1', face: 'A', side: 'right', form: 'chamfer', size: '1/32', angle: '45°' },
      { id: 'e2', face: 'C', side: 'left', form: 'chamfer', size: '1/32', angle: '45°' },
    ],
    holes: [{ id: 'h1', from: 'A', form: 'tap', thread: '10-32', depth: '1/2', drill_depth: '5/8' }],
  },
  'a long thin one': {
    title: 'Long thin',
    lands: [
      { d: '.2490', l: '3/4', role: 'journal', tol: '±.0005' },
      { d: '.3740', l: '5 1/2' },
      { d: '.2490', l: '3/4', role: 'journal', tol: '±.0005' },
    ],
  },
};

const metric: Record<string, Shape> = {
  'rising steps': {
    title: 'Rising steps, metric',
    lands: [
      { d: '8', l: '16', role: 'journal', tol: 'h6' },
      { d: '11', l: '12' },
      { d: '14', l: '20' },
      { d: '17.5', l: '14' },
    ],
  },
  'falling steps': {
    title: 'Falling steps, metric',
    lands: [
      { d: '17.5', l: '20' },
      { d: '14', l: '20' },
      { d: '11', l: '12' },
      { d: '8', l: '16', role: 'journal', tol: 'h6' },
    ],
  },
  'a valley between two large lands': {
    title: 'Bobbin, metric',
    lands: [
      { d: '17', l: '20' },
      { d: '12', l: '16', role: 'journal', tol: 'h7' },
      { d: '17', l: '20' },
    ],
  },
  'a hill': {
    title: 'Hill, metric',
    lands: [
      { d: '9.5', l: '22' },
      { d: '13', l: '10' },
      { d: '18', l: '16' },
      { d: '13', l: '10' },
      { d: '9.5', l: '22', role: 'seat', tol: 'h7' },
    ],
  },
  'a tapped and chamfered end': {
    title: 'Tapped pin, metric',
    lands: [
      { d: '12', l: '32' },
      { d: '15', l: '10' },
    ],
    edges: [
      { id: 'e1', face: 'A', side: 'right', form: 'chamfer', size: '1', angle: '45°' },
      { id: 'e2', face: 'C', side: 'left', form: 'chamfer', size: '1', angle: '45°' },
    ],
    holes: [{ id: 'h1', from: 'A', form: 'tap', thread: 'M6', depth: '12', drill_depth: '16' }],
  },
  'a long thin one': {
    title: 'Long thin, metric',
    lands: [
      { d: '6', l: '18', role: 'journal', tol: 'h7' },
      { d: '9.5', l: '140' },
      { d: '6', l: '18', role: 'journal', tol: 'h7' },
    ],
  },
};

const FACES = 'ABCDEFGHJKMNPQRSTUVW';

function part(shape: Shape, unit: 'in' | 'mm'): Part {
  const rule = unit === 'in' ? { rule: 'fixed', tol: '±.005' } : { rule: 'iso2768', class: 'm' };
  const document = {
    shaftwright: 1,
    title: shape.title,
    unit,
    material: 'mild-steel',
    general: { lengths: rule, diameters: rule },
    faces: Array.from({ length: shape.lands.length + 1 }, (_, i) => ({ id: FACES[i], sketched: i })),
    segments: shape.lands.map((land, i) => ({
      id: `s${i + 1}`,
      form: 'cylinder',
      diameter: land.tol ? { size: land.d, tol: land.tol } : land.d,
      ...(land.role ? { role: land.role } : {}),
    })),
    lengths: shape.lands.map((land, i) => ({
      id: `L${i + 1}`,
      from: FACES[i],
      to: FACES[i + 1],
      size: land.l,
    })),
    edges: shape.edges ?? [],
    holes: shape.holes ?? [],
  };
  const read = readPart(JSON.stringify(document), shape.title);
  if (!read.ok) throw new Error(read.problem.say);
  return read.value;
}

/** The six shapes, in inches and in millimetres. */
export const shapes: { name: string; unit: 'in' | 'mm'; part: Part }[] = [
  ...Object.entries(inch).map(([name, shape]) => ({ name, unit: 'in' as const, part: part(shape, 'in') })),
  ...Object.entries(metric).map(([name, shape]) => ({ name, unit: 'mm' as const, part: part(shape, 'mm') })),
];
