import fc from 'fast-check';
import { expect, test } from 'vitest';
import { typesetter } from '../../src/sheet/type.ts';
import { openTypeface } from '../../src/sheet/typeface.ts';
import { ranges } from '../../src/sheet/order-page.ts';
import { fontBytes } from './sheet-fixtures.ts';

const type = typesetter(openTypeface(fontBytes('drawing.ttf'), 'F0', 'Drawing'), new Map());

test('figures are tabular: all ten are equally wide, so that readings stand in columns', () => {
  const widths = [...'0123456789'].map((digit) => type.width(digit, 15));
  expect(new Set(widths).size).toBe(1);
});

test('a wrapped text keeps all its letters, and no line is wider than its room', () => {
  const words = fc
    .array(fc.string({ minLength: 1, maxLength: 30 }), { maxLength: 20 })
    .map((all) => all.join(' '));
  fc.assert(
    fc.property(words, fc.double({ min: 8, max: 120, noNaN: true }), (text, room) => {
      const lines = type.wrap(text, 10, room);
      expect(lines.join('').replaceAll(' ', '')).toBe(text.normalize('NFC').replaceAll(' ', ''));
      for (const line of lines)
        if ([...line].length > 1) expect(type.width(line, 10)).toBeLessThanOrEqual(room + 1e-6);
    }),
  );
});

test('a text that does not fit shrinks, and is cut with dots only below the least size', () => {
  const text = 'Forge-blower shaft, second one';
  const wide = type.width(text, 12);
  expect(type.fit(text, 12, 8, wide)).toEqual({ text, size: 12 });
  const shrunk = type.fit(text, 12, 8, wide * 0.8);
  expect(shrunk.text).toBe(text);
  expect(type.width(text, shrunk.size)).toBeLessThanOrEqual(wide * 0.8);
  const cut = type.fit(text, 12, 8, wide * 0.3);
  expect(cut.size).toBe(8);
  expect(cut.text).toMatch(/^Forge.*…$/);
  expect(type.width(cut.text, 8)).toBeLessThanOrEqual(wide * 0.3);
});

test('the drawing font has what drawings need', () => {
  const face = openTypeface(fontBytes('drawing.ttf'), 'F0', 'Drawing');
  const needed = 'Ø⌀±×°′″µ≤≥≈√→←↑↓↔⅛¼⅜½⅝¾⅞–—−·…“”‘’áčďěňřšťůžąćęłńóśźżäöüßőű ΩΔαβπ ЖщюяЇґ';
  for (const c of needed) expect(face.has(c.codePointAt(0) ?? 0), c).toBe(true);
});

test('numbers of cuts are gathered into stretches', () => {
  expect(ranges([4, 1, 2, 3, 9, 8, 12, 4])).toBe('1–4, 8–9, 12');
  expect(ranges([])).toBe('');
});
