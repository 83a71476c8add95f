import { expect, test } from 'vitest';
import { planStrips } from '../../../src/core/marks/plan-strips.ts';
import { stripSvg, wrapSvg } from '../../../src/core/marks/strip-svg.ts';
import { samplePart, sampleReport } from '../../sheet/sample-report.ts';

const { strips, wraps } = planStrips(samplePart, sampleReport);
const first = strips[0];
const around = wraps[0];
if (!first || !around) throw new Error('the sample has strips');

/** Places of upright lines that begin at the strip's upper edge. */
const uprights = (svg: string): number[] =>
  [...svg.matchAll(/d="M([\d.]+) 0L\1 [\d.]+" stroke-width="0.25"/g)].map(([, x]) => Number(x));

test('a strip is as wide in millimetres as its user units, so that it prints at true size', () => {
  const [, width, height, box] =
    /width="([\d.]+)mm" height="([\d.]+)mm" viewBox="([^"]+)"/.exec(stripSvg(first)) ?? [];
  expect(box).toBe(`0 0 ${width} ${height}`);
});

test.each([1, 1.004, 0.99])('ticks stand where the report has them, times %d for the printer', (scale) => {
  for (const strip of strips) {
    const [zero = NaN, ...ticks] = uprights(stripSvg(strip, scale));
    const places = ticks.map((x) => Math.abs(x - zero));
    expect(places).toHaveLength(strip.ticks.length);
    strip.ticks.forEach(({ at_mm }, i) => expect(places[i]).toBeCloseTo(at_mm * scale, 3));
  }
});

test('headstock at the left: a strip that runs toward it has its zero at the right', () => {
  const [zero = NaN, tick = NaN] = uprights(stripSvg({ ...first, way: 'headstock' }));
  expect(tick).toBeLessThan(zero);
  const [start = NaN, next = NaN] = uprights(stripSvg({ ...first, way: 'tailstock' }));
  expect(next).toBeGreaterThan(start);
});

test('names of any kind stay text', () => {
  const named = { ...first, ticks: first.ticks.map((tick) => ({ ...tick, station: '<b>&"' })) };
  expect(stripSvg(named)).toContain('&lt;b&gt;&amp;&quot;');
  expect(stripSvg(named)).not.toContain('<b>');
});

test('a strip to wrap is as long as the way round a paper on the shaft', () => {
  // Circumference = 3.141593 × diameter, with 0.1 mm of paper: tables of circumferences.
  expect(wrapSvg(around)).toContain(
    `width="${Math.round(3.141592654 * (0.37475 * 25.4 + 0.1) * 1e4) / 1e4}mm"`,
  );
});
