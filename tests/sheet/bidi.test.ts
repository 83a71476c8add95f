import { expect, test } from 'vitest';
import { visualOrder } from '../../src/sheet/bidi.ts';

/** The stretches from left to right; those that run from right to left stand between < and >. */
const seen = (line: string): string[] =>
  visualOrder(line).map(({ text, direction }) => (direction === 'rtl' ? `<${text}>` : text));

// Worked by hand from the rules of Unicode Standard Annex 9.
test.each<[line: string, wanted: string[]]>([
  ['car means 3', ['car means 3']],
  ['car אבג', ['car ', '<אבג>']],
  ['אבג car', ['car', '<אבג >']],
  ['אבג 42', ['42', '<אבג >']],
  ['car (אב) 7', ['car (', '<אב>', ') 7']],
  ['אב (גד)', ['<אב )גד(>']],
  ['shaft 3 אב 42 גד end', ['shaft 3 ', '< גד>', '42', '<אב >', ' end']],
])('%s', (line, wanted) => {
  expect(seen(line)).toEqual(wanted);
});
