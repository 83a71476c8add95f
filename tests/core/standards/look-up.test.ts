import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fromInches, fromMm } from '../../../src/core/lengths/length.ts';
import { lookUp, searchTables } from '../../../src/core/standards/look-up.ts';
import { suggest } from '../../../src/core/standards/suggest.ts';

const texts = (kind: Parameters<typeof suggest>[0], prefix: string) =>
  suggest(kind, prefix).map(({ text }) => text);

describe('completion while typing', () => {
  test('threads of a size, coarse first', () => {
    expect(texts('thread', '5/16')).toEqual(['5/16-18 UNC', '5/16-24 UNF', '5/16-32 UNEF']);
    expect(texts('thread', 'm8')).toEqual(['M8x1.25', 'M8x1', 'M8x0.75']);
    expect(texts('thread', '8-')).toEqual(['#8-32 UNC', '#8-36 UNF']);
    expect(texts('thread', '#8')).toEqual(['#8-32 UNC', '#8-36 UNF']);
  });
  test('capitals count in fits', () => {
    expect(texts('fit', 'k')).toContain('k5');
    expect(texts('fit', 'k')).not.toContain('K7');
    expect(texts('fit', 'K')).toEqual(['K7']);
  });
  test('a word inside serves where nothing begins so', () =>
    expect(texts('material', 'silver')).toEqual(['drill-rod']));
  test('no more than asked for', () => expect(suggest('drill', '', 3)).toHaveLength(3));
  test.each([
    'thread',
    'bearing',
    'drill',
    'centre-drill',
    'taper',
    'undercut',
    'collet',
    'material',
  ] as const)('every %s suggested can be looked up', (kind) => {
    for (const { text } of suggest(kind, '', 1000))
      expect(lookUp(kind, text, 'mm'), text).toMatchObject({ ok: true });
  });
});

const fact = (kind: Parameters<typeof lookUp>[0], text: string, name: string, unit: 'in' | 'mm' = 'mm') => {
  const found = lookUp(kind, text, unit);
  if (!found.ok) throw new Error(found.problem.say);
  return found.value.facts.find((f) => f.name === name);
};

describe('what stands beside a designation', () => {
  // 5/16-24 UNF-2A, ASME B1.1: major .3114 to .3042; drill I.
  test('a thread', () => {
    expect(fact('thread', '5/16-24', 'outside, 2A, most')).toMatchObject({ length: fromInches(0.3114) });
    expect(fact('thread', '5/16-24', 'tap drill')).toMatchObject({ text: 'I (75 % thread)' });
  });
  // ISO 286: 12 k5 is +9/+1; 12 H7/g6 has 6 to 35 µm of clearance (0/+18 and -6/-17).
  test('a fit', () => {
    expect(fact('fit', 'Ø12 k5', 'upper deviation')).toMatchObject({ length: fromMm(0.009) });
    expect(fact('fit', '12 H7/g6', 'clearance, least')).toMatchObject({ length: fromMm(0.006) });
    expect(fact('fit', '12 H7/g6', 'clearance, most')).toMatchObject({ length: fromMm(0.035) });
    expect(fact('fit', '12 H7/k6', 'feel')).toMatchObject({ text: 'light tap' });
  });
  test('a taper', () =>
    expect(fact('taper', 'MT2', 'compound from the axis')).toMatchObject({ text: '1.4307°' }));
  test('a size', () => expect(fact('size', '25 mm', 'ISO 2768-m, ±')).toMatchObject({ length: fromMm(0.2) }));
  test('every entry says where it comes from', () => {
    for (const [kind, text] of [
      ['thread', 'M6'],
      ['fit', '12 k5'],
      ['bearing', '6000'],
      ['taper', '1:10'],
      ['size', '10'],
    ] as const) {
      const found = lookUp(kind, text, 'mm');
      expect(found.ok && found.value.origins.length).toBeGreaterThan(0);
      if (found.ok) for (const { source } of found.value.origins) expect(source).not.toBe('');
    }
  });
  test('what is not there is refused, not guessed', () => {
    expect(lookUp('fit', 'k5', 'mm').ok).toBe(false);
    expect(lookUp('fit', '600 h6', 'mm').ok).toBe(false);
    expect(lookUp('collet', 'ER99', 'mm').ok).toBe(false);
    expect(lookUp('material', 'cheese', 'mm').ok).toBe(false);
  });
});

describe('searching all tables', () => {
  test('the whole text comes first, then what begins so', () => {
    const titles = searchTables('M6').map(({ title }) => title);
    expect(titles[0]).toBe('M6x1');
    expect(titles).toContain('M6x0.75');
  });
  test('one text may mean several things', () => {
    const kinds = searchTables('2', 'in').map(({ kind }) => kind);
    expect(kinds).toEqual(expect.arrayContaining(['centre-drill', 'size']));
    expect(new Set(searchTables('#7').map(({ kind }) => kind))).toEqual(new Set(['drill', 'centre-drill']));
  });
  test('nothing for nothing', () => expect(searchTables('  ')).toEqual([]));
  test('no text makes it throw, and none is listed twice', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 12 }), (text) => {
        const keys = searchTables(text).map(({ kind, title }) => `${kind} ${title}`);
        expect(new Set(keys).size).toBe(keys.length);
      }),
      { numRuns: 200 },
    );
  });
});
