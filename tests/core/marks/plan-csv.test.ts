import { expect, test } from 'vitest';
import { cutsCsv, marksCsv } from '../../../src/core/marks/plan-csv.ts';
import { samplePlan } from '../../sheet/sample-report.ts';

/** Read by the grammar of RFC 4180, section 2. */
function read(csv: string): string[][] {
  const rows: string[][] = [[]];
  for (const [, quoted, bare, end] of csv.matchAll(/(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n|$)/g)) {
    rows.at(-1)?.push(quoted === undefined ? (bare ?? '') : quoted.replaceAll('""', '"'));
    if (end === '\r\n') rows.push([]);
  }
  return rows.filter((row) => row.length > 1);
}

test('every mark is a row with the reading as printed', () => {
  const [head, ...rows] = read(marksCsv(samplePlan));
  const marks = samplePlan.holdings.flatMap((holding) => holding.marks.map((mark) => ({ holding, mark })));
  expect(rows).toHaveLength(marks.length);
  marks.forEach(({ holding, mark }, i) => {
    const row = Object.fromEntries((head ?? []).map((name, k) => [name, rows[i]?.[k]]));
    expect(row).toMatchObject({ holding: holding.id, station: mark.station, reading: mark.text });
    expect(Number(row['z_mm'])).toBeCloseTo(mark.z_mm, 5);
  });
});

test('every cut is a row, off the lathe too, whatever stands in its sentence', () => {
  const say = 'Cut to ".5000", then\r\nstop';
  const [first, ...rest] = samplePlan.holdings;
  if (!first) throw new Error('the sample has holdings');
  const holdings = [{ ...first, cuts: first.cuts.map((cut) => ({ ...cut, say })) }, ...rest];
  const [head, ...rows] = read(cutsCsv({ ...samplePlan, holdings }));
  const cuts = [...holdings.flatMap((holding) => holding.cuts), ...samplePlan.off_lathe];
  expect(rows.map((row) => row[1])).toEqual(cuts.map(({ n }) => String(n)));
  expect(rows.map((row) => row.at(-1))).toEqual(cuts.map((cut) => cut.say));
  for (const row of rows) expect(row).toHaveLength(head?.length ?? 0);
});
