import { render, screen, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { describe, expect, test, vi } from 'vitest';
import { apply, type Transaction } from '../../src/core/part/edit.ts';
import { firstLathe } from '../../src/core/part/first-lathe.ts';
import { setPin } from '../../src/core/part/part-commands.ts';
import type { Part } from '../../src/core/part/types.ts';
import { report } from '../../src/core/report.ts';
import HoldPanel from '../../src/panels/HoldPanel.svelte';
import {
  letGo,
  pinFields,
  planThisWay,
  settle,
  settledItems,
  settleFace,
} from '../../src/panels/plan/pin-words.ts';
import { example } from './examples.ts';

const done = (part: Part, { edits }: Transaction): Part => edits.reduce(apply, part);
const { part: shaft, report: planned } = example('blower-shaft');

const show = (part: Part) => {
  const onedit = vi.fn<(change: Transaction) => void>();
  const none = { onholding: vi.fn(), onlathe: vi.fn(), onlathes: vi.fn(), onopen: vi.fn() };
  const view = { planning: false, lathe: firstLathe, lathes: [], unit: 'in', holding: null } as const;
  render(HoldPanel, { part, report: report(part, firstLathe), ...view, onedit, ...none });
  /** The part as the last edit leaves it. */
  const after = () => done(part, onedit.mock.lastCall?.[0] ?? { edits: [], did: '' });
  return { onedit, after, user: userEvent.setup() };
};

describe('settling something about the plan', () => {
  test('every pin begins with the planner choosing, and takes each of its choices', () => {
    for (const { key, value, choices } of pinFields(shaft, firstLathe)) {
      expect(value).toBe('');
      for (const { text } of choices) {
        const pinned = done(shaft, settle(shaft, key, text));
        expect(pinFields(pinned, firstLathe).find((f) => f.key === key)?.value).toBe(text);
        expect(done(pinned, settle(pinned, key, ''))).toEqual(shaft);
      }
    }
  });

  test('by a form control', async () => {
    const { after, user } = show(shaft);
    await user.selectOptions(screen.getByRole('combobox', { name: 'Live centre' }), 'do without');
    expect(after().pins).toEqual({ centre: false });
  });

  test('is said in words with a way to let it go', async () => {
    const { after, user } = show(done(shaft, setPin(shaft, 'way', 'centres')));
    const section = screen.getByRole('region', { name: 'Settle something' });
    expect(within(section).getByRole('listitem')).toHaveTextContent('Way of holding: between centres.');
    await user.click(within(section).getByRole('button', { name: /Let the planner choose/ }));
    expect(after().pins).toBeUndefined();
  });

  test('a face is cut from an end, by a form control, and let go again', async () => {
    const { after, user } = show(shaft);
    await user.click(screen.getByText(/^Single faces/));
    await user.selectOptions(screen.getByRole('combobox', { name: 'Face D' }), 'with end M at the tailstock');
    expect(after().pins).toEqual({ faces: [{ face: 'D', from: 'M' }] });
    expect(done(after(), settleFace(after(), 'D', ''))).toEqual(shaft);
  });

  test('everything settled is listed, and each is let go by itself', () => {
    const pins: Part['pins'] = {
      part_off: false,
      faces: [{ face: 'D', from: 'A' }],
      grips: [{ holding: 'H2', out: '6' }],
      measured: ['L3'],
    };
    const items = settledItems({ ...shaft, pins }, firstLathe);
    expect(items.map(({ where }) => where)).toEqual([
      'pins.part_off',
      'pins.faces[0]',
      'pins.grips[0]',
      'pins.measured[0]',
    ]);
    const after = items.map(({ letGo: change }) => done({ ...shaft, pins }, change).pins);
    expect(after.map((left) => Object.keys(left ?? {}).length)).toEqual([3, 3, 3, 3]);
  });

  test('what stands in the way is let go with its own button', async () => {
    const { after, user } = show({ ...shaft, pins: { bar: '1/4', first: 'A' } });
    expect(screen.queryByRole('button', { name: /^Let go of “End at/ })).toBeNull();
    await user.click(screen.getByRole('button', { name: 'Let go of “Bar, in: 1/4”' }));
    expect(after().pins).toEqual({ first: 'A' });
  });

  test('a pin on what is gone is still shown', () => {
    const fields = pinFields({ ...shaft, pins: { blade: 'T99' } }, firstLathe);
    expect(fields.find((f) => f.key === 'blade')?.choices.at(-1)?.words).toBe('T99 (not there)');
  });

  test('where it makes a plan impossible, the reason is said and all is let go with one button', async () => {
    const { after, user } = show({ ...shaft, pins: { bar: '1/4', centre: true } });
    expect(screen.getByRole('heading', { name: 'No plan yet' })).toBeVisible();
    expect(screen.getByText(/settled, 1\/4, is smaller than the largest diameter/)).toBeVisible();
    await user.click(screen.getByRole('button', { name: 'Let the planner choose again' }));
    expect(after().pins).toBeUndefined();
  });
});

describe('a way that was left', () => {
  const plan = planned.plan;
  if (!plan) throw new Error('the example has no plan');
  const ways = plan.rejected.map(({ way, why, pins }) => ({
    way,
    pins: pins ?? {},
    possible: /^It (can be done, but|is as good)/.test(why),
  }));

  test('is possible, or is not, and the example has both', () => {
    expect(new Set(ways.map((w) => w.possible))).toEqual(new Set([true, false]));
  });

  test.each(ways)(
    'is planned when asked for if it is said to be possible, else refused: $way',
    ({ way, pins, possible }) => {
      const { plan: made, errors } = report(done(shaft, planThisWay(shaft, pins)), firstLathe);
      expect(made?.way?.name).toBe(possible ? way : undefined);
      expect(errors.length > 0).toBe(!possible);
    },
  );

  test('takes the place of another that was settled before, with its split and its grips', () => {
    const pins = { way: 'both-ends', split: 'D', grips: [{ holding: 'H3', out: '1' }], bar: '1' } as const;
    const before: Part = { ...shaft, pins: { ...pins, grips: [...pins.grips] } };
    const after = done(before, planThisWay(before, { way: 'centres', first: 'A', seat: 'mouth' }));
    expect(after.pins).toEqual({ way: 'centres', first: 'A', seat: 'mouth', bar: '1' });
  });

  test('is asked for with a button, in one step', async () => {
    const { onedit, after, user } = show(shaft);
    const [first] = screen.getAllByRole('button', { name: /^Plan it this way/ });
    if (first) await user.click(first);
    expect(onedit).toHaveBeenCalledOnce();
    expect(after().pins).toEqual({ way: 'centres', first: 'A', seat: 'mouth' });
    expect(done(after(), letGo(after()))).toEqual(shaft);
  });
});
