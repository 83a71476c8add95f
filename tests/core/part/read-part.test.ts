import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { jsonFault } from '../../../src/core/part/json-fault.ts';
import { readLathe } from '../../../src/core/part/read-lathe.ts';
import { readPart } from '../../../src/core/part/read-part.ts';
import { resolvePart } from '../../../src/core/part/resolve.ts';
import { writeLathe, writePart } from '../../../src/core/part/write-part.ts';
import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import type { Part } from '../../../src/core/part/types.ts';
import { anyPart, pin } from './samples.ts';

// Many random cases, on machines that may be busy.
vi.setConfig({ testTimeout: 60_000 });

const whole = {
  shaftwright: 1,
  title: 'pin',
  unit: 'in',
  faces: [{ id: 'A', sketched: 0 }, { id: 'B', sketched: 1 }], // prettier-ignore
  segments: [{ id: 's1', form: 'cylinder', diameter: '1/2' }],
};
const outcome = (text: string) => {
  const read = readPart(text, 'pin.json');
  return read.ok ? 'read' : `${read.problem.code} at ${read.problem.where}`;
};
const withField = (fields: object) => JSON.stringify({ ...whole, ...fields });
const deep = (levels: number) => '['.repeat(levels) + ']'.repeat(levels);

describe('what is no part file is refused, with its place', () => {
  const refused: [string, string, string][] = [
    ['an empty file', '', 'not-json at '],
    ['a cut-off file', withField({}).slice(0, 16), 'not-json at line 1, column 17'],
    ['a comma too many', '{\n  "shaftwright": 1,\n}', 'not-json at line 3, column 1'],
    ['a picture', '\u0089PNG\r\n', 'not-json at line 1, column 1'],
    ['a list', '[]', 'not-a-part at '],
    ['null', 'null', 'not-a-part at '],
    ['another JSON file', '{"name":"x"}', 'not-a-part at shaftwright'],
    ['a lathe', writeLathe(firstLathe), 'not-a-part at shaftwright'],
    ['a version in quotes', withField({ shaftwright: '1' }), 'not-a-part at shaftwright'],
    ['version 0', withField({ shaftwright: 0 }), 'not-a-part at shaftwright'],
    ['a newer version', withField({ shaftwright: 2, faces: 7 }), 'newer-version at shaftwright'],
    ['an endless version', '{"shaftwright":1e999}', 'newer-version at shaftwright'],
    ['no unit', withField({ unit: undefined }), 'not-a-part at unit'],
    ['feet', withField({ unit: 'ft' }), 'not-a-part at unit'],
    ['no face', withField({ faces: [] }), 'not-a-part at faces'],
    ['a face too few', withField({ faces: [{ id: 'A' }] }), 'face-count at faces'],
    ['a face without id', withField({ faces: [{ id: 'A' }, { sketched: 1 }] }), 'not-a-part at faces[1].id'],
    ['a face that is null', withField({ faces: [{ id: 'A' }, null] }), 'not-a-part at faces[1]'],
    [
      'a face far away',
      withField({ faces: [{ id: 'A' }, { id: 'B', sketched: 1e9 }] }),
      'not-a-part at faces[1].sketched',
    ],
    [
      'an endless place',
      withField({}).replace('"sketched":1', '"sketched":1e999'),
      'not-a-part at faces[1].sketched',
    ],
    [
      'an id twice in one list',
      withField({ faces: [{ id: 'A' }, { id: 'A' }] }),
      'duplicate-id at faces[1].id',
    ],
    ['an id twice in two lists', withField({ points: [{ id: 's1' }] }), 'duplicate-id at points[0].id'],
    [
      'an id twice that objects inherit',
      withField({ faces: [{ id: 'toString' }, { id: 'toString' }] }),
      'duplicate-id at faces[1].id',
    ],
    ['a control character in an id', withField({ points: [{ id: 'P\u0000' }] }), 'bad-id at points[0].id'],
    [
      'an unknown form',
      withField({ segments: [{ id: 's1', form: 'cam' }] }),
      'not-a-part at segments[0].form',
    ],
    [
      'a size as a number',
      withField({ segments: [{ id: 's1', form: 'cylinder', diameter: 12 }] }),
      'not-a-part at segments[0].diameter',
    ],
    [
      'a size record with a number',
      withField({ segments: [{ id: 's1', form: 'cylinder', diameter: { size: 12 } }] }),
      'not-a-part at segments[0].diameter.size',
    ],
    ['lengths that are no list', withField({ lengths: {} }), 'not-a-part at lengths'],
    [
      'a side that is none',
      withField({ edges: [{ face: 'A', side: 'top', form: 'fillet' }] }),
      'not-a-part at edges[0].side',
    ],
    [
      'an unknown rule',
      withField({ general: { lengths: { rule: 'iso1' } } }),
      'not-a-part at general.lengths.rule',
    ],
    ['a title without end', withField({ title: 'x'.repeat(5000) }), 'not-a-part at title'],
    [
      'too many faces',
      withField({ faces: Array.from({ length: 20_001 }, (_, i) => ({ id: `f${i}` })) }),
      'not-a-part at faces',
    ],
    ['too deep', deep(61), 'too-deep at '],
    ['too deep and cut off', '['.repeat(100_000), 'too-deep at '],
    [
      'too many fields',
      JSON.stringify(Object.fromEntries(Array.from({ length: 1001 }, (_, i) => [`k${i}`, i]))),
      'too-wide at ',
    ],
    ['too large', ' '.repeat(5_000_001), 'too-large at '],
  ];
  test.each(refused)('%s', (_, text, expected) => {
    expect(outcome(text)).toBe(expected);
  });

  test.each(refused)('%s: one line that names the file', (_, text) => {
    const read = readPart(text, 'my\r\n pin.json');
    if (read.ok) throw new Error('read');
    expect(read.problem.say).toMatch(/^my pin\.json: [^\p{Cc}\u2028\u2029]{5,400}$/u);
    if (read.problem.where !== '') expect(read.problem.say).toContain(read.problem.where);
  });
});

describe('what can be mended on the board is let in', () => {
  const read: [string, string][] = [
    ['a byte-order mark', `\uFEFF${withField({})}`],
    ['a part without a segment', withField({ faces: [{ id: 'A' }], segments: [] })],
    ['sizes nobody can read', withField({ segments: [{ id: 's1', form: 'cylinder', diameter: 'thick' }] })],
    ['a length to nowhere', withField({ lengths: [{ id: 'L1', from: 'A', to: 'Q', size: '1' }] })],
    [
      'missing sizes',
      withField({ segments: [{ id: 's1', form: 'cylinder' }], lengths: [{ id: 'L1', from: 'A', to: 'B' }] }),
    ],
    ['unknown fields anywhere', withField({ colour: 'red', faces: [{ id: 'A', mood: [1] }, { id: 'B' }], edges: [{ face: 'A', side: 'right', form: 'fillet', radius: '1', z: null }] })], // prettier-ignore
    ['nesting that is allowed', withField({ scan: JSON.parse(deep(59)) as unknown })],
  ];
  test.each(read)('%s', (_, text) => {
    expect(outcome(text)).toBe('read');
  });

  test('what may be left out is filled in: lists, a title, places, empty sizes', () => {
    const got = readPart(
      '{"shaftwright":1,"unit":"mm","faces":[{"id":"A","sketched":5},{"id":"B"}],"segments":[{"id":"s","form":"cylinder"}]}',
      'x',
    );
    expect(got).toEqual({
      ok: true,
      value: {
        shaftwright: 1,
        title: '',
        unit: 'mm',
        faces: [{ id: 'A', sketched: 5 }, { id: 'B', sketched: 6 }], // prettier-ignore
        segments: [{ id: 's', form: 'cylinder', diameter: '' }],
        points: [],
        lengths: [],
        edges: [],
        holes: [],
        crossings: [],
        requirements: [],
        matched: [],
      },
    });
  });
});

describe('names that programs trip over', () => {
  const text = `{"shaftwright":1,"unit":"in","title":"t","__proto__":{"unit":"mm","polluted":1},"constructor":{"prototype":{"polluted":1}},
    "faces":[{"id":"__proto__","sketched":0,"__proto__":{"name":"x"}},{"id":"constructor","sketched":1},{"id":"valueOf","sketched":2}],
    "segments":[{"id":"toString","form":"cylinder","diameter":"1/2"},{"id":"hasOwnProperty","form":"cylinder","diameter":"1/2"}],
    "lengths":[{"id":"prototype","from":"__proto__","to":"constructor","size":"1"},{"id":"__defineGetter__","from":"valueOf","to":"constructor","size":"1"}],
    "requirements":[{"id":"isPrototypeOf","from":"__proto__","to":"valueOf","min":"1","max":"3"}],
    "matched":[["toString","hasOwnProperty"]]}`;
  const read = readPart(text, 'x');
  if (!read.ok) throw new Error(read.problem.say);

  test('nothing is polluted', () => {
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
    expect(Object.getPrototypeOf(read.value)).toBe(Object.prototype);
    expect(read.value.unit).toBe('in');
  });

  test('they are ids like any other', () => {
    const part = resolvePart(read.value);
    expect(part.errors).toEqual([]);
    expect(part.lengths.map(({ from, to }) => [from, to])).toEqual([
      ['__proto__', 'constructor'],
      ['constructor', 'valueOf'],
    ]);
    expect(part.sketched.get('valueOf')).toBe(2 * 25_400_000_000);
    expect(part.sketched.get('toString')).toBeUndefined();
    expect(part.names.size).toBe(0);
    expect(part.matched).toEqual([['toString', 'hasOwnProperty']]);
  });

  test('fields so named are kept and written back', () => {
    const written = writePart(read.value);
    expect(written).toContain('"__proto__": { "unit": "mm", "polluted": 1 }');
    expect(written).toContain('"constructor": { "prototype": { "polluted": 1 } }');
    expect(written).toContain('{ "id": "__proto__", "sketched": 0, "__proto__": { "name": "x" } }');
    expect(readPart(written, 'x')).toEqual(read);
  });
});

describe('writing', () => {
  test('a part that is written and read again is the same, with all it carried', () => {
    fc.assert(
      fc.property(anyPart, (part) => {
        const text = writePart(part);
        const read = readPart(text, 'x');
        expect(read).toEqual({ ok: true, value: JSON.parse(JSON.stringify(part)) as unknown });
        if (read.ok) expect(writePart(read.value)).toBe(text);
      }),
    );
  });

  test('known fields come in the order of the format, one line for each thing', () => {
    const part = {
      scan: null,
      zebra: 1,
      ...pin(['1/2'], { lengths: [{ size: '1', to: 'B', from: 'A', id: 'L1', x: [] }] }),
    };
    expect(writePart(part)).toBe(`{
  "shaftwright": 1,
  "title": "",
  "unit": "in",
  "faces": [
    { "id": "A", "sketched": 0 },
    { "id": "B", "sketched": 1 }
  ],
  "segments": [
    { "id": "s1", "form": "cylinder", "diameter": "1/2" }
  ],
  "points": [],
  "lengths": [
    { "id": "L1", "from": "A", "to": "B", "size": "1", "x": [] }
  ],
  "edges": [],
  "holes": [],
  "crossings": [],
  "requirements": [],
  "matched": [],
  "scan": null,
  "zebra": 1
}
`);
  });

  test('a field that is undefined is left out', () => {
    const part = { ...pin(['1/2']), drawing: undefined, faces: [{ id: 'A', sketched: 0, name: undefined }, { id: 'B', sketched: 1 }] }; // prettier-ignore
    expect(JSON.parse(writePart(part as unknown as Part))).toEqual(JSON.parse(JSON.stringify(part)));
  });

  test('a lathe likewise', () => {
    expect(readLathe(writeLathe(firstLathe), 'x')).toEqual({ ok: true, value: firstLathe });
  });
});

describe('the place of a JSON fault', () => {
  const sound = 'the file ends where nothing more was expected';
  test('text that JSON.parse takes has none, and text that it refuses has one inside it', () => {
    const anyJson = fc.json().map((text) => text);
    const spoilt = fc
      .tuple(
        anyJson,
        fc.nat(),
        fc.constantFrom('', ',', '}', ']', '"', ':', 'x', '\u0001', '-', '0', '\\', '\u0085'),
      )
      .map(
        ([text, at, put]) =>
          text.slice(0, at % (text.length + 1)) + put + text.slice((at % (text.length + 1)) + 1),
      );
    fc.assert(
      fc.property(fc.oneof(anyJson, spoilt), (text) => {
        let parses = true;
        try {
          JSON.parse(text);
        } catch {
          parses = false;
        }
        expect([text, jsonFault(text).reason === sound]).toEqual([text, parses]);
      }),
      { numRuns: 2000 },
    );
  });

  test.each([
    ['{"a": 1\n "b": 2}', 2, 2],
    ['[1, 2,\r\n 3', 2, 3],
    ['{"a": "x\ny"}', 1, 7],
    ['{"a": 01}', 1, 7],
    ['[true, flase]', 1, 8],
    ["{'a': 1}", 1, 2],
    ['{"a" 1}', 1, 6],
    ['{} {}', 1, 4],
  ])('%j at line %d, column %d', (text, line, column) => {
    expect(jsonFault(text)).toMatchObject({ line, column });
  });
});

describe('a lathe file', () => {
  const lathe = (fields: object) => {
    const read = readLathe(JSON.stringify({ ...firstLathe, ...fields }), 'lathe.json');
    return read.ok ? 'read' : `${read.problem.code} at ${read.problem.where}`;
  };
  test.each([
    [{}, 'read'],
    [{ collets: null, chucks: undefined, support: undefined, feeds: undefined, at_hand: undefined }, 'read'],
    [{ speeds: { min: 100, max: 2500 } }, 'read'],
    [{ shaftwright_lathe: 2 }, 'newer-version at shaftwright_lathe'],
    [{ shaftwright_lathe: undefined }, 'not-a-lathe at shaftwright_lathe'],
    [{ speeds: [0] }, 'not-a-lathe at speeds[0]'],
    [{ swing: 7 }, 'not-a-lathe at swing'],
    [{ tools: [{ id: 'T1', kind: 'laser' }] }, 'not-a-lathe at tools[0].kind'],
    [{ tools: [{ id: 'T1', kind: 'thread' }, { id: 'T1', kind: 'thread' }] }, 'duplicate-id at tools[1].id'], // prettier-ignore
    [{ tools: [{ id: 'T\n', kind: 'thread' }] }, 'bad-id at tools[0].id'],
    [{ readout: { ...firstLathe.readout, x: 'both' } }, 'not-a-lathe at readout.x'],
  ])('%j: %s', (fields, expected) => {
    expect(lathe(fields)).toBe(expected);
  });
});
