import { describe, expect, test } from 'vitest';
import { chartOf, halfBand } from '../../../src/core/plan/chart-picture.ts';
import { example } from '../../panels/examples.ts';

const { part, report } = example('blower-shaft');
const plan = report.plan;
if (!plan) throw new Error('the example has no plan');
const chart = chartOf(plan, report.chains.stations, part.lengths);

describe('the tolerance chart laid out', () => {
  test('has all faces and points across, in order along the part', () => {
    expect(chart.faces[0]).toEqual({ id: 'A', at: 0 });
    expect(chart.faces.at(-1)?.at).toBe(1);
    expect(new Set(chart.faces.map((f) => f.id))).toEqual(
      new Set([...part.faces, ...part.points].map((s) => s.id)),
    );
  });

  test('has a row for each length of the chart, its band inside the allowed one just where it is held', () => {
    expect(chart.lengths.map((l) => l.length)).toEqual(plan.chart.map((r) => r.length));
    for (const { band, row } of chart.lengths) expect(band[0] >= 0 && band[1] <= 1).toBe(row.ok);
  });

  test('a band that is too wide reaches beyond', () => {
    const spoilt = structuredClone(plan);
    const row = spoilt.chart[0];
    if (row) row.held_mm = [row.allowed_mm[0] - 0.1, row.allowed_mm[1] + 0.1];
    const drawn = chartOf(spoilt, report.chains.stations, part.lengths).lengths[0];
    expect(drawn?.band[0]).toBeLessThan(0);
    expect(drawn?.band[1]).toBeGreaterThan(1);
  });

  test('working dimensions run from the datum of their holding and carry its reading', () => {
    const b = chart.working.find((w) => w.face === 'B' && w.holding === 'H2');
    expect(b).toMatchObject({ datum: 'A', reading: '-.3515', tool: 'T1' });
  });

  test('half a band is read in the unit', () => {
    expect(halfBand(0.127, 'in')).toBe('±.0050');
    expect(halfBand(0.0254, 'mm')).toBe('±0.025');
  });
});
