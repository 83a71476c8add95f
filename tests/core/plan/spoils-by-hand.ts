import { fromMm } from '../../../src/core/lengths/length.ts';
import type { OutlineSegment } from '../../../src/core/outline/types.ts';
import type { ResolvedLathe } from '../../../src/core/part/resolved.ts';
import type { Cut, Plan } from '../../../src/core/plan/types.ts';
import { cut, handPlan, lathe, pin } from './hand-plan.ts';
import { ahead, holding, numbered, reading, without } from './spoil.ts';
import type { Spoil } from './spoil.ts';

export const bench = { plan: handPlan(), outline: pin, lathe };

const done = (changed: unknown): undefined => void changed;
const on = (change: Partial<ResolvedLathe>) => ({ lathe: { ...lathe, ...change } });
const blade = (change: object) =>
  on({ tools: lathe.tools.map((t) => (t.kind === 'blade' ? { ...t, ...change } : t)) });
const drawn = (id: string, change: Partial<OutlineSegment>) => ({
  outline: { ...pin, segments: pin.segments.map((s) => (s.id === id ? { ...s, ...change } : s)) },
});
/** Another diameter, its reading along with it. */
const level = (c: Cut, d: number): undefined => {
  Object.assign(c, { d0_mm: d, d1_mm: d });
  for (const r of c.readings) if (r.axis === 'X') Object.assign(r, { value_mm: d, text: d.toFixed(2) });
  return undefined;
};
const span = (c: Cut, z0_mm: number, z1_mm: number) => done(Object.assign(c, { z0_mm, z1_mm }));
const zAt = (c: Cut, value_mm: number) =>
  void Object.assign(reading(c, 'Z'), { value_mm, text: value_mm.toFixed(2), station: null });

/** Name, what is done to the plan, and every code it must be caught for: the first is the reason, the rest follow from it. */
// prettier-ignore
export const spoils: readonly (readonly [name: string, codes: string, spoil: Spoil])[] = [
  ['the bar is not as long as from end to end', 'stock-length', (p) => done(p.stock.length_mm = 82)],
  ['the part is thicker than the bar', 'stock-too-small outside-differs enters-part', () => drawn('s2', { d0: fromMm(17), d1: fromMm(17) })],
  ['the bar goes on behind its grip', 'stock-end', (p) => done(Object.assign(p.stock, { z1_mm: 85, length_mm: 86 }))],
  ['the named bar has another diameter', 'stock-diameter', () => on({ bars: { ...lathe.bars, diameters: [{ text: '16', diameter: fromMm(15) }] } })],
  ['no bar is so long', 'stock-too-long', () => on({ bars: { ...lathe.bars, length: fromMm(80) } })],
  ['the bar does not swing', 'out-of-swing', () => on({ swing: fromMm(15) })],

  ['a collet holds, but grips nothing', 'no-grip', (p) => done(holding(p, 'H2').grips = null)],
  ['the grip is beyond the end of the bar', 'grip-on-air stick-out-wrong', (p) => done(Object.assign(holding(p, 'H2').grips ?? {}, { z0_mm: -14, z1_mm: 2 }))],
  ['the grip is shorter than a diameter', 'grip-too-short stick-out-wrong', (p) => done(Object.assign(holding(p, 'H2').grips ?? {}, { z1_mm: 8 }))],
  ['the grip is shorter than the lathe file asks', 'grip-too-short', () => on({ minGrip: fromMm(17) })],
  ['the grip spans two diameters', 'grip-two-diameters', (p) => { Object.assign(holding(p, 'H2'), { grips: { z0_mm: 2, z1_mm: 34, on: ['s1', 's2'] }, stick_out_mm: 16.5 }); return undefined; }],
  ['hard jaws on the finished journal', 'grip-on-journal', (p) => done(holding(p, 'H2').device = 'chuck')],
  ['no collet of the size', 'grip-outside-range', () => on({ collets: { min: fromMm(2.3), max: fromMm(16.3), step: fromMm(2), close: fromMm(0.1), runout: fromMm(0.01) } })],
  ['no collets at all', 'grip-outside-range', () => on({ collets: null })],
  ['the grip is said to be on the bar, which was turned away there', 'grip-names', (p) => done(Object.assign(holding(p, 'H2').grips ?? {}, { on: 'bar' }))],
  ['the grip is said to be on another land', 'grip-names', (p) => done(Object.assign(holding(p, 'H2').grips ?? {}, { on: ['s2'] }))],
  ['gripped so that the thick end would have to go through the collet', 'will-not-go-in end-not-faced ends-differ', (p) => { Object.assign(holding(p, 'H2'), { headstock: 'right', stick_out_mm: 2, z_sign: -1, zero_z_mm: 0, datum: { station: 'A', how: '' }, cuts: [] }); Object.assign(p, { off_lathe: p.off_lathe }); return { outline: { ...pin } }; }],

  ['the stick-out is wrong', 'stick-out-wrong', (p) => done(holding(p, 'H1').stick_out_mm = 60)],
  ['the bar is longer than the bed', 'too-long-for-bed', () => on({ betweenCentres: fromMm(60) })],
  ['the readout counts the other way', 'z-sign-wrong reading-wrong mark-reading', (p) => done(holding(p, 'H1').z_sign = 1)],
  ['the lathe counts toward the headstock', 'z-sign-wrong', () => on({ readout: { ...lathe.readout, zPositive: 'headstock' } })],
  ['zero is at another face than the datum', 'datum-wrong', (p) => done(holding(p, 'H2').datum.station = 'B')],
  ['two holdings of one name', 'holding-twice', (p) => done(holding(p, 'H2').id = 'H1')],
  ['a steady that is not at hand', 'support-not-at-hand', (p) => done(Object.assign(holding(p, 'H2'), { support: ['travelling-steady'] }))],
  ['a step that puts up nothing', 'support-not-at-hand support-idle', (p) => ahead(p, numbered(p, 20), cut(0, 'support', [0, 0]))],
  ['a centre taken away that is not there', 'support-idle', (p) => ahead(p, numbered(p, 17), cut(0, 'support', [0, 0], { support: [] }))],
  ['a fit tried behind what is thicker, in the collet', 'prove-blocked touch-gripped', (p) => ahead(p, numbered(p, 20), cut(0, 'prove', [10, 10], { segment: 's1', d: 10 }))],
  ['a fit tried with the centre up', 'prove-blocked no-centre-hole', (p) => ahead(p, numbered(p, 13), cut(0, 'support', [0, 0], { support: ['centre'] }), cut(0, 'prove', [10, 10], { segment: 's1', d: 10 }), cut(0, 'support', [0, 0], { support: [] }))],
  ['a steady without a place', 'steady-nowhere', (p) => done(Object.assign(holding(p, 'H2'), { support: ['steady'] }))],
  ['a die run over the steady', 'die-past-steady cut-under-steady', (p) => ahead(p, numbered(p, 20), cut(0, 'support', [40, 40], { support: ['steady'] }), cut(0, 'thread', [20, 50], { segment: 's2', d: 14, hand_turned: true }), cut(0, 'support', [40, 40], { support: [] }))],
  ['a steady on the rough bar', 'steady-on-rough', (p) => ahead(p, numbered(p, 2), cut(0, 'support', [30, 30], { support: ['steady'] }), cut(0, 'support', [30, 30], { support: [] }))],
  ['a cut through the steady', 'cut-under-steady', (p) => ahead(p, numbered(p, 13), cut(0, 'support', [30, 30], { support: ['steady'] }))],

  ['a cut under the grip', 'cut-under-grip', (p) => { span(numbered(p, 5), 0, 61); zAt(numbered(p, 5), -61); return undefined; }],
  ['a cut inside the collet', 'cut-in-device stock-end wrong-hand', (p) => { Object.assign(holding(p, 'H1').grips ?? {}, { z1_mm: 76 }); ahead(p, numbered(p, 6), { ...structuredClone(numbered(p, 5)), z0_mm: 77, z1_mm: 79 }); zAt(numbered(p, 5.5), -79); return undefined; }],
  ['the outside is cut down to the hole', 'cut-through enters-part outside-differs groove-walls not-touched-off reading-missing', (p) => ahead(p, numbered(p, 14), cut(0, 'groove', [5, 8], { tool: 'T3', rpm: 300, d: 3.5, passes: 2 }))],
  ['cutting far out of the grip', 'unsupported', (p) => { Object.assign(p.stock, { z1_mm: 240, length_mm: 241 }); Object.assign(holding(p, 'H1'), { grips: { z0_mm: 220, z1_mm: 240, on: 'bar' }, stick_out_mm: 221 }); return undefined; }],
  ['roughing below the finished size', 'enters-part outside-differs passes-unequal', (p) => { level(numbered(p, 6), 9.5); numbered(p, 6).passes = 5; return undefined; }],
  ['roughing through the shoulder', 'enters-part outside-differs mark-lost', (p) => { span(numbered(p, 6), 0, 21); zAt(numbered(p, 6), -21); return undefined; }],
  ['roughing that leaves too little on the diameter', 'allowance-missing passes-unequal', (p) => { level(numbered(p, 6), 10.3); numbered(p, 6).passes = 5; return undefined; }],
  ['roughing that leaves too little on the face', 'allowance-missing', (p) => { span(numbered(p, 6), 0, 19.9); zAt(numbered(p, 6), -19.9); return undefined; }],
  ['a drill too deep', 'enters-part hole-differs', (p) => { span(numbered(p, 4), 0, 13); Object.assign(reading(numbered(p, 4), 'quill'), { value_mm: 13, text: '13' }); return undefined; }],
  ['a drill too wide', 'enters-part hole-differs', (p) => level(numbered(p, 4), 4.2)],
  ['a cut in the air', 'cuts-nothing', (p) => ahead(p, numbered(p, 13), cut(0, 'rough', [20, 50], { ...T1(), d: 15, readings: [{ axis: 'X', value_mm: 15, text: '15.00' }, { axis: 'Z', value_mm: -50, text: '-50.00' }] }))],

  ['facing the middle of the bar', 'face-not-at-end cut-through reading-missing', (p) => ahead(p, numbered(p, 5), cut(0, 'face', [52, 52.5], { ...T1(), d: 0 }))],
  ['a face that leaves a diameter', 'face-figures ends-differ', (p) => level(numbered(p, 20), 1)],
  ['the second end is never faced', 'end-not-faced ends-differ', (p) => without(p, numbered(p, 20))],
  ['turning after parting off', 'cut-after-part-off', (p) => { const late = numbered(p, 15); without(p, late); ahead(p, numbered(p, 18), late); return undefined; }],
  ['the pip is never sawn', 'pip-not-severed cut-through ends-differ face-not-at-end stick-out-wrong', (p) => without(p, numbered(p, 18))],
  ['sawing through the whole bar', 'sever-without-part-off mark-before', (p) => without(p, numbered(p, 17))],
  ['sawing that leaves a pip', 'sever-figures cut-through ends-differ face-not-at-end stick-out-wrong', (p) => level(numbered(p, 18), 1)],
  ['parting off on the finished face', 'part-off-no-stock cuts-nothing stick-out-wrong', (p) => partAt(p, 50)],
  ['parting off in the part', 'part-off-beside cuts-nothing ends-differ enters-part stick-out-wrong', (p) => partAt(p, 46)],
  ['a kerf that is not as wide as the blade', 'kerf-width', (p) => { span(numbered(p, 17), 50.5, 53); span(numbered(p, 18), 50.5, 53); return undefined; }],

  ['drilling from inside', 'hole-not-from-end hole-differs', (p) => span(numbered(p, 4), 1, 12)],
  ['drilling an end that was not faced', 'hole-in-rough-end', (p) => { const face = numbered(p, 2); without(p, face); ahead(p, numbered(p, 5), face); span(numbered(p, 3), -1, 1); span(numbered(p, 4), -1, 12); return undefined; }],
  ['drilling without a spot', 'drill-without-spot', (p) => without(p, numbered(p, 3))],
  ['a hole forgotten', 'hole-missing hole-differs', (p) => without(p, numbered(p, 4))],
  ['a drawn centre hole of another size', 'hole-differs', (p) => { numbered(p, 3).makes = 'h1'; without(p, numbered(p, 4)); return { outline: { ...pin, holes: pin.holes.map((h) => ({ ...h, form: 'centre' as const })) } }; }],
  ['an edge forgotten', 'edge-missing outside-differs', (p) => without(p, numbered(p, 15))],
  ['a chamfer as deep again', 'enters-part chamfer-angle outside-differs reading-wrong', (p) => done(Object.assign(numbered(p, 15), { d0_mm: 6 }))],
  ['a chamfer at another angle than the tool has', 'chamfer-angle enters-part outside-differs', (p) => done(Object.assign(numbered(p, 15), { z1_mm: 2 }))],
  ['a crossing forgotten', 'crossing-missing', (p) => done(p.off_lathe.shift())],
  ['a crossing in another place', 'crossing-wrong', (p) => done(Object.assign(p.off_lathe[0] ?? {}, { z0_mm: 34, z1_mm: 34 }))],
  ['a crossing of another size', 'crossing-wrong', (p) => done(Object.assign(p.off_lathe[0] ?? {}, { d0_mm: 4, d1_mm: 4 }))],
  ['a crossing on the lathe', 'crossing-on-lathe crossing-missing', (p) => { const cross = p.off_lathe.shift(); if (cross) holding(p, 'H2').cuts.push(cross); return undefined; }],
  ['turning after the last holding', 'turning-off-lathe end-not-faced ends-differ', (p) => { const face = numbered(p, 20); without(p, face); p.off_lathe.unshift(face); return undefined; }],

  ['a centre brought up where no hole is', 'no-centre-hole centre-in-the-way', (p) => ahead(p, numbered(p, 2), cut(0, 'support', [-1, -1], { support: ['centre'] }))],
  ['a centre brought up in a hole that was drilled wide', 'no-centre-hole', (p) => ahead(p, numbered(p, 14), cut(0, 'support', [0, 0], { support: ['centre'] }), cut(0, 'support', [0, 0], { support: [] }))],
  ['a centre hole as wide as its end', 'mouth-breaks-out cut-through', (p) => ahead(p, numbered(p, 16), cut(0, 'centre-drill', [0, 1], { d: 8, inside: true, rpm: 600 }), cut(0, 'support', [0, 0], { support: ['centre'] }), cut(0, 'support', [0, 0], { support: [] }))],
  ['between centres without centre holes', 'no-centre-hole centre-in-the-way', (p) => done(Object.assign(holding(p, 'H2'), { device: 'centres', grips: null, stick_out_mm: null }))],
  ['between centres with no faceplate', 'no-drive no-centre-hole centre-in-the-way', (p) => { Object.assign(holding(p, 'H2'), { device: 'centres', grips: null, stick_out_mm: null }); return on({ betweenCentresDrive: false }); }],
  ['a dog on the finished land', 'dog-on-finished no-centre-hole centre-in-the-way', (p) => done(Object.assign(holding(p, 'H2'), { device: 'centres', stick_out_mm: null }))],

  ['a tool that the lathe has not', 'no-such-tool not-touched-off', (p) => done(numbered(p, 13).tool = 'T9')],
  ['turning with a boring tool', 'wrong-tool not-touched-off', (p) => done(numbered(p, 13).tool = 'T5')],
  ['turning with no tool', 'wrong-tool', (p) => done(numbered(p, 13).tool = null)],
  ['boring in a hole too narrow for the tool', 'bore-tool not-touched-off enters-part hole-differs', (p) => ahead(p, numbered(p, 5), cut(0, 'bore', [0, 5], { tool: 'T5', d: 4.5, inside: true, rpm: 600 }))],
  ['a tool not touched off', 'not-touched-off', (p) => without(p, numbered(p, 14))],
  ['a tool not touched off again in the next holding', 'not-touched-off', (p) => without(p, numbered(p, 19))],
  ['the far shoulder with a left-hand tool', 'wrong-hand not-touched-off no-spring-pass', (p) => done(numbered(p, 10).tool = 'T2')],
  ['the far shoulder with a neutral tool', 'wrong-hand not-touched-off no-spring-pass', (p) => done(numbered(p, 10).tool = 'T6')],
  ['facing with a left-hand tool', 'wrong-hand not-touched-off', (p) => done(numbered(p, 20).tool = 'T2')],
  ['descending more steeply than the trailing edge', 'trailing-edge', (p) => ahead(p, numbered(p, 6), cut(0, 'rough', [50.5, 52.5], { ...T1(), d0_mm: 14.5, d1_mm: 10, passes: 6, readings: [{ axis: 'X', value_mm: 14.5, text: '14.50' }, ...numbered(p, 5).readings.slice(1)] }))],
  ['a blade wider than what it cuts', 'blade-too-wide', (p) => { ahead(p, numbered(p, 17), cut(0, 'undercut', [51, 52], { tool: 'T3', rpm: 300, d: 13 })); return undefined; }],
  ['a blade that does not reach', 'blade-too-short', () => blade({ reach: fromMm(5) })],
  ['a thin blade hung out far', 'blade-overhang kerf-width reading-other', () => blade({ width: fromMm(0.5) })],

  ['roughing too deep in one pass', 'rough-pass-too-deep', (p) => done(numbered(p, 6).passes = 3)],
  ['finishing too deep in one pass', 'finish-pass-too-deep', (p) => done(numbered(p, 13).passes = 1)],
  ['the journal finished in one cut', 'one-finish-pass finish-pass-too-deep', (p) => without(p, numbered(p, 7), numbered(p, 8), numbered(p, 9))],
  ['finishing cuts that are not equal', 'passes-unequal finish-pass-too-deep', (p) => done([7, 8, 9].map((n) => level(numbered(p, n), 10.1)))],
  ['the first spring pass lost', 'no-spring-pass', (p) => without(p, numbered(p, 8))],
  ['a spring pass that has to take the finishing cut', 'spring-cuts one-finish-pass', (p) => without(p, numbered(p, 10))],
  ['the last spring pass lost', 'no-spring-pass', (p) => without(p, numbered(p, 11))],
  ['a spring pass at another setting', 'no-spring-pass', (p) => level(numbered(p, 11), 10.02)],
  ['the first measuring lost', 'no-measure', (p) => without(p, numbered(p, 9))],
  ['the last measuring lost', 'no-measure', (p) => without(p, numbered(p, 12))],
  ['a measuring that names no land', 'measure-names no-measure', (p) => done(numbered(p, 9).segment = null)],
  ['a finish that stops short of its face', 'finish-not-face-to-face outside-differs', (p) => { for (const n of [7, 8, 10, 11]) { span(numbered(p, n), 0, 19.9); zAt(numbered(p, n), -19.9); } return undefined; }],
  ['the last finish a hair too thick', 'outside-differs reading-text', (p) => done([10, 11, 12].map((n) => level(numbered(p, n), 10.000001)))],
  ['the part a hair too long', 'ends-differ end-not-faced reading-wrong', (p) => done(span(numbered(p, 20), 50.000001, 50.5))],

  ['a speed the lathe has not', 'speed-wrong', (p) => done(numbered(p, 5).rpm = 601)],
  ['no speed for a turning cut', 'speed-wrong', (p) => done(numbered(p, 5).rpm = null)],
  ['a speed while turned by hand', 'speed-wrong', (p) => done(numbered(p, 5).hand_turned = true)],
  ['a feed the lathe has not', 'feed-wrong', (p) => done(numbered(p, 5).feed_mm = 0.07)],

  ['numbers out of order', 'n-order drill-without-spot', (p) => { const [a, b] = [numbered(p, 3), numbered(p, 4)]; a.n = 4; b.n = 3; return undefined; }],
  ['a number that stands twice', 'n-order', (p) => done(numbered(p, 1).n = 2)],
  ['ends of a cut swapped', 'places-swapped', (p) => span(numbered(p, 5), 52.5, 0)],
  ['a cut without a diameter', 'diameter-missing finish-pass-too-deep rough-pass-too-deep', (p) => done(numbered(p, 5).d1_mm = null)],
  ['a diameter below nothing', 'negative-diameter enters-part face-figures', (p) => done(level(numbered(p, 20), -1))],
  ['half a pass', 'passes-wrong', (p) => done(numbered(p, 13).passes = 2.5)],
  ['a cut that makes what the part has not', 'makes-unknown', (p) => done(numbered(p, 13).makes = 'h9')],
  ['a cut on a segment that is none', 'segment-unknown', (p) => done(numbered(p, 13).segment = '__proto__')],

  ['a Z reading with the wrong sign', 'reading-wrong', (p) => zAt(numbered(p, 6), 19.75)],
  ['a Z reading at another place', 'reading-wrong', (p) => zAt(numbered(p, 6), -19.5)],
  ['a Z reading that names another face', 'reading-station', (p) => done(reading(numbered(p, 10), 'Z').station = 'A')],
  ['a Z reading that names no face of the part', 'reading-station', (p) => done(reading(numbered(p, 10), 'Z').station = 'Q')],
  ['an X reading of half the diameter', 'reading-wrong', (p) => done(Object.assign(reading(numbered(p, 10), 'X'), { value_mm: 5, text: '5.00' }))],
  ['a radius readout under diameter readings', 'reading-wrong', () => on({ readout: { ...lathe.readout, x: 'radius' } })],
  ['a text that is another figure', 'reading-text', (p) => done(reading(numbered(p, 10), 'X').text = '10.10')],
  ['a text finer than the readout counts', 'reading-text', (p) => done(reading(numbered(p, 10), 'X').text = '10.001')],
  ['a text that is no figure', 'reading-text', (p) => done(reading(numbered(p, 10), 'X').text = 'ten')],
  ['an outside diameter rounded down, where no metal is put back', 'reading-text', (p) => done([10, 11, 12].map((n) => Object.assign(reading(numbered(p, n), 'X'), { text: '9.99' })))],
  ['a finish without a reading', 'reading-missing', (p) => done(numbered(p, 10).readings = [])],
  ['a quill depth from the rough end', 'reading-wrong', (p) => done(Object.assign(reading(numbered(p, 4), 'quill'), { value_mm: 13, text: '13' }))],
  ['a quill text finer than its scale', 'reading-text', (p) => done(reading(numbered(p, 4), 'quill').text = '12.3')],
  ['the blade with its other edge touched off', 'reading-edge', (p) => done(Object.assign(reading(numbered(p, 17), 'Z'), { edge: 'right', value_mm: -50.5, text: '-50.50', other: { edge: 'left', value_mm: -52.5, text: '-52.50' } }))],
  ['the blade touched off at an edge the lathe file does not name', 'reading-edge', () => blade({ edge: 'right' })],
  ['a blade of another width', 'reading-other kerf-width', () => blade({ width: fromMm(2.5) })],
  ['the blade without an edge', 'reading-edge', (p) => done(reading(numbered(p, 17), 'Z').edge = null)],
  ['the blade a width too far', 'reading-wrong', (p) => zAt(numbered(p, 17), -54.5)],
  ['the other edge left out', 'reading-other', (p) => done(reading(numbered(p, 17), 'Z').other = null)],
  ['the other edge on the wrong side', 'reading-other', (p) => done(reading(numbered(p, 17), 'Z').other = { edge: 'right', value_mm: -54.5, text: '-54.50' })],

  ['a scribe line beside its face', 'mark-station mark-reading mark-rule', (p) => done(Object.assign(holding(p, 'H1').marks[0] ?? {}, { z_mm: 21 }))],
  ['a scribe line with the wrong sign', 'mark-reading', (p) => done(Object.assign(holding(p, 'H1').marks[0] ?? {}, { reading_mm: 20, text: '20.00' }))],
  ['a scribe line with another text', 'mark-text', (p) => done(Object.assign(holding(p, 'H1').marks[0] ?? {}, { text: '-20.10' }))],
  ['a rule stood against nothing', 'mark-from', (p) => done(Object.assign(holding(p, 'H1').marks[0] ?? {}, { from: 'Q' }))],
  ['a rule read wrong', 'mark-rule', (p) => done(Object.assign(holding(p, 'H1').marks[0] ?? {}, { rule_text: '21' }))],
  ['a line for a cut of another holding', 'mark-before', (p) => done(Object.assign(holding(p, 'H1').marks[0] ?? {}, { before: 20 }))],
  ['a line on what was parted off', 'mark-on-air', (p) => { holding(p, 'H2').marks.push({ station: 'P', z_mm: 60, reading_mm: 10, text: '10.00', rule_text: null, from: 'C', before: 20, waste: 'none' }); return { outline: { ...pin, stations: new Map([...pin.stations, ['P', fromMm(60)]]) } }; }],
  ['a line that its own cut takes away', 'mark-lost', (p) => done(Object.assign(holding(p, 'H1').marks[0] ?? {}, { before: 5 }))],
  ['a line under the grip', 'mark-gripped', (p) => scribed(p, 10)],
  ['a line at the very edge of the grip', 'mark-gripped', (p) => scribed(p, 18)],
  ['a line behind the grip', 'mark-gripped', (p) => scribed(p, 1)],
  ['a line just out of the grip: nothing is wrong with it', '', (p) => scribed(p, 18.01)],
  ['a line for off the lathe that a later cut takes away', 'mark-lost', (p) => scribed(p, 25, 'H1', 2)],
  ['measuring in the collet', 'touch-gripped', (p) => ahead(p, numbered(p, 20), cut(0, 'measure', [10, 10], { segment: 's1', d: 10, readings: [{ axis: 'X', value_mm: 10, text: '10.00' }] }))],
  ['measuring behind the collet', 'touch-gripped', (p) => ahead(p, numbered(p, 20), cut(0, 'measure', [1, 1], { segment: 's1', d: 10, readings: [{ axis: 'X', value_mm: 10, text: '10.00' }] }))],
  ['waste on the side that stays', 'mark-waste', (p) => done(Object.assign(holding(p, 'H1').marks[1] ?? {}, { waste: 'left' }))],

  ['a verdict of the chart against its figures', 'chart-verdict', (p) => done(Object.assign(p.chart[0] ?? {}, { ok: false }))],
  ['a verdict on springing against its figures', 'stiffness-verdict', (p) => done(Object.assign(p.stiffness[0] ?? {}, { error_mm: 0.02 }))],
  ['a figure that is none', 'absurd-figure', (p) => done(numbered(p, 10).z1_mm = NaN)],
  ['a place beyond all lathes', 'absurd-figure', (p) => done(holding(p, 'H1').zero_z_mm = 1e300)],
];

/** A line at a point of its own, in H2 unless said otherwise, read from the faced end of that holding. */
function scribed(p: Plan, z_mm: number, id = 'H2', before = 20) {
  const { z_sign, zero_z_mm, marks, datum } = holding(p, id);
  const reading_mm = Math.round(z_sign * (z_mm - zero_z_mm) * 1000) / 1000;
  const common = { rule_text: null, from: datum.station, before, waste: 'none' as const };
  marks.push({ station: 'Q', z_mm, reading_mm, text: reading_mm.toFixed(2), ...common });
  return { outline: { ...pin, stations: new Map([...pin.stations, ['Q', fromMm(z_mm)]]) } };
}

function T1() {
  return { tool: 'T1', rpm: 600 };
}

function partAt(p: Plan, kerf: number): undefined {
  for (const n of [17, 18]) span(numbered(p, n), kerf, kerf + 2);
  zAt(numbered(p, 17), -(kerf + 2));
  Object.assign(reading(numbered(p, 17), 'Z').other ?? {}, { value_mm: -kerf, text: (-kerf).toFixed(2) });
  return undefined;
}
