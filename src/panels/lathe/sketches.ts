import type { LatheTool } from '../../core/part/lathe.ts';

/** How a line or an area of a sketch is drawn. */
export type SketchRole = 'steel' | 'tool' | 'device' | 'edge' | 'axis' | 'arrow' | 'mark' | 'swarf';
export type SketchPath = { readonly role: SketchRole; readonly d: string };
export type SketchText = { readonly x: number; readonly y: number; readonly text: string };
/** A small drawing as the operator sees it from above: headstock at the left, tailstock at the right, tools below. */
export type Sketch = {
  readonly label: string;
  readonly width: number;
  readonly height: number;
  readonly paths: readonly SketchPath[];
  readonly texts: readonly SketchText[];
};

const p = (role: SketchRole, d: string): SketchPath => ({ role, d });
const t = (x: number, y: number, text: string): SketchText => ({ x, y, text });
/** A dimension along x at height y, with its arrows. */
const across = (x0: number, x1: number, y: number): SketchPath =>
  p('arrow', `M${x0} ${y} H${x1} m-5 -3 l5 3 l-5 3 M${x0 + 5} ${y - 3} l-5 3 l5 3`);
const upright = (x: number, y0: number, y1: number): SketchPath =>
  p('arrow', `M${x} ${y0} V${y1} m-3 -5 l3 5 l3 -5 M${x - 3} ${y0 + 5} l3 -5 l3 5`);

/** Swing, distance between centres and spindle bore. */
export const latheSketch: Sketch = {
  label:
    'Headstock at the left, tailstock at the right: swing over the bed, distance between centres, bore of the spindle.',
  width: 300,
  height: 130,
  paths: [
    p('device', 'M10 12 H70 V104 H10 Z'),
    p('device', 'M10 104 H290 V120 H10 Z'),
    p('device', 'M250 34 H285 V104 H250 Z'),
    p('edge', 'M70 30 H78 V66 H70 M78 48 l10 -4 M78 48 l10 4 M250 44 H240 L230 48 L240 52 H250'),
    p('mark', 'M10 44 H70 M10 52 H70'),
    p('axis', 'M2 48 H296'),
    across(78, 230, 78),
    upright(110, 48, 104),
  ],
  texts: [t(116, 96, 'half the swing'), t(134, 74, 'between centres'), t(14, 40, 'bore')],
};

const devices: Readonly<Record<string, Sketch>> = {
  collet: {
    label: 'A collet: it closes on a bar of its own size, and only a little below it.',
    width: 120,
    height: 80,
    paths: [
      p('steel', 'M4 30 H116 V50 H4 Z'),
      p('device', 'M4 12 H40 L64 22 V30 H4 Z M4 68 H40 L64 58 V50 H4 Z'),
      p('mark', 'M10 21 H52 M10 59 H52'),
      p('axis', 'M0 40 H120'),
    ],
    texts: [],
  },
  chuck: {
    label: 'A chuck: its jaws close on the work, from the smallest diameter to the largest.',
    width: 120,
    height: 80,
    paths: [
      p('device', 'M6 4 H30 V76 H6 Z'),
      p('steel', 'M30 30 H116 V50 H30 Z'),
      p('device', 'M30 10 H46 V20 H60 V30 H30 Z M30 70 H46 V60 H60 V50 H30 Z'),
      p('axis', 'M0 40 H120'),
    ],
    texts: [],
  },
  centre: {
    label: 'A live centre in the tailstock: a 60° point that turns with the work and holds its end up.',
    width: 120,
    height: 80,
    paths: [
      p('steel', 'M4 26 H62 V54 H4 Z'),
      p('device', 'M56 40 L86 23 V57 Z M86 26 H116 V54 H86 Z'),
      p('axis', 'M0 40 H120'),
    ],
    texts: [],
  },
  steady: {
    label: 'A steady: three fingers on a turned band, standing on the bed.',
    width: 120,
    height: 80,
    paths: [
      p('device', 'M60 4 A34 34 0 1 1 59.9 4 Z M60 13 A25 25 0 1 0 60.1 13 Z'),
      p('steel', 'M60 26 A12 12 0 1 1 59.9 26 Z'),
      p('device', 'M57 4 H63 V26 H57 Z M84 50 L87 55 L72 46 L69 41 Z M36 50 L33 55 L48 46 L51 41 Z'),
    ],
    texts: [],
  },
  'travelling-steady': {
    label: 'A travelling steady: two fingers that go with the tool, just behind the cut.',
    width: 120,
    height: 80,
    paths: [
      p('steel', 'M4 24 H60 V30 H116 V50 H60 V56 H4 Z'),
      p('device', 'M66 6 H78 V30 H66 Z M66 6 H96 V12 H78 V6 Z'),
      p('tool', 'M60 51 L66 78 H84 V62 Z'),
      p('arrow', 'M110 70 H92 m5 -3 l-5 3 l5 3'),
      p('axis', 'M0 40 H120'),
    ],
    texts: [],
  },
  dog: {
    label: 'Between centres: a faceplate turns a dog that is clamped to the work.',
    width: 120,
    height: 80,
    paths: [
      p('device', 'M6 4 H18 V76 H6 Z'),
      p('device', 'M18 32 L34 40 L18 48 Z'),
      p('steel', 'M32 28 H116 V52 H32 Z'),
      p('device', 'M48 18 H60 V62 H48 Z M12 8 H60 V18 H12 Z'),
      p('axis', 'M0 40 H120'),
    ],
    texts: [],
  },
};

/** What a lathe holds with, and what holds work up. */
export const deviceSketch = (kind: string): Sketch | null =>
  Object.hasOwn(devices, kind) ? (devices[kind] ?? null) : null;

/** The layers that are taken off a diameter: roughing cuts, what roughing leaves, finishing cuts. */
export const cutSketch: Sketch = {
  label: 'Roughing cuts come off first; what they leave on the diameter is taken by finishing cuts.',
  width: 240,
  height: 92,
  paths: [
    p('steel', 'M10 8 H60 V78 H10 Z M60 8 H230 V38 H60 Z'),
    p('swarf', 'M60 46 H230 V58 H60 Z M60 58 H230 V70 H60 Z'),
    p('mark', 'M60 38 H230 V46 H60 Z M60 42 H230'),
    p('axis', 'M2 8 H238'),
    p('edge', 'M60 78 H10 M60 38 V78'),
  ],
  texts: [t(96, 67, 'roughing cuts'), t(70, 90, 'blue: left for finishing')],
};

const WORK = 'M6 8 H66 V44 H6 Z M66 8 H154 V28 H66 Z';
const TURN = 'M67 29 L70 60 V92 H106 V51 Z';

const toolPictures: {
  readonly [Kind in LatheTool['kind']]: (tool: Extract<LatheTool, { kind: Kind }>) => Sketch;
} = {
  turn: ({ hand }) => ({
    label:
      hand === 'right'
        ? 'A right-hand tool cuts toward the headstock and makes faces that look to the tailstock.'
        : hand === 'left'
          ? 'A left-hand tool cuts toward the tailstock and makes faces that look to the headstock.'
          : 'A neutral tool cuts either way, and leaves a slope in a corner.',
    width: 160,
    height: 98,
    paths:
      hand === 'neutral'
        ? [
            p('steel', 'M6 8 H154 V28 H6 Z'),
            p('tool', 'M80 29 L62 60 V92 H98 V60 Z'),
            p('axis', 'M0 8 H160'),
            p('arrow', 'M56 50 H36 m5 -3 l-5 3 l5 3 M104 50 H124 m-5 -3 l5 3 l-5 3'),
          ]
        : [
            p('steel', hand === 'right' ? WORK : mirrored(WORK)),
            p('tool', hand === 'right' ? TURN : mirrored(TURN)),
            p('axis', 'M0 8 H160'),
            p('arrow', hand === 'right' ? 'M60 76 H40 m5 -3 l-5 3 l5 3' : 'M100 76 H120 m-5 -3 l5 3 l-5 3'),
          ],
    texts: hand === 'neutral' ? [] : [t(hand === 'right' ? 112 : 6, 62, 'trailing')],
  }),
  blade: ({ edge }) => ({
    label: `A blade makes both walls of a groove. It is touched off by its ${edge === 'left' ? 'headstock' : 'tailstock'} edge.`,
    width: 160,
    height: 98,
    paths: [
      p('steel', 'M6 8 H154 V40 H92 V24 H68 V40 H6 Z'),
      p('tool', 'M72 24 H88 V92 H72 Z'),
      p('axis', 'M0 8 H160'),
      p('mark', edge === 'left' ? 'M72 24 V56 M68 24 H72' : 'M88 24 V56 M92 24 H88'),
      across(72, 88, 84),
      upright(104, 24, 92),
    ],
    texts: [t(26, 88, 'width'), t(110, 66, 'reach')],
  }),
  bore: () => ({
    label: 'A boring tool works inside: the smallest bore it enters, and how deep it reaches.',
    width: 160,
    height: 98,
    paths: [
      p('steel', 'M20 6 H110 V26 H20 Z M20 66 H110 V86 H20 Z'),
      p('tool', 'M52 66 L60 48 H154 V40 H50 L46 66 Z'),
      p('axis', 'M0 46 H160'),
      across(48, 110, 92),
      upright(34, 26, 66),
    ],
    texts: [t(116, 96, 'reach'), t(2, 20, 'bore')],
  }),
  chamfer: () => ({
    label: 'A chamfering tool: its edge stands at an angle to the axis.',
    width: 160,
    height: 98,
    paths: [
      p('steel', 'M6 8 H94 L78 44 H6 Z'),
      p('tool', 'M98 8 L80 48 V92 H120 V58 Z'),
      p('axis', 'M0 8 H160'),
    ],
    texts: [t(124, 34, 'angle')],
  }),
  form: () => ({
    label: 'A round-nosed form tool: it leaves an arc of its own radius.',
    width: 160,
    height: 98,
    paths: [
      p('steel', 'M6 8 H154 V44 H98 A18 18 0 0 0 62 44 H6 Z'),
      p('tool', 'M62 46 A18 18 0 0 1 98 46 V92 H62 Z'),
      p('axis', 'M0 8 H160'),
    ],
    texts: [t(104, 74, 'nose radius')],
  }),
  thread: () => ({
    label: 'A threading tool: a 60° point, fed along by the leadscrew.',
    width: 160,
    height: 98,
    paths: [
      p(
        'steel',
        'M6 8 H154 V30 l-8 10 l-8 -10 l-8 10 l-8 -10 l-8 10 l-8 -10 l-8 10 l-8 -10 l-8 10 l-8 -10 H6 Z',
      ),
      p('tool', 'M90 31 L76 56 V92 H104 V56 Z'),
      p('axis', 'M0 8 H160'),
    ],
    texts: [],
  }),
};

/** A tool at its work, its hand and its touched edge as they are. */
export function toolSketch(tool: LatheTool): Sketch {
  const draw = toolPictures[tool.kind] as (of: LatheTool) => Sketch;
  return draw(tool);
}

/** The same path seen from the other side: M, H, V, L and Z with absolute places in a sketch 160 wide. */
function mirrored(d: string): string {
  return d.replace(/([MHL])(-?[\d.]+)/g, (_, command: string, x: string) => `${command}${160 - Number(x)}`);
}
