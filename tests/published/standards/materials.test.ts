import { describe, expect, test } from 'vitest';
import { material, materialKeys } from '../../../src/core/standards/materials.ts';
import { cell, figure, need, readCsv } from './csv.ts';
import type { Row } from './csv.ts';

// Source: tables of material properties (a mechanics course, an appendix, average mechanical properties, densities);
// kc1.1 and mc by VDI 3323 group from a turning catalogue of 2017, p. 558; speeds from a handbook table for
// high-speed steel, a technical order, two lathe manuals and a shop chart. Memory rows are compared softly.

const KEYS: Readonly<Record<string, string>> = {
  'free-cutting steel 12L14/1215': 'free-cutting-steel',
  'low-carbon steel 1018': 'mild-steel',
  'medium-carbon steel 1045': 'medium-carbon-steel',
  'alloy steel 4140 annealed': 'alloy-steel',
  'drill rod / silver steel O1/W1 annealed': 'drill-rod',
  'stainless 303': 'stainless-303',
  'stainless 304': 'stainless-304',
  'aluminium 6061-T6': 'aluminium',
  'brass C360': 'brass',
  'phosphor bronze': 'bronze',
  'grey cast iron': 'cast-iron',
  'titanium Ti-6Al-4V': 'titanium',
  acetal: 'acetal',
};
const rows = readCsv('cutting-data').filter((row) => cell(row, 'material') !== 'any');
const known = (key: string) => {
  const found = material(key);
  if (!found) throw new Error(`no ${key}`);
  return found;
};

test('the table has every material of the reference', () => {
  expect([...materialKeys()].sort()).toEqual(Object.values(KEYS).sort());
  expect(new Set(rows.map((row) => cell(row, 'material')))).toEqual(new Set(Object.keys(KEYS)));
});

describe.each(Object.entries(KEYS))('%s', (name, key) => {
  const own = rows.filter((row) => row['material'] === name);
  const of = (quantity: string, unit: string): Row[] =>
    own.filter((row) => row['quantity'] === quantity && row['unit'] === unit);
  const m = known(key);

  test('the modulus is one of the reference, and in the published band', () => {
    const listed = of('elastic modulus', 'GPa');
    const chosen = listed.find((row) => need(row, 'value') * 1000 === m.youngs);
    expect(chosen && cell(chosen, 'provenance')).toBe(m.from.youngs.provenance);
    for (const band of of('elastic modulus band', 'GPa')) {
      expect(m.youngs / 1000).toBeGreaterThanOrEqual(need(band, 'low'));
      expect(m.youngs / 1000).toBeLessThanOrEqual(need(band, 'high'));
    }
  });

  test('density, cutting force and its exponent are those of the reference', () => {
    const [density] = of('density', 'kg/m3');
    expect(density && [need(density, 'value'), cell(density, 'provenance')]).toEqual([
      m.density,
      m.from.density.provenance,
    ]);
    const [kc] = of('kc1.1', 'N/mm2');
    const [mc] = of('mc', '-');
    expect(m.kc11).toBe(kc ? figure(kc, 'value') : null);
    expect(m.mc).toBe(mc ? figure(mc, 'value') : null);
  });

  test('turning speeds lie within what the sources print for high-speed steel', () => {
    const printed = [...of('turning speed HSS', 'm/min'), ...of('turning speed HSS small lathe', 'm/min')];
    expect(printed.length).toBeGreaterThan(0);
    const least = Math.min(...printed.map((row) => figure(row, 'low') ?? figure(row, 'high') ?? NaN));
    const most = Math.max(...printed.map((row) => need(row, 'high')));
    expect(m.speed.rough.typical).toBeGreaterThanOrEqual(least - 0.1);
    expect(m.speed.finish.typical).toBeLessThanOrEqual(most + 0.1);
    expect(m.speed.rough.typical).toBeLessThan(m.speed.finish.typical);
  });

  test('parting and die speeds follow the practice of the reference, from memory', () => {
    const [die] = of('threading with die speed', 'm/min');
    expect(m.from.threading.provenance).toBe('memory');
    expect(m.speed.thread.low).toBe(die && need(die, 'low'));
    expect(m.speed.thread.typical).toBeLessThanOrEqual((die && need(die, 'high')) ?? NaN);
    const factor = m.speed.part.typical / m.speed.rough.typical;
    expect(factor).toBeGreaterThan(0.5);
    expect(factor).toBeLessThan(0.7);
  });
});
