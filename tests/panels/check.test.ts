import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { describe, expect, test, vi } from 'vitest';
import { applyAll, type Transaction } from '../../src/core/part/edit.ts';
import { firstLathe } from '../../src/core/part/first-lathe.ts';
import type { Part } from '../../src/core/part/types.ts';
import type { Report } from '../../src/core/report-types.ts';
import { draftReport } from '../../src/core/draft-report.ts';
import CheckPanel from '../../src/panels/CheckPanel.svelte';
import { example } from './examples.ts';

function check(given: { part: Part; report: Report }) {
  const edits: Transaction[] = [];
  const onlight = vi.fn();
  render(CheckPanel, {
    ...given,
    ...{ lathe: firstLathe, chosen: null, unit: given.part.unit, onlight },
    onedit: (change: Transaction) => edits.push(change),
  });
  const after = () => edits.reduce(applyAll, given.part);
  return { edits, after, onlight, user: userEvent.setup() };
}
const stateOf = (part: Part) => draftReport(part).chains.state;

describe('the Check place', () => {
  test('one sentence on top', () => {
    check(example('idler-axle-open'));
    expect(screen.getByRole('heading', { level: 2 })).toHaveTextContent(
      'One length short: nothing ties C to D.',
    );
  });

  test('a missing length is added where it is missed, and the chain closes', async () => {
    const { after, user } = check(example('idler-axle-open'));
    await user.type(screen.getByLabelText('C to D'), '36{Enter}');
    expect(stateOf(after())).toBe('closed');
  });

  test('a missing length that cannot be read is not added and says why', async () => {
    const { edits, user } = check(example('idler-axle-open'));
    await user.type(screen.getByLabelText('C to D'), '36 apples{Enter}');
    expect(edits).toEqual([]);
    expect(screen.getByLabelText('C to D')).toBeInvalid();
    expect(screen.getByLabelText('C to D')).toHaveValue('36 apples');
  });

  test('a suspect is put right with one click and one step', async () => {
    const { edits, after, user } = check(example('winch-spindle-clash'));
    const fixes = screen.getAllByRole('button', { name: /^Make L/ });
    const [first] = fixes;
    expect(first).toBeDefined();
    if (first) await user.click(first);
    expect(edits).toHaveLength(1);
    expect(stateOf(after())).not.toBe('clashing');
  });

  test('requirements carry their verdict in words', () => {
    check(example('blower-shaft'));
    expect(screen.getByText(/bearing stops fit the casing/)).toBeVisible();
    expect(screen.getAllByText('always met')).toHaveLength(2);
  });

  test('a requirement that fails says so', () => {
    const { part } = example('blower-shaft');
    const tight = { ...part, requirements: [{ id: 'R1', from: 'B', to: 'H', min: '2.649', max: '2.651' }] };
    check({ part: tight, report: draftReport(tight) });
    expect(screen.getByText('not always met')).toBeVisible();
  });

  test('fits tell clearance and interference', () => {
    check(example('blower-shaft'));
    // Ø10 h6 is 0/-0.009 mm (ISO 286-2), a 6000 bearing's bore 0/-0.008 mm (normal class): 8 µm tight to 9 µm free.
    expect(screen.getAllByText(/from \.0003 in tight to \.0004 in free/)).toHaveLength(2);
    expect(screen.getByText(/clearance \.0005 to \.0020/)).toBeVisible();
  });

  test('going over a loop lights its lengths on the board', async () => {
    const { onlight, user } = check(example('winch-spindle-clash'));
    const [badge] = screen.getAllByText(/^off by/);
    if (badge) await user.hover(badge);
    const [lit] = onlight.mock.calls[0] ?? [];
    expect(lit).toEqual(expect.arrayContaining(['L2']));
  });
});
