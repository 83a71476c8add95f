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
  const { part, report } = example(name);
  const calls = {
    onholding: vi.fn(),
    onedit: vi.fn(),
    onlathe: vi.fn(),
    onlathes: vi.fn(),
    onopen: vi.fn(),
  };
  const first = report.plan?.holdings[0]?.id ?? null;
  const view = {
    report,
    planning: false,
    lathe: firstLathe,
    lathes: [],
    unit: 'in',
    holding: first,
  } as const;
  render(HoldPanel, { part, ...view, ...calls });
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

  test('says a centre that is brought up at a cut, and when it is backed off', () => {
    const { report } = hold('blower-shaft');
    const supports = report.plan?.holdings[1]?.cuts.filter((c) => c.kind === 'support') ?? [];
    expect(supports.map((c) => c.support)).toEqual([['centre'], []]);
    const [up, off] = supports.map((c) => c.n);
    expect(screen.getByText(`live centre, brought up at cut ${up}; backed off at cut ${off}`)).toBeVisible();
  });

  test('says how long it roughly takes, and that it is rough', () => {
    const { report } = hold('blower-shaft');
    expect(screen.getByText(/about .* in all.*rough guess/)).toBeVisible();
    expect(screen.getAllByText(/of it in the metal/)).toHaveLength(report.plan?.holdings.length ?? 0);
  });

  test('the chart has a row for each drawing length with its verdict in words', () => {
    const { report } = hold('blower-shaft');
    const chart = screen.getByRole('region', { name: /Tolerance chart: every drawing length is held/ });
    for (const { length } of report.plan?.chart ?? []) expect(chart).toHaveTextContent(length);
    expect(chart.querySelectorAll('[role=img]')).toHaveLength(report.plan?.chart.length ?? 0);
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
    const { part, report } = example('blower-shaft');
    const steps = stepsOf(report.plan);
    const onat = vi.fn();
    const { plan } = report;
    render(CutPanel, { planning: false, plan, material: part.material ?? '', unit: 'in', steps, at, onat });
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

  test('a finishing cut shows how far the work springs, another step nothing', () => {
    const { report } = example('blower-shaft');
    const steps = stepsOf(report.plan);
    cut(steps.findIndex(({ cut: c }) => c.kind === 'finish' && c.segment === 'seat'));
    expect(screen.getByRole('heading', { name: 'How far seat springs' })).toBeVisible();
    const row = report.plan?.stiffness.find((r) => r.segment === 'seat');
    expect(screen.getByText(`${row?.force_n.toFixed(0)} N at the last pass`)).toBeVisible();
    expect(screen.getByRole('img', { name: /Spring along the work/ })).toBeVisible();
    expect(screen.getByText(/with the grip alone/)).toBeVisible();
  });

  test('a step that finishes nothing shows no spring', () => {
    cut(0);
    expect(screen.queryByRole('heading', { name: /springs/ })).toBeNull();
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
