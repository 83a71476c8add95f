import { spawn } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { run } from '../../src/cli/run.ts';
import type { Report } from '../../src/core/report-types.ts';

const top = fileURLToPath(new URL('../..', import.meta.url));
const example = (name: string) => join('static', 'examples', `${name}.json`);
let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'command-'));
});
afterAll(() => rm(folder, { recursive: true }));

/** The command without a process of its own: starting one takes longer than most of what is asked of it. */
const inside = (args: readonly string[]) => run(args, '2031-04-01');

/** Runs the command as `npm run plan` does. `slowly` leaves its output unread for a while, as a pager would. */
function plan(args: readonly string[], slowly = false) {
  return new Promise<{ code: number | null; out: string; err: string }>((resolve, reject) => {
    const child = spawn(process.execPath, ['src/tools/run-ts.mjs', 'src/cli/main.ts', ...args], { cwd: top });
    const out: Buffer[] = [];
    const err: Buffer[] = [];
    const readOut = () => child.stdout.on('data', (chunk: Buffer) => out.push(chunk));
    if (slowly) setTimeout(readOut, 3000);
    else readOut();
    child.stderr.on('data', (chunk: Buffer) => err.push(chunk));
    child.on('error', reject);
    child.on('close', (code) =>
      resolve({ code, out: Buffer.concat(out).toString('utf8'), err: Buffer.concat(err).toString('utf8') }),
    );
  });
}

const file = async (name: string, content: string) => {
  const path = join(folder, name);
  await writeFile(path, content);
  return path;
};
const blower = async () =>
  JSON.parse(await readFile(join(top, example('blower-shaft')), 'utf8')) as Record<string, unknown>;
const reportIn = (text: string) => JSON.parse(text) as Report;
const slow = { timeout: 60_000 };

describe('exit 0: planned', () => {
  test('the report and the sheet are written', slow, async () => {
    const pdf = join(folder, 'out.pdf');
    const { code, out, err } = await plan([example('blower-shaft'), '--json', '-', '--pdf', pdf]);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(reportIn(out)).toMatchObject({ report: 1, part: 'Forge-blower shaft', errors: [] });
    expect(reportIn(out).plan?.holdings.length).toBeGreaterThan(0);
    expect((await readFile(pdf)).subarray(0, 5).toString('latin1')).toBe('%PDF-');
  });

  test('without --json it prints the plan for a person', slow, async () => {
    const { code, out, err } = await inside([example('blower-shaft')]);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    for (const words of ['Forge-blower shaft', 'Bar to order', 'Holding H1', 'Cautions'])
      expect(out).toContain(words);
  });

  test('--json to a file writes the same report, and prints nothing', slow, async () => {
    const path = join(folder, 'report.json');
    const { code, out } = await inside([example('blower-shaft'), `--json=${path}`]);
    expect({ code, out }).toEqual({ code: 0, out: '' });
    expect(reportIn(await readFile(path, 'utf8')).plan).not.toBeNull();
  });
});

describe('exit 1: read, but not to be planned as it stands; the report is still written', () => {
  test('open chains', slow, async () => {
    const { code, out } = await plan([example('idler-axle-open'), '--json', '-']);
    expect(code).toBe(1);
    expect(reportIn(out)).toMatchObject({ chains: { state: 'open' }, plan: null });
    expect(reportIn(out).chains.missing.length).toBeGreaterThan(0);
  });

  test('clashing chains', slow, async () => {
    const { code, out } = await inside([example('winch-spindle-clash'), '--json', '-']);
    expect(code).toBe(1);
    expect(reportIn(out)).toMatchObject({ chains: { state: 'clashing' }, plan: null });
  });

  test('a size that cannot be read, with its place', slow, async () => {
    const part = await blower();
    const lengths = (part.lengths as Record<string, unknown>[]).map((length, i) =>
      i === 3 ? { ...length, size: '5/0' } : length,
    );
    const { code, out } = await inside([
      await file('bad-size.json', JSON.stringify({ ...part, lengths })),
      '--json',
      '-',
    ]);
    expect(code).toBe(1);
    expect(reportIn(out).plan).toBeNull();
    expect(reportIn(out).errors.map(({ where }) => where)).toContain('lengths[3].size');
  });

  test('in words, when a person asks', slow, async () => {
    const { code, out } = await inside([example('winch-spindle-clash')]);
    expect(code).toBe(1);
    expect(out).toContain('The sizes clash');
    expect(out).toContain('No plan can be made');
  });
});

describe('exit 2: one line on standard error, nothing on standard output', () => {
  const refused: [name: string, args: () => Promise<string[]>, words: string[]][] = [
    [
      'not JSON',
      async () => [await file('text.json', '{ "shaftwright": 1,, }')],
      ['text.json', 'line 1', 'not JSON'],
    ],
    ['no part file', async () => [await file('other.json', '{ "a": 1 }')], ['other.json', 'shaftwright']],
    [
      'newer',
      async () => [await file('new.json', JSON.stringify({ ...(await blower()), shaftwright: 2 }))],
      ['new.json', 'shaftwright', 'newer'],
    ],
    ['missing', async () => [join(folder, 'none.json')], ['none.json', 'the file', 'no such file']],
    ['a directory', async () => [folder], ['the file', 'directory']],
    [
      'a lathe that is none',
      async () => [example('blower-shaft'), '--lathe', example('blower-shaft')],
      ['blower-shaft.json', 'shaftwright_lathe'],
    ],
    ['unknown option', async () => [example('blower-shaft'), '--sheet', 'x'], ['--sheet', 'usage:']],
    [
      'an output that cannot be written',
      async () => [example('idler-axle-open'), '--json', join(folder, 'no', 'o.json')],
      ['o.json', 'cannot be written'],
    ],
  ];
  test.each(refused)('%s', slow, async (_name, args, words) => {
    const { code, out, err } = await inside(await args());
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(/^[^\n]+\n$/);
    for (const word of words) expect(err).toContain(word);
  });

  test('the process says the same', slow, async () => {
    const args = [await file('torn.json', '{ "shaftwright": 1,, }')];
    const outside = await plan(args);
    expect(outside.code).toBe(2);
    expect(outside).toEqual(await inside(args));
  });
});

test('a large report goes through a slow pipe whole', slow, async () => {
  const part = await blower();
  const requirements = Array.from({ length: 800 }, (_, i) => ({
    id: `more${i}`,
    from: 'A',
    to: 'M',
    min: '4',
    max: '5',
  }));
  const { code, out } = await plan(
    [await file('large.json', JSON.stringify({ ...part, requirements })), '--json', '-'],
    true,
  );
  expect([0, 1]).toContain(code);
  expect(out.length).toBeGreaterThan(200_000);
  expect(reportIn(out).requirements).toHaveLength(800);
});
