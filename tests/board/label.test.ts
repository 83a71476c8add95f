import { expect, test } from 'vitest';
import { runsOf } from '../../src/board/label.ts';

/** One line for the runs of a label: upper and lower figures in brackets, what is stacked in braces. */
const told = (text: string): string =>
  runsOf(text)
    .map((run) =>
      run.form === 'stacked'
        ? `{${run.text}|${run.below}}`
        : run.form === 'plain'
          ? run.text
          : `[${run.text}]`,
    )
    .join('');

test.each([
  ['1 5/8', '1\u2009[5]⁄[8]'],
  ['1-5/8 ±.005', '1-[5]⁄[8] ±.005'],
  ['Ø7/16', 'Ø[7]⁄[16]'],
  ['5/16-24 UNF-2A', '[5]⁄[16]-24 UNF-2A'],
  ['drill Ø1/8, 1 1/16 deep', 'drill Ø[1]⁄[8], 1\u2009[1]⁄[16] deep'],
  ['1⅝', '1⅝'],
])('“%s” is drawn with a fraction', (text, expected) => {
  expect(told(text)).toBe(expected);
});

test.each([
  ['.2500/.2495', '{.2500|.2495}'],
  ['Ø6.5/6.4', '{Ø6.5|6.4}'],
  ['.6870 +.0000/-.0010', '.6870 {+.0000|-.0010}'],
  ['9 mm +0/-.15 mm', '9 mm {+0|-.15 mm}'],
  ['1 5/8 +.01/-.02', '1\u2009[5]⁄[8] {+.01|-.02}'],
])('“%s” has its limits one above the other', (text, expected) => {
  expect(told(text)).toBe(expected);
});

test.each(['1:10', '(4.609)', '±.005', '12 k5', 'M5x0.8-6H'])('“%s” stays as typed', (text) => {
  expect(runsOf(text)).toEqual([{ text, form: 'plain' }]);
});
