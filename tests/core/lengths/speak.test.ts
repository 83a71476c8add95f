import { expect, test } from 'vitest';
import { fromInches, fromMm, PM_PER, pm, type Length, type Unit } from '../../../src/core/lengths/length.ts';
import { speakLength } from '../../../src/core/lengths/speak.ts';

// How a machinist says a size: common practice, no source.
test.each<[Length, Unit, string]>([
  [fromInches(1.625), 'in', 'one and five eighths'],
  [fromInches(0.005), 'in', 'five thousandths'],
  [fromInches(0.001), 'in', 'one thousandth'],
  [fromInches(0.0005), 'in', 'zero point five thousandths'],
  [fromInches(0.428), 'in', 'four hundred twenty-eight thousandths'],
  [fromInches(1.0871), 'in', 'one inch, eighty-seven point one thousandths'],
  [fromInches(3.003), 'in', 'three inches, three thousandths'],
  [fromInches(0.5), 'in', 'one half'],
  [fromInches(1.125), 'in', 'one and an eighth'],
  [fromInches(2.5), 'in', 'two and a half'],
  [pm((PM_PER.in * 3) / 64), 'in', 'three sixty-fourths'],
  [fromInches(1), 'in', 'one inch'],
  [fromInches(12), 'in', 'twelve inches'],
  [pm(0), 'in', 'zero inches'],
  [fromMm(10), 'in', 'about three hundred ninety-three point seven thousandths'],
  [fromInches(-0.25), 'in', 'minus one quarter'],
  [fromMm(12.7), 'mm', '12.7 millimetres'],
  [fromMm(1), 'mm', '1 millimetre'],
  [fromMm(-0.05), 'mm', 'minus 0.05 millimetres'],
  [pm(PM_PER.in / 64), 'mm', 'about 0.3969 millimetres'],
])('%d pm in %s: %s', (length, unit, spoken) => {
  expect(speakLength(length, unit)).toBe(spoken);
});
