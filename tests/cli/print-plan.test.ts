import { describe, expect, test } from 'vitest';
import { printPlan } from '../../src/cli/print-plan.ts';
import { samplePlan, sampleReport } from './sample-report.ts';

const lines = (text: string) => text.split('\n');
const planned = printPlan(sampleReport);

describe('a planned part', () => {
  test('begins with its title and the state of its sizes', () => {
    expect(lines(planned)[0]).toBe('A pin');
    expect(planned).toContain('The sizes close');
  });

  test('names the bar to order, in the unit of the part', () => {
    expect(planned).toMatch(/Bar to order\n {2}1\/2: diameter \.500 in, .*4\.000 in/);
  });

  test('shows each holding with grip, stick-out, support and zero', () => {
    expect(planned).toContain('Holding H1: collet');
    const flowed = planned.replace(/\s+/g, ' ');
    expect(flowed).toMatch(
      /right end toward the headstock; grip 1\.000 in on the bar; stick out 2\.441 in; with centre/,
    );
    expect(planned).toContain('zero: station A. Touch the finished end and zero Z.');
    expect(planned).toContain(
      'mark: station B at Z -.5000, rule 1/2 from A, waste on the drawn left; scribe it before cut 2',
    );
  });

  test('numbers every cut, with its readings by either blade edge', () => {
    for (const n of [1, 2, 3, 4]) expect(planned).toMatch(new RegExp(`\\[ \\] +${n}  `));
    expect(planned).toMatch(/groove, T3, 3 passes, 620 rpm, Z -\.5000 by the headstock edge/);
    expect(planned).toContain('-.4220');
    expect(planned.split('X .3935')).toHaveLength(2); // named by the sentence, so not named again
    expect(planned).toContain('thread, turned by hand');
    expect(planned.indexOf('Off the lathe')).toBeLessThan(planned.indexOf('Break all edges.'));
  });

  test('says what is not held, and only that', () => {
    expect(planned).toContain('L2: drawn .2000 in to .2004 in, held .1969 in to .2047 in');
    expect(planned).not.toContain('L1: drawn');
    expect(planned).toContain('s2 in H1: bends 12.3 µm on the diameter, 5.0 µm allowed');
    expect(planned).toContain('between centres: no drive between centres at hand');
  });

  test('ends with warnings and cautions that defer to manual, rules and a trained person', () => {
    expect(planned).toContain('s1: The wall is thin.');
    for (const word of ['manual', 'rules', 'trained person', 'docs/cautions.md'])
      expect(planned).toContain(word);
    expect(planned.endsWith('\n')).toBe(true);
  });

  test('stays within a page of text', () => {
    for (const line of lines(planned)) expect(line.length).toBeLessThanOrEqual(96);
  });

  test('is in millimetres for a part in millimetres', () => {
    expect(printPlan({ ...sampleReport, unit: 'mm' })).toMatch(/diameter 12\.70 mm, .*101\.60 mm/);
  });
});

describe('a part that cannot be planned', () => {
  const clashing = printPlan({
    ...sampleReport,
    part: '',
    plan: null,
    chains: {
      ...sampleReport.chains,
      state: 'clashing',
      missing: [{ between: ['C', 'D'], why: 'nothing ties them together' }],
      doubled: [{ lengths: ['L7', 'L8'] }],
      clashes: [{ lengths: ['L1', 'L2', 'L5'], gap_mm: 0.127, within_limits: false }],
      impossible: { lengths: ['L9'], faces: ['A', 'B'], short_by_mm: 2.54 },
      suspects: [{ length: 'L5', written: '.832', closes_at_mm: 20.93, hint: 'digits swapped' }],
    },
    errors: [{ code: 'size-unreadable', where: 'lengths[3].size', say: '“1..5” is not a size.' }],
  });

  test('says so, with every finding and every error at its place', () => {
    expect(clashing).toContain('A part without a title');
    expect(clashing).toContain('The sizes clash');
    expect(clashing).toContain('missing: a length between C and D: nothing ties them together');
    expect(clashing).toContain('said twice: L7, L8');
    expect(clashing).toContain('clash: L1, L2, L5 are off by .0050 in');
    expect(clashing).toContain('impossible: L9, A, B leave no part by .1000 in');
    expect(clashing).toContain('suspect: L5, written .832, would close at .8240 in (digits swapped)');
    expect(clashing).toContain('No plan can be made of it as it stands.');
    expect(clashing).toContain('lengths[3].size: “1..5” is not a size.');
    expect(clashing).not.toContain('Holding');
  });
});

test('control characters of a file never reach the terminal', () => {
  const hostile = printPlan({
    ...sampleReport,
    part: 'pin\u001b[2J\u0007\r\nnext',
    plan: { ...samplePlan, stock: { ...samplePlan.stock, bar: '\u009b31m' } },
  });
  expect(hostile.replaceAll('\n', '')).not.toMatch(/\p{Cc}/u);
  expect(lines(hostile)[0]).toBe('pin [2J   next');
});

test('a word longer than the page stands on a line of its own, whole', () => {
  const long = 'x'.repeat(200);
  const printed = printPlan({
    ...sampleReport,
    warnings: [{ code: 'c', where: '', say: `see ${long} there` }],
  });
  expect(lines(printed)).toContain(`  ${long}`);
});
