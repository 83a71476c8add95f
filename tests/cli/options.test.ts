import { describe, expect, test } from 'vitest';
import { readOptions, USAGE } from '../../src/cli/options.ts';

const read = (line: string) => readOptions(line.split(' ').filter((arg) => arg !== ''));

test('a part alone prints, for a Letter page and our own lathe', () => {
  expect(read('a.json')).toEqual({
    ok: true,
    value: { part: 'a.json', lathe: null, json: null, pdf: null, page: 'letter' },
  });
});

test('options stand before or behind the part, joined or apart', () => {
  const value = { part: 'a.json', lathe: 'l.json', json: '-', pdf: 'o.pdf', page: 'a4' };
  expect(read('a.json --lathe l.json --json - --pdf o.pdf --page a4')).toEqual({ ok: true, value });
  expect(read('--json=- --pdf=o.pdf --page=a4 --lathe=l.json a.json')).toEqual({ ok: true, value });
});

describe('what is refused, in one line with the usage', () => {
  test.each([
    ['', 'no part file'],
    ['--json -', 'no part file'],
    ['a.json b.json', 'b.json is a second'],
    ['a.json --out x', 'unknown option --out'],
    ['a.json -x', 'unknown option -x'],
    ['a.json --', 'unknown option --'],
    ['a.json --json', '--json wants a value'],
    ['a.json --json=', '--json wants a value'],
    ['a.json --json a --json b', '--json is given twice'],
    ['a.json --json a.json', '--json would write over a.json'],
    ['a.json --json ./x/../a.json', '--json would write over ./x/../a.json'],
    ['a.json --lathe b.json --pdf b.json', '--pdf would write over b.json'],
    ['a.json --json c --pdf ./c', '--json and --pdf name one file'],
    ['a.json --pdf -', '--pdf wants a file'],
    ['a.json --page a5', 'not a5'],
    ['a.json --__proto__ x', 'unknown option --__proto__'],
  ])('%s', (line, words) => {
    const options = read(line);
    if (options.ok) throw new Error('it was read');
    expect(options.problem.say).toContain(words);
    expect(options.problem.say.endsWith(USAGE)).toBe(true);
    expect(options.problem.say).not.toContain('\n');
  });
});
