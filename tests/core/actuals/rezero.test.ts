import { describe, expect, test } from 'vitest';
import { correction, onReadout, shiftRow, writeChange } from '../../../src/core/actuals/rezero.ts';
import { readMeasured, readShown } from '../../../src/core/actuals/read-actual.ts';
import type { Length, Unit } from '../../../src/core/lengths/length.ts';
import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import { metricLathe } from '../../../src/core/part/metric-lathe.ts';
import { resolveLathe } from '../../../src/core/part/resolve-lathe.ts';
import type { ResolvedLathe } from '../../../src/core/part/resolved.ts';

/** A readout of this kind that counts in these steps, without a person's lathe around it. */
function readoutOf(unit: Unit, x: 'diameter' | 'radius', resolution: string): ResolvedLathe {
  const lathe = unit === 'in' ? firstLathe : metricLathe;
  return resolveLathe({ ...lathe, readout: { ...lathe.readout, x, resolution } });
}

function length(text: string, unit: Unit): Length {
  const read = readShown(text, unit);
  if (read === null) throw new Error(text);
  return read;
}

type Row = [unit: Unit, x: 'diameter' | 'radius', count: string, shown: string, measured: string, by: string];

// later = planned − (measured on the readout − shown). Source: arithmetic.
const left: Row[] = [
  ['in', 'diameter', '.0005', '.4040', '.4060', '-.0020'], // .4060 − .4040 = .0020 too large: go .0020 further in
  ['in', 'diameter', '.0005', '.4040', '.4035', '.0005'], // .0005 too small: stop .0005 earlier
  ['in', 'radius', '.0005', '.2020', '.4060', '-.0010'], // .4060 / 2 = .2030; .2030 − .2020 = .0010
  ['in', 'radius', '.0005', '.2020', '.4049', '0'], // .20245 − .2020 = .00045, less than a count
  ['in', 'diameter', '.0005', '.4040', '.4044', '0'], // .0004 is less than a count
  ['in', 'diameter', '.0001', '.4040', '.4044', '-.0004'], // a finer readout shows it
  ['mm', 'diameter', '0.01', '12.70', '12.62', '.08'], // 12.62 − 12.70 = −0.08
  ['mm', 'radius', '0.005', '6.350', '12.62', '.04'], // 6.31 − 6.35 = −0.04
  ['mm', 'diameter', '0.01', '-0.02', '0.01', '-.03'], // 0.01 − (−0.02) = 0.03
];

describe('a diameter measured at a known reading', () => {
  test.each(left)('%s, X as %s in counts of %s: shown %s, measured %s, later readings by %s', (...row) => {
    const [unit, x, count, shown, measured, by] = row;
    const lathe = readoutOf(unit, x, count);
    const truth = onReadout(length(measured, unit), lathe);
    const made = correction(length('0', unit), length(shown, unit), truth, 'readings', lathe);
    expect(-made.shift + 0).toBe(length(by, unit));
    expect(made.set).toBe(by === '0' ? 'none' : 'readings');
  });

  test('a readout that is set to the truth tells it from then on', () => {
    const lathe = readoutOf('in', 'diameter', '.0005');
    const made = correction(
      length('0', 'in'),
      length('.4040', 'in'),
      length('.4060', 'in'),
      'readout',
      lathe,
    );
    expect(made).toMatchObject({ shift: 0, set: 'readout', enter: '.4060' });
  });

  test('the figure to type in is in counts of the readout, half the diameter where it shows that', () => {
    const lathe = readoutOf('in', 'radius', '.0005');
    const truth = onReadout(length('.4051', 'in'), lathe);
    expect(correction(length('0', 'in'), length('.2000', 'in'), truth, 'readout', lathe).enter).toBe('.2025');
  });

  test('measured again at a shifted reading and found right, the shift holds', () => {
    const lathe = readoutOf('in', 'diameter', '.0005');
    // .0020 too large before; the readout then showed .3920 for .3940, and .3940 was measured.
    const again = correction(
      length('.0020', 'in'),
      length('.3920', 'in'),
      length('.3940', 'in'),
      'readings',
      lathe,
    );
    expect(again).toMatchObject({ shift: length('.0020', 'in'), set: 'none' });
  });

  test('measured again and still off, the shift is what the two readings say, not their sum', () => {
    const lathe = readoutOf('in', 'diameter', '.0005');
    const again = correction(
      length('.0020', 'in'),
      length('.3920', 'in'),
      length('.3950', 'in'),
      'readings',
      lathe,
    );
    expect(again.shift).toBe(length('.0030', 'in'));
  });

  test('what is said names the axis, the tool, the holding and by how much', () => {
    const lathe = readoutOf('in', 'diameter', '.0005');
    const at = { holding: 'H2', tool: 'T1', axis: 'X', after: 19, shown: length('.4040', 'in') } as const;
    const made = correction(length('0', 'in'), at.shown, length('.4060', 'in'), 'readings', lathe);
    const row = shiftRow(at, made, lathe);
    expect(row).toMatchObject({ holding: 'H2', tool: 'T1', axis: 'X', after: 19, set: 'readings' });
    expect(row.by_mm).toBeCloseTo(-0.0508, 9); // .0020 in
    for (const word of ['X', 'T1', 'H2', '.0020', 'down']) expect(row.say).toContain(word);
  });
});

test.each([
  ['.0005', '+.0005'],
  ['-.0005', '-.0005'],
  ['0', '.0000'],
])('a change of %s is written %s', (change, text) => {
  expect(writeChange(length(change, 'in'), readoutOf('in', 'diameter', '.0005'))).toBe(text);
});

describe('what is typed at the lathe', () => {
  // 25.4 mm to the inch; 1/2 in = 12.7 mm. Source: definition of the inch.
  test.each([
    ['12.62', 'mm', 12_620_000_000],
    ['12,62', 'mm', 12_620_000_000],
    ['.4987', 'in', 12_666_980_000],
    ['1/2', 'in', 12_700_000_000],
    ['12.7 mm', 'in', 12_700_000_000],
  ] as const)('%s in %s', (text, unit, pm) => {
    expect(readMeasured(text, unit)).toEqual({ ok: true, value: pm });
  });
  test.each(['', 'about half', '.5 ±.001', '12 h6', '1/3'])('%j is refused', (text) => {
    expect(readMeasured(text, 'in').ok).toBe(false);
  });
  test.each([
    ['-.5000', -12_700_000_000],
    ['.0000', 0],
    ['0', 0],
    ['.4040', 10_261_600_000],
  ])('a readout shows %s', (text, pm) => expect(readShown(text, 'in')).toBe(pm));
  test('what no readout shows is none', () => expect(readShown('--', 'in')).toBeNull());
});
