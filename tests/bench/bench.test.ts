import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { describe, expect, test } from 'vitest';
import BenchView from '../../src/bench/BenchView.svelte';
import { freshProgress, tick, turnTo, type Progress } from '../../src/bench/progress.ts';
import { planMark, stepsOf } from '../../src/bench/steps.ts';
import { example } from '../panels/examples.ts';

const { plan } = example('blower-shaft').report;
if (!plan) throw new Error('the finished example has a plan');
const steps = stepsOf(plan);

const bench = (progress: Progress | null) => {
  const kept: Progress[] = [];
  const props = { plan, planning: false, progress, pictureOf: () => null };
  const view = render(BenchView, {
    ...props,
    onprogress: (now) => {
      kept.push(now);
      void view.rerender({ progress: now });
    },
  });
  return { kept, user: userEvent.setup() };
};

describe('progress', () => {
  test('a tick is put and taken back', () => {
    const once = tick(freshProgress('p'), 3);
    expect(once.done).toEqual([3]);
    expect(tick(once, 3).done).toEqual([]);
    expect(tick(once, 1).done).toEqual([1, 3]);
  });

  test('pages stop at both ends', () => {
    expect(turnTo(freshProgress('p'), -1, 5).at).toBe(0);
    expect(turnTo(freshProgress('p'), 9, 5).at).toBe(4);
  });
});

describe('the bench view', () => {
  test('every cut of the plan is a page, off-lathe work last', () => {
    const cuts = plan.holdings.reduce((sum, { cuts: { length } }) => sum + length, 0) + plan.off_lathe.length;
    expect(steps).toHaveLength(cuts);
    expect(steps.at(-1)?.holding).toBeNull();
  });

  test('ticking goes on to the next cut and is remembered', async () => {
    const { kept, user } = bench(null);
    await user.click(screen.getByRole('button', { name: 'Done, tick it' }));
    expect(kept.at(-1)).toEqual({ plan: planMark(plan), at: 1, done: [steps[0]?.cut.n] });
    expect(screen.getByText(steps[1]?.cut.say ?? 'none')).toBeVisible();
  });

  test('opens where the work stopped', () => {
    bench({ plan: planMark(plan), at: 9, done: [1, 2] });
    expect(screen.getByRole('button', { name: `Cut 10 of ${steps.length}` })).toBeVisible();
    expect(screen.getByText('2 ticked')).toBeVisible();
  });

  test('ticks of another plan are not silently taken for this one', async () => {
    const { kept, user } = bench({ plan: 'older', at: 3, done: [1, 2, 3] });
    expect(screen.getByText('The plan has changed since you began.')).toBeVisible();
    await user.click(screen.getByRole('button', { name: 'Begin again' }));
    expect(kept.at(-1)).toEqual({ plan: planMark(plan), at: 0, done: [] });
  });

  test('the list leads to any cut', async () => {
    const { user } = bench(null);
    await user.click(screen.getByRole('button', { name: /^Cut 1 of/ }));
    const fifth = screen.getAllByRole('listitem').flatMap((item) => [...item.querySelectorAll('button')])[4];
    if (fifth) await user.click(fifth);
    expect(screen.getByRole('button', { name: `Cut 5 of ${steps.length}` })).toBeVisible();
  });

  test('arrow keys turn the pages', async () => {
    const { user } = bench(null);
    await user.keyboard('{ArrowRight}{ArrowRight}{ArrowLeft}');
    expect(screen.getByRole('button', { name: `Cut 2 of ${steps.length}` })).toBeVisible();
  });
});
