import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { describe, expect, test, vi } from 'vitest';
import { apply, type Transaction } from '../../src/core/part/edit.ts';
import { firstLathe } from '../../src/core/part/first-lathe.ts';
import type { Part, Pins } from '../../src/core/part/types.ts';
import { report } from '../../src/core/report.ts';
import { handlesOf, nearestFace, outAt, outText } from '../../src/panels/plan/handles.ts';
import PlanHandles from '../../src/panels/plan/PlanHandles.svelte';
import { example } from './examples.ts';

const { part: shaft } = example('blower-shaft');
const done = (part: Part, { edits }: Transaction): Part => edits.reduce(apply, part);
const held = (pins: Pins, id: string) => {
  const part = { ...shaft, pins };
  const facts = report(part, firstLathe);
  const holding = facts.plan?.holdings.find((h) => h.id === id);
  if (!facts.plan || !holding) throw new Error(`no ${id}`);
  return {
    part,
    plan: facts.plan,
    holding,
    handles: handlesOf(facts.plan, holding, part, facts.chains.stations),
  };
};

const show = (pins: Pins, id: string) => {
  const { part, handles } = held(pins, id);
  const onedit = vi.fn<(change: Transaction) => void>();
  render(PlanHandles, { part, handles, view: { scale: 4, x: 500, y: 100 }, onedit });
  const after = () => done(part, onedit.mock.lastCall?.[0] ?? { edits: [], did: '' }).pins;
  return { onedit, after, handles, user: userEvent.setup() };
};

describe('what can be dragged in the picture of a holding', () => {
  test('the grip stands from the finished end at the tailstock as far as the plan has it, both ways round', () => {
    const bar = held({ way: 'bar', first: 'A' }, 'H2');
    expect(outAt(bar.handles.grip?.x ?? 0, bar.handles.grip?.end ?? { id: '', x: 0 }, 'in')).toBeCloseTo(
      bar.holding.grips?.z0_mm ?? 0,
      0,
    );
    const turned = held({ way: 'bar', first: 'A' }, 'H3');
    // Turned round, the finished end is M: 4.6 in or so from A.
    expect(turned.handles.grip?.end.id).toBe('M');
  });

  test('a split there is only where two holdings meet, and it goes to inner faces', () => {
    expect(held({ way: 'bar' }, 'H2').handles.split).toBeNull();
    const { plan, handles } = held({ way: 'both-ends', first: 'A' }, 'H1');
    expect(handles.split?.at.id).toBe(plan.way?.split);
    expect(handles.split?.faces.map(({ id }) => id)).not.toContain('A');
    expect(handles.split?.faces.map(({ id }) => id)).not.toContain('M');
  });

  test('places are sixty-fourths or half millimetres, written in the unit of the part', () => {
    expect(outText(25.4 * 1.26, 'in')).toBe('1 17/64');
    expect(outText(12.3, 'mm')).toBe('12.5');
    expect(
      nearestFace(
        [
          { id: 'B', x: 1 },
          { id: 'C', x: 5 },
        ],
        3.5,
      )?.id,
    ).toBe('C');
  });
});

describe('by the keyboard', () => {
  test('arrows move the grip, Enter settles it in one step, Escape leaves it', async () => {
    const { onedit, after, user } = show({ way: 'bar', first: 'A' }, 'H2');
    const grip = screen.getByRole('slider', { name: 'Grip of H2' });
    grip.focus();
    const before = grip.getAttribute('aria-valuetext');
    await user.keyboard('{ArrowLeft}{ArrowLeft}');
    expect(grip.getAttribute('aria-valuetext')).not.toBe(before);
    await user.keyboard('{Escape}');
    expect(grip.getAttribute('aria-valuetext')).toBe(before);
    expect(onedit).not.toHaveBeenCalled();
    // Away from the free end by an eighth: the bar stands out further.
    await user.keyboard('{Shift>}{ArrowLeft}{/Shift}{Enter}');
    expect(onedit).toHaveBeenCalledOnce();
    expect(after()?.grips).toEqual([{ holding: 'H2', out: expect.stringMatching(/^5 \d+\/\d+$/) as string }]);
  });

  test('Delete leaves a settled grip to the planner again', async () => {
    const { after, user } = show({ way: 'bar', first: 'A', grips: [{ holding: 'H2', out: '6' }] }, 'H2');
    screen.getByRole('slider', { name: 'Grip of H2, settled' }).focus();
    await user.keyboard('{Delete}');
    expect(after()).toEqual({ way: 'bar', first: 'A' });
  });

  test('the split goes from face to face and settles the way', async () => {
    const { after, handles, user } = show({ way: 'both-ends', first: 'A' }, 'H1');
    screen.getByRole('slider', { name: 'Split between holdings' }).focus();
    await user.keyboard('{ArrowRight}{Enter}');
    expect(after()?.way).toBe('both-ends');
    const faces = shaft.faces.map(({ id }) => id);
    const at = faces.indexOf(handles.split?.at.id ?? '');
    expect([faces[at - 1], faces[at + 1]]).toContain(after()?.split);
  });
});
