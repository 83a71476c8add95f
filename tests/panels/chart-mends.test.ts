import { render, screen, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { describe, expect, test, vi } from 'vitest';
import { apply, type Transaction } from '../../src/core/part/edit.ts';
import { firstLathe } from '../../src/core/part/first-lathe.ts';
import type { Part } from '../../src/core/part/types.ts';
import { type ChartAdvice, chartAdvice } from '../../src/core/plan/chart-advice.ts';
import { report } from '../../src/core/report.ts';
import ToleranceChart from '../../src/panels/plan/ToleranceChart.svelte';
import { example } from './examples.ts';

const { part: shaft } = example('blower-shaft');
/** B to C between limits that this lathe's blade cannot hold. */
const tight: Part = {
  ...shaft,
  lengths: shaft.lengths.map((l) => (l.id === 'L2' ? { ...l, tol: '±.001' } : l)),
};

const show = (part: Part, advice: readonly ChartAdvice[] | null) => {
  const facts = report(part, firstLathe);
  if (!facts.plan) throw new Error('no plan');
  const onedit = vi.fn<(change: Transaction) => void>();
  render(ToleranceChart, { plan: facts.plan, part, report: facts, unit: 'in', advice, onedit });
  return { plan: facts.plan, onedit, user: userEvent.setup() };
};

describe('the tolerance chart on the page', () => {
  test('has a row for every working dimension, with what is left on the face', () => {
    const { plan } = show(shaft, null);
    const rows = screen.getAllByText(/^takes /);
    expect(rows).toHaveLength(plan.stock_removal?.length ?? 0);
    expect(rows[0]).toHaveTextContent('takes .0469, from .0272 to .0666');
  });

  test('while advice is sought that is said, and where there is none too', () => {
    show(tight, null);
    expect(screen.getByRole('status')).toHaveTextContent('Looking for what would hold it');
    expect(screen.getByText('not held')).toBeVisible();
  });

  test('advice is taken with one click and one step of undo, and then the length is held', async () => {
    const { plan } = report(tight, firstLathe);
    const advice = plan ? chartAdvice(tight, firstLathe, plan, 'L2') : [];
    expect(advice.length).toBeGreaterThan(0);
    const { onedit, user } = show(tight, advice);
    const chart = screen.getByRole('region', { name: /L2 not held/ });
    for (const [i, one] of advice.entries()) {
      await user.click(within(chart).getByRole('button', { name: one.say }));
      expect(onedit).toHaveBeenCalledTimes(i + 1);
      const after = (onedit.mock.lastCall?.[0].edits ?? []).reduce(apply, tight);
      expect(report(after, firstLathe).plan?.chart.find((r) => r.length === 'L2')?.ok).toBe(true);
    }
  });
});
