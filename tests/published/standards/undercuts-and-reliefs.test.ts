import { describe, expect, test } from 'vitest';
import { fromMm, toMm } from '../../../src/core/lengths/length.ts';
import { threadRelief } from '../../../src/core/standards/thread-reliefs.ts';
import { readUndercut, undercutsFor } from '../../../src/core/standards/undercuts.ts';
import { cell, figure, need, readCsv } from './csv.ts';

// Source: DIN 509, a published extract of 1998 (E, F, G, H). DIN 76-1: from memory; no readable table was found.

const rows = readCsv('undercuts-din509').flatMap((row) =>
  (cell(row, 'form') === 'E and F' ? ['E', 'F'] : [cell(row, 'form')]).map((form) => [form, row] as const),
);

describe.each(
  rows.map(([form, row]) => [`${form}${cell(row, 'r_mm')}x${cell(row, 't1_mm')}`, form, row] as const),
)('%s', (designation, form, row) => {
  const read = readUndercut(designation);
  if (!read.ok) throw new Error(read.problem.say);
  const cut = read.value;
  test('sizes', () => {
    expect(toMm(cut.radius)).toBe(need(row, 'r_mm'));
    expect(toMm(cut.depth)).toBe(need(row, 't1_mm'));
    expect(toMm(cut.width)).toBe(need(row, 'f_mm'));
    expect(cut.faceDepth).toBe(form === 'E' ? null : fromMm(need(row, 't2_mm')));
    expect(cut.faceHeight).toBe(form === 'E' ? null : fromMm(need(row, 'g_mm')));
  });
  test('diameters it is meant for', () => {
    const usual = figure(row, 'dia_over_mm_normal_stress');
    const over = usual ?? need(row, 'dia_over_mm_fatigue');
    const upTo = figure(row, usual === null ? 'dia_up_to_mm_fatigue' : 'dia_up_to_mm_normal_stress');
    const load = usual === null ? 'alternating' : 'usual';
    expect([cut.load, cut.over, cut.upTo]).toEqual([load, fromMm(over), upTo === null ? null : fromMm(upTo)]);
    expect(undercutsFor(fromMm(upTo ?? 200), cut.form, load)).toContainEqual(cut);
    expect(undercutsFor(fromMm(over), cut.form, load)).not.toContainEqual(cut);
  });
  if (form === 'F') {
    // Geometry of form F: g = r (1 + sin 8°) + (t2 - r (1 - cos 8°)) / tan 8°; agrees with the extract to 0.06 mm.
    test('the height in the face follows from the geometry', () => {
      const a = (8 * Math.PI) / 180;
      const [r, t2] = [need(row, 'r_mm'), need(row, 't2_mm')];
      const g = r * (1 + Math.sin(a)) + (t2 - r * (1 - Math.cos(a))) / Math.tan(a);
      expect(Math.abs(g - toMm(cut.faceHeight ?? fromMm(0)))).toBeLessThanOrEqual(0.06);
    });
  }
});

describe.each(readCsv('thread-reliefs-din76').map((row) => [need(row, 'pitch_mm'), row] as const))(
  'relief of pitch %d mm, from memory',
  (pitch, row) => {
    const relief = threadRelief(fromMm(pitch));
    test('it is marked so', () => expect(relief.origin.provenance).toBe('memory'));
    // Run-outs follow multiples of the pitch in the standard; rounded there, by up to 8 % and 0.05 mm.
    test.each([
      ['run-out', relief.runout.normal, 2.5],
      ['short run-out', relief.runout.short, 1.25],
      ['distance', relief.distance.normal, 3],
      ['short distance', relief.distance.short, 2],
      ['long distance', relief.distance.long, 4],
      ['widest groove', relief.most.normal, 3.5],
      ['widest short groove', relief.most.short, 2.5],
    ] as const)('%s follows the pitch', (_what, length, times) => {
      expect(Math.abs(toMm(length) - times * pitch)).toBeLessThanOrEqual(0.08 * times * pitch + 0.05);
    });
    test('softly: the groove goes under the root of the thread, by a tenth to a half of the pitch', () => {
      // Source: from memory; the root lies 1.2269 P under the nominal.
      const under = toMm(relief.under ?? fromMm(0));
      expect(under).toBeGreaterThan(1.2269 * pitch);
      expect(under).toBeLessThan(1.8 * pitch);
      expect(under).toBeCloseTo(need(row, 'relief_dia_dg_is_d_minus_mm'), 1);
    });
    test('softly: groove widths and radius are those of the reference, to a tenth', () => {
      const softly = (length: number | null | undefined, column: string): void => {
        const expected = figure(row, column);
        if (expected === null) return;
        expect(Math.abs((length ?? NaN) / 1e9 - expected)).toBeLessThanOrEqual(0.1 * expected);
      };
      softly(relief.least?.normal, 'relief_g1_min_normal_mm');
      softly(relief.least?.short, 'relief_g1_min_short_mm');
      softly(relief.radius, 'relief_radius_r_mm');
      expect(relief.least === null).toBe(figure(row, 'relief_g1_min_normal_mm') === null);
      expect((relief.least?.normal ?? 0) < relief.most.normal).toBe(true);
    });
  },
);
