import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { describe, expect, test, vi } from 'vitest';
import { stepsOf } from '../../src/bench/steps.ts';
import { firstLathe } from '../../src/core/part/first-lathe.ts';
import { metricLathe } from '../../src/core/part/metric-lathe.ts';
import CutPanel from '../../src/panels/CutPanel.svelte';
import HoldPanel from '../../src/panels/HoldPanel.svelte';
import { example } from './examples.ts';

Element.prototype.scrollIntoView = () => undefined;

const hold = (name: Parameters<typeof example>[0]) => {
  const { report } = example(name);
  const calls = { onholding: vi.fn(), onlathe: vi.fn(), onopen: vi.fn() };
  const first = report.plan?.holdings[0]?.id ?? null;
  render(HoldPanel, { report, planning: false, lathe: firstLathe, unit: 'in', holding: first, ...calls });
  return { report, calls, user: userEvent.setup() };
};

describe('the Hold place', () => {
  test('says the bar to order and every holding with its grip', async () => {
    const { report, calls, user } = hold('blower-shaft');
    const { plan } = report;
    expect(plan).not.toBeNull();
    expect(screen.getByRole('heading', { name: /^Bar to order: 3\/4 in bar/ })).toBeVisible();
    for (const { id } of plan?.holdings ?? []) {
      expect(screen.getByRole('button', { name: new RegExp(`^${id} `) })).toBeVisible();
    }
    const second = plan?.holdings[1];
    if (second) await user.click(screen.getByRole('button', { name: new RegExp(`^${second.id} `) }));
    expect(calls.onholding).toHaveBeenCalledWith(second?.id);
  });

  test('another lathe is chosen with a click', async () => {
    const { calls, user } = hold('blower-shaft');
    await user.click(screen.getByRole('button', { name: /boathouse lathe/ }));
    expect(calls.onlathe).toHaveBeenCalledWith(metricLathe);
  });

  test('without a plan it says what stands in the way', () => {
    hold('idler-axle-open');
    expect(screen.getByRole('heading', { name: 'No plan yet' })).toBeVisible();
    expect(screen.getByText(/No length ties C to D/)).toBeVisible();
  });
});

describe('the Cut place', () => {
  const cut = (at: number) => {
    const steps = stepsOf(example('blower-shaft').report.plan);
    const onat = vi.fn();
    render(CutPanel, { planning: false, steps, at, onat });
    return { steps, onat, user: userEvent.setup() };
  };

  test('pages turn by arrow keys and buttons, and stop at the ends', async () => {
    const { steps, onat, user } = cut(0);
    await user.keyboard('{ArrowRight}');
    expect(onat).toHaveBeenLastCalledWith(1);
    await user.keyboard('{ArrowLeft}');
    expect(onat).toHaveBeenLastCalledWith(0);
    expect(screen.getByRole('button', { name: 'Back' })).toBeDisabled();
    await user.click(screen.getByRole('button', { name: 'Next' }));
    expect(onat).toHaveBeenLastCalledWith(1);
    expect(screen.getByRole('navigation', { name: 'All cuts' }).querySelectorAll('button')).toHaveLength(
      steps.length,
    );
  });

  test('a blade tells what either edge would read', () => {
    const steps = stepsOf(example('blower-shaft').report.plan);
    const at = steps.findIndex(({ cut: { readings } }) => readings.some(({ other }) => other));
    expect(at).toBeGreaterThan(0);
    cut(at);
    const reading = steps[at]?.cut.readings.find(({ other }) => other);
    const side = { left: 'headstock side', right: 'tailstock side' };
    expect(screen.getByText(new RegExp(`touched off on the ${side[reading?.edge ?? 'left']}`))).toBeVisible();
    expect(screen.getByText(reading?.other?.text ?? 'none')).toBeVisible();
  });
});
