import { expect, test } from 'vitest';
import type { Report } from '../../src/core/report-types.ts';
import { chainSentence, scanSentence } from '../../src/panels/check-words.ts';
import { example } from './examples.ts';

type Chains = Report['chains'];
const chains = (over: Partial<Chains>): Chains => ({
  state: 'closed',
  groups: [],
  missing: [],
  doubled: [],
  clashes: [],
  impossible: null,
  suspects: [],
  stations: { A: { z_mm: 0, aim_mm: 0 }, B: { z_mm: 1, aim_mm: 1 } },
  spans: [],
  ...over,
});
const gap = (from: string, to: string) => ({ between: [from, to] as [string, string], why: '' });

const table: [string, Chains, string][] = [
  ['closed', chains({}), 'Every size closes: 2 stations placed, none said twice.'],
  [
    'doubled',
    chains({ state: 'doubled', doubled: [{ lengths: ['L1', 'L2'] }] }),
    'Every station is placed; 1 size is said twice and agrees.',
  ],
  [
    'one missing',
    chains({ state: 'open', missing: [gap('C', 'D')] }),
    'One length short: nothing ties C to D.',
  ],
  [
    'two missing',
    chains({ state: 'open', missing: [gap('C', 'D'), gap('E', 'F')] }),
    'Two lengths short: nothing ties C to D and E to F.',
  ],
  [
    'clashing',
    chains({
      state: 'clashing',
      clashes: [{ lengths: ['L1', 'L2', 'L5'], gap_mm: -0.127, within_limits: false }],
    }),
    'One loop does not close: L1, L2 and L5 are off by .0050 in.',
  ],
  [
    'impossible',
    chains({ state: 'clashing', impossible: { lengths: ['L1', 'L2'], faces: [], short_by_mm: 0.254 } }),
    'No part can be made to this drawing: L1 and L2 leave .0100 in too little room.',
  ],
];

test.each(table)('%s', (_state, given, sentence) => {
  expect(chainSentence(given, 'in')).toBe(sentence);
});

test('the examples say what they are', () => {
  expect(chainSentence(example('blower-shaft').report.chains, 'in')).toMatch(/^Every size closes/);
  expect(chainSentence(example('idler-axle-open').report.chains, 'mm')).toBe(
    'One length short: nothing ties C to D.',
  );
  expect(chainSentence(example('winch-spindle-clash').report.chains, 'in')).toMatch(/not close/);
});

test('what the picture disagrees with is named once, whether across, at both ends or in depth', () => {
  const notes = ['s1', 's1', 'L2'].map((where) => ({
    code: 'scan-disagrees',
    where,
    say: 'said',
    facts: {},
  }));
  const report = { warnings: notes } as unknown as Report;
  expect(scanSentence(report)).toBe(' The traced picture disagrees with s1 and L2: read them again.');
});
