import { describe, expect, test } from 'vitest';
import { attention, places } from '../../src/panels/places.ts';
import { example } from './examples.ts';

describe('what waits in each place', () => {
  test('stand in the order of the work', () => {
    expect(places.map(({ name }) => name)).toEqual(['Draw', 'Check', 'Hold', 'Cut', 'Print', 'Turn']);
  });

  test('nothing waits in the finished example', () => {
    const { report } = example('blower-shaft');
    const counts = Object.values(attention(report)).map(({ count }) => count);
    expect(counts).toEqual([0, 0, 0, 0, 0, 0]);
  });

  test('a missing length waits in Check, and Hold waits for it', () => {
    const { report } = example('idler-axle-open');
    expect(attention(report).check).toEqual({ count: 1, say: '1 thing to settle' });
    expect(attention(report).hold.count).toBe(0);
  });

  test('sizes that close but cannot be held wait in Hold, once the planner has looked', () => {
    const report = { ...example('blower-shaft').report, plan: null };
    expect(attention(report).hold).toEqual({ count: 1, say: 'no way to hold it' });
    expect(attention(report, true).hold.count).toBe(0);
  });

  test('what cannot be read waits in Draw', () => {
    const { report } = example('blower-shaft');
    const errors = [
      { code: 'size-unreadable', where: 'lengths[3].size', say: '' },
      { code: 'no-way', where: 'plan', say: '' },
    ];
    expect(attention({ ...report, errors }).draw).toEqual({ count: 1, say: '1 entry to put right' });
  });
});
