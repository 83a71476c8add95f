import { readFileSync } from 'node:fs';
import { solveChains } from '../../../src/core/chains/solve.ts';
import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import type { Lathe } from '../../../src/core/part/lathe.ts';
import { readPart } from '../../../src/core/part/read-part.ts';
import { resolveLathe } from '../../../src/core/part/resolve-lathe.ts';
import { resolvePart } from '../../../src/core/part/resolve.ts';
import type { Part } from '../../../src/core/part/types.ts';
import type { Cut, Plan } from '../../../src/core/plan/types.ts';
import { planPart } from '../../../src/core/plan/ways.ts';
import { ahead, cuts, holding, nth, reading, without } from './spoil.ts';
import type { Bench, Spoil } from './spoil.ts';

const example = new URL('../../../static/examples/blower-shaft.json', import.meta.url);

/** A part planned by the program, with what its plan is to be held against. */
export function planned(part: Part, lathe: Lathe): Bench {
  const resolved = resolvePart(part);
  const machine = resolveLathe(lathe);
  const { plan, outline, errors } = planPart(resolved, solveChains(resolved), machine);
  if (!plan || !outline) throw new Error(errors.map((e) => e.say).join('\n'));
  return { plan, outline, lathe: machine };
}

function blower(): Part {
  const read = readPart(readFileSync(example, 'utf8'), 'blower-shaft.json');
  if (!read.ok) throw new Error(read.problem.say);
  return read.value;
}

export const shaft = planned(blower(), firstLathe);
const MM = 25.4;
const done = (changed: unknown): undefined => void changed;

const readings = (
  c: Cut,
  axis: 'X' | 'Z',
  value_mm: number,
  text = (value_mm / MM).toFixed(4).replace('0.', '.'),
) => Object.assign(reading(c, axis), { value_mm, text });
const swapTool = (tool: string, of: Cut[]) => done(of.map((c) => (c.tool = tool)));
const main = (plan: Plan) => holding(plan, 'H2');
const last = (plan: Plan) => holding(plan, 'H3');

/** Moves cuts, in the order given, to stand ahead of another. */
function move(plan: Plan, before: Cut, ...moved: Cut[]): undefined {
  without(plan, ...moved);
  return ahead(plan, before, ...moved);
}

// prettier-ignore
export const spoils: readonly (readonly [name: string, code: string, spoil: Spoil])[] = [
  ['the groove read by the other edge of the blade', 'reading-edge', (p) => { const r = reading(nth(p, 'groove', 'gap'), 'Z'); return done(r.other && Object.assign(r, { edge: r.other.edge, value_mm: r.other.value_mm, text: r.other.text, other: { edge: r.edge ?? 'left', value_mm: r.value_mm, text: r.text } })); }],
  ['the groove read as the wall itself, whichever edge makes it', 'reading-wrong', (p) => { const c = nth(p, 'groove', 'gap'); return done(c.readings.filter((r) => r.axis === 'Z').map((r) => Object.assign(r, { value_mm: -(shaft.outline.stations.get(r.station ?? '') ?? 0) / 1e9 }))); }],
  ['the groove a blade too far', 'reading-wrong', (p) => { const r = reading(nth(p, 'groove', 'gap'), 'Z'); return done((r.value_mm += 0.078 * MM)); }],
  ['a blade that is .080 wide, read as .078', 'kerf-width', () => ({ lathe: { ...shaft.lathe, tools: shaft.lathe.tools.map((t) => (t.kind === 'blade' ? { ...t, width: Math.round(0.08 * MM * 1e9) as typeof t.width } : t)) } })],
  ['one wall of the groove without a reading', 'reading-missing', (p) => { const c = nth(p, 'groove', 'gap'); return done((c.readings = c.readings.slice(0, 2))); }],
  ['too few plunges', 'too-few-plunges', (p) => done((nth(p, 'groove', 'gap').passes = 1))],
  ['a groove that stops short of its wall', 'groove-walls', (p) => done((nth(p, 'groove', 'gap').z1_mm -= 0.1))],
  ['a sign of Z turned round', 'reading-wrong', (p) => { const r = reading(nth(p, 'finish', 'land1'), 'Z'); return done(Object.assign(r, { value_mm: -r.value_mm, text: r.text.replace('-', '') })); }],
  ['the sense of the readout turned round', 'z-sign-wrong', (p) => done((main(p).z_sign = 1))],
  ['zero moved to the stop, the readings left', 'datum-wrong', (p) => done((main(p).zero_z_mm = 8.925))],
  ['the datum renamed', 'datum-wrong', (p) => done((last(p).datum.station = 'M'))],
  ['a diameter read as a radius', 'reading-wrong', (p) => { const c = nth(p, 'finish', 'seat'); return done(readings(c, 'X', (c.d0_mm ?? 0) / 2)); }],
  ['a size rounded to the side where no metal is put back', 'reading-text', (p) => done((reading(nth(p, 'finish', 'left', 1), 'X').text = '.3930'))],
  ['the drill read from the sawn end', 'reading-wrong', (p) => { const r = reading(nth(p, 'drill'), 'quill'); return done(Object.assign(r, { value_mm: r.value_mm + 1.190625, text: '1 1/8' })); }],

  ['the spring pass on a journal lost', 'no-spring-pass', (p) => without(p, nth(p, 'spring', 'left'))],
  ['the second spring pass on the seat lost', 'no-spring-pass', (p) => without(p, nth(p, 'spring', 'seat', 1))],
  ['the measuring after the test cut lost', 'no-measure', (p) => without(p, nth(p, 'measure', 'right'))],
  ['a journal in one finishing cut', 'one-finish-pass', (p) => without(p, nth(p, 'finish', 'right'), nth(p, 'spring', 'right'), nth(p, 'measure', 'right'))],
  ['a journal left at its test cut', 'one-finish-pass', (p) => without(p, nth(p, 'finish', 'right', 1), nth(p, 'spring', 'right', 1), nth(p, 'measure', 'right', 1))],
  ['test cut and last cut unequal', 'passes-unequal', (p) => done([nth(p, 'finish', 'left'), nth(p, 'spring', 'left'), nth(p, 'measure', 'left')].map((c) => { Object.assign(c, { d0_mm: 10.16, d1_mm: 10.16 }); return readings(c, 'X', 10.16); }))],

  ['the grip on air', 'grip-on-air', (p) => done(Object.assign(last(p).grips ?? {}, { z0_mm: -30, z1_mm: -1 }))],
  ['the grip half on the collar and half on the neck', 'grip-two-diameters', (p) => done(Object.assign(last(p).grips ?? {}, { z0_mm: 9, z1_mm: 19 }))],
  ['the grip on one land, told as two', 'grip-names', (p) => done(Object.assign(last(p).grips ?? {}, { on: ['land2', 'seat', 'neck'] }))],
  ['a grip too short', 'grip-too-short', (p) => done(Object.assign(last(p).grips ?? {}, { z0_mm: (last(p).grips?.z1_mm ?? 0) - 5 }))],
  ['the grip on the cone', 'grip-on-taper', (p) => done(Object.assign(last(p).grips ?? {}, { z0_mm: 86, z1_mm: 100, on: ['cone'] }))],
  ['the grip on the thread', 'grip-on-thread', (p) => done(p.holdings.push({ ...structuredClone(last(p)), id: 'H4', grips: { z0_mm: 104.3, z1_mm: 115, on: ['nut'] }, headstock: 'right', cuts: [] }))],
  ['a collet where none of the size is', 'grip-outside-range', () => ({ lathe: { ...shaft.lathe, collets: null } })],
  ['the grip behind a larger land', 'will-not-go-in', (p) => done(Object.assign(last(p), { grips: { z0_mm: 48, z1_mm: 76, on: ['seat'] } }))],
  ['a cut under the grip', 'cut-under-grip', (p) => done(nth(p, 'rough', undefined, 0).z1_mm = 135)],
  ['the bar not drawn out', 'cut-under-grip', (p) => done(Object.assign(main(p).grips ?? {}, { z0_mm: 38.1, z1_mm: 57.15 }))],
  ['the stick-out of the holding before', 'stick-out-wrong', (p) => done((main(p).stick_out_mm = holding(p, 'H1').stick_out_mm))],

  ['the centre without its hole', 'no-centre-hole', (p) => without(p, ...cuts(p, 'centre-drill').slice(1))],
  ['the mouth drilled away again', 'no-centre-hole', (p) => move(p, main(p).cuts[0] ?? nth(p, 'tap'), { ...nth(p, 'drill'), d0_mm: 7, d1_mm: 7 })],
  ['the centre left in for parting off', 'centre-in-the-way', (p) => without(p, nth(p, 'support', undefined, 1))],
  ['drilling with the centre up', 'centre-in-the-way', (p) => done((holding(p, 'H1').support = ['centre']))],
  ['long work without its centre', 'unsupported', (p) => without(p, nth(p, 'support'))],

  ['the far wall of the valley with a right-hand tool', 'wrong-hand', (p) => swapTool('T1', [...cuts(p, 'finish', 'seat'), ...cuts(p, 'spring', 'seat')])],
  ['a shoulder toward the tailstock with a left-hand tool', 'wrong-hand', (p) => swapTool('T2', [...cuts(p, 'finish', 'left'), ...cuts(p, 'spring', 'left')])],
  ['facing with a left-hand tool', 'wrong-hand', (p) => swapTool('T2', cuts(p, 'face'))],
  ['turning with the blade of the list that is none', 'no-such-tool', (p) => swapTool('T7', [nth(p, 'finish', 'collar')])],
  ['the blade not touched off', 'not-touched-off', (p) => without(p, ...cuts(p, 'touch').filter((c) => c.tool === 'T3'))],
  ['the chamfer tool set to 30°', 'chamfer-angle', () => ({ lathe: { ...shaft.lathe, tools: shaft.lathe.tools.map((t) => (t.kind === 'chamfer' ? { ...t, angleDeg: 30 } : t)) } })],
  ['a blade that does not reach', 'blade-too-short', () => ({ lathe: { ...shaft.lathe, tools: shaft.lathe.tools.map((t) => (t.kind === 'blade' ? { ...t, reach: 1e9 as typeof t.reach } : t)) } })],

  ['roughing into the part', 'enters-part', (p) => done(Object.assign(nth(p, 'rough', 'left'), { d0_mm: 9.9, d1_mm: 9.9 }))],
  ['roughing that leaves nothing on the shoulder', 'allowance-missing', (p) => done((nth(p, 'rough', 'left').z1_mm = 8.925))],
  ['roughing in half as many passes', 'rough-pass-too-deep', (p) => done((nth(p, 'rough', undefined, 1).passes = 2))],
  ['a land forgotten', 'outside-differs', (p) => without(p, ...cuts(p, 'finish', 'collar'))],
  ['a groove forgotten', 'outside-differs', (p) => without(p, ...cuts(p, 'groove', 'gap'))],
  ['a chamfer forgotten', 'edge-missing', (p) => without(p, nth(p, 'chamfer', 'nut'))],
  ['the second end not faced', 'end-not-faced', (p) => without(p, nth(p, 'face', undefined, 1))],
  ['parting off on the line', 'part-off-no-stock', (p) => done([nth(p, 'part-off'), nth(p, 'sever')].map((c) => Object.assign(c, { z0_mm: c.z0_mm - 0.508, z1_mm: c.z1_mm - 0.508 })))],
  ['the pip never sawn', 'pip-not-severed', (p) => without(p, nth(p, 'sever'))],
  ['facing after parting off', 'cut-after-part-off', (p) => done(main(p).cuts.push({ ...nth(p, 'chamfer', 'left'), n: 73.5 }))],

  ['the thread before its taper', 'thread-before-taper', (p) => move(p, nth(p, 'taper'), nth(p, 'thread'))],
  ['the taper before the cylinders', 'taper-before-parallel', (p) => move(p, nth(p, 'finish', 'seat', 1), nth(p, 'taper'))],
  ['the compound set to the whole angle', 'compound-angle', (p) => { const c = nth(p, 'taper'); return done((c.setting = { ...c.setting, compound_deg: 2 * (c.setting?.compound_deg ?? 0) })); }],
  ['a compound that does not travel so far', 'compound-travel', () => ({ lathe: { ...shaft.lathe, compoundTravel: 19e9 as NonNullable<typeof shaft.lathe.compoundTravel> } })],
  ['a cone that is too slim', 'enters-part', (p) => done((nth(p, 'taper').d1_mm = 7.5))],
  ['the thread forgotten', 'not-threaded', (p) => without(p, nth(p, 'thread'))],
  ['the thread step that states the blank', 'thread-figures', (p) => done(Object.assign(nth(p, 'thread'), { d0_mm: 5.85, d1_mm: 5.85 }))],
  ['a blank at the root of the thread', 'thread-blank', (p) => done(Object.assign(nth(p, 'finish', 'nut'), { d0_mm: 5, d1_mm: 5 }))],
  ['threading the rough blank', 'thread-too-early', (p) => move(p, nth(p, 'finish', 'nut'), nth(p, 'thread'))],
  ['the tap forgotten', 'tap-wrong', (p) => without(p, nth(p, 'tap'))],
  ['tapping before drilling', 'tap-wrong', (p) => move(p, nth(p, 'drill'), nth(p, 'tap'))],
  ['tapping as deep as the drill', 'tap-wrong', (p) => done((nth(p, 'tap').z1_mm = 12.7))],
  ['the long hole forgotten', 'hole-missing', (p) => without(p, nth(p, 'drill'))],

  ['the cross hole forgotten', 'crossing-missing', (p) => done((p.off_lathe = p.off_lathe.filter((c) => c.makes !== 'x1')))],
  ['the keyseat on the lathe', 'crossing-on-lathe', (p) => { const key = p.off_lathe.filter((c) => c.makes === 'key'); p.off_lathe = p.off_lathe.filter((c) => c.makes !== 'key'); return done(last(p).cuts.push(...key)); }],
  ['two cuts of one number', 'n-order', (p) => done((nth(p, 'groove', 'gap').n -= 1))],
  ['a speed between the steps', 'speed-wrong', (p) => done((nth(p, 'groove', 'gap').rpm = 500))],
  ['a scribe line beside its face', 'mark-station', (p) => done(main(p).marks.slice(0, 1).map((m) => (m.z_mm += 1)))],
  ['a scribe line drawn when its metal is gone', 'mark-waste', (p) => done(main(p).marks.slice(0, 1).map((m) => (m.before = 70)))],
];
