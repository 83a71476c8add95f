import { render, screen, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { beforeEach, describe, expect, test, vi } from 'vitest';
import { firstLathe } from '../../src/core/part/first-lathe.ts';
import type { Lathe } from '../../src/core/part/lathe.ts';
import { metricLathe } from '../../src/core/part/metric-lathe.ts';
import { Settings } from '../../src/keep/settings.svelte.ts';
import LatheChoice from '../../src/panels/LatheChoice.svelte';
import { freeName, keptLathes, keptWith, keptWithout, ownName } from '../../src/panels/lathe/kept-lathes.ts';
import {
  latheErrors,
  newTool,
  readSpeeds,
  withAtHand,
  writeSpeeds,
} from '../../src/panels/lathe/lathe-fields.ts';

const own: Lathe = { ...firstLathe, name: 'shed lathe' };
const show = (lathe: Lathe, lathes: readonly string[] = []) => {
  const calls = {
    onlathe: vi.fn<(lathe: Lathe) => void>(),
    onlathes: vi.fn<(texts: readonly string[]) => void>(),
    onopen: vi.fn(),
  };
  render(LatheChoice, { lathe, lathes, ...calls });
  return { ...calls, user: userEvent.setup() };
};

beforeEach(() => localStorage.clear());

describe('several lathes by name', () => {
  test('are kept over a visit, each name once', () => {
    const texts = keptWith(keptWith([], own), { ...own, swing: '9' });
    new Settings(localStorage).choose({ lathes: texts });
    const kept = keptLathes(new Settings(localStorage).lathes);
    expect(kept.map(({ name, swing }) => [name, swing])).toEqual([['shed lathe', '9']]);
    expect(keptWithout(texts, 'shed lathe')).toEqual([]);
  });

  test('one under a new name makes way for its old one, in its place', () => {
    const texts = keptWith(keptWith([], own), { ...own, name: 'other' });
    const named = keptLathes(keptWith(texts, { ...own, name: 'barn lathe' }, 'shed lathe'));
    expect(named.map(({ name }) => name)).toEqual(['barn lathe', 'other']);
  });

  test("the app's own stay as they are: another lathe of the same name gets a name of its own", () => {
    expect(keptWith([], firstLathe)).toEqual([]);
    expect(ownName(firstLathe, [])).toBe(firstLathe);
    expect(ownName({ ...firstLathe, swing: '9' }, []).name).toBe('bench lathe 2');
    expect(freeName('a', ['a', 'a 2'])).toBe('a 3');
  });

  test('damaged texts are passed over', () => {
    expect(keptLathes(['{', '{"shaftwright_lathe":1}', JSON.stringify(own)])).toEqual([own]);
  });
});

describe('the form of a lathe', () => {
  test('copies the first lathe under a name of its own, and keeps what is changed', async () => {
    const { onlathe, onlathes, user } = show(firstLathe);
    expect(screen.queryByRole('button', { name: 'Change it' })).toBeNull();
    await user.click(screen.getByRole('button', { name: 'Make a copy to change' }));
    const swing = screen.getByRole('textbox', { name: 'Swing over the bed' });
    await user.clear(swing);
    await user.type(swing, '9');
    await user.click(screen.getByRole('button', { name: 'Keep this lathe' }));
    const expected = { ...firstLathe, name: 'bench lathe copy', swing: '9' };
    expect(onlathe).toHaveBeenCalledWith(expected);
    expect(keptLathes(onlathes.mock.lastCall?.[0] ?? [])).toEqual([expected]);
  });

  test('says what is wrong at its field, and keeps nothing until it is put right', async () => {
    const { onlathe, user } = show(own, keptWith([], own));
    await user.click(screen.getByRole('button', { name: 'Change it' }));
    const bore = screen.getByRole('textbox', { name: 'Spindle bore' });
    await user.clear(bore);
    await user.type(bore, '13//16');
    expect(bore).toBeInvalid();
    expect(bore).toHaveAccessibleDescription(/Not so/);
    expect(screen.getByRole('button', { name: 'Keep this lathe' })).toBeDisabled();
    await user.keyboard('{Enter}');
    expect(onlathe).not.toHaveBeenCalled();
  });

  test('the name of another lathe is refused', async () => {
    const { user } = show(own, keptWith([], own));
    await user.click(screen.getByRole('button', { name: 'Change it' }));
    const name = screen.getAllByRole('textbox', { name: 'Name' })[0];
    if (name) await user.clear(name);
    if (name) await user.type(name, metricLathe.name);
    expect(name).toHaveAccessibleDescription(/name of another lathe/);
  });

  test('tools come and go, a new blade wants its width and reach', async () => {
    const { onlathe, user } = show(own, keptWith([], own));
    await user.click(screen.getByRole('button', { name: 'Change it' }));
    await user.click(screen.getByRole('button', { name: 'Take away tool T5' }));
    await user.selectOptions(screen.getByRole('combobox', { name: 'Another tool' }), 'blade');
    await user.click(screen.getByRole('button', { name: 'Add it' }));
    const group = screen.getByRole('group', { name: 'Tool T5, blade' });
    expect(within(group).getByRole('textbox', { name: 'Width' })).toBeInvalid();
    await user.type(within(group).getByRole('textbox', { name: 'Width' }), '.0625');
    await user.type(within(group).getByRole('textbox', { name: 'Reach' }), '3/8');
    await user.click(screen.getByRole('button', { name: 'Keep this lathe' }));
    expect(onlathe.mock.lastCall?.[0].tools.at(-1)).toEqual({
      id: 'T5',
      kind: 'blade',
      width: '.0625',
      reach: '3/8',
      edge: 'left',
    });
  });

  test('every device and every tool has a drawing of it, by its hand and its touched edge', async () => {
    const { user } = show(own, keptWith([], own));
    await user.click(screen.getByRole('button', { name: 'Change it' }));
    for (const drawn of [/^Headstock at the left, tailstock at the right: swing/, /^A collet/, /^A chuck/])
      expect(screen.getByRole('img', { name: drawn })).toBeVisible();
    const tool = within(screen.getByRole('group', { name: 'Tool T1, turning' }));
    expect(tool.getByRole('img', { name: /^A right-hand tool/ })).toBeVisible();
    await user.selectOptions(tool.getByRole('combobox', { name: 'Hand' }), 'left');
    expect(tool.getByRole('img', { name: /^A left-hand tool/ })).toBeVisible();
    const blade = within(screen.getByRole('group', { name: 'Tool T3, blade' }));
    expect(blade.getByRole('img', { name: /by its headstock edge/ })).toBeVisible();
    await user.selectOptions(blade.getByRole('combobox', { name: 'Touched off by' }), 'tailstock edge');
    expect(blade.getByRole('img', { name: /by its tailstock edge/ })).toBeVisible();
  });

  test('taps, dies and drills at hand are typed as lists; emptied, nothing is known of them', async () => {
    const { onlathe, user } = show(own, keptWith([], own));
    await user.click(screen.getByRole('button', { name: 'Change it' }));
    await user.type(screen.getByRole('textbox', { name: 'Taps' }), 'M5x0.8, 10-32');
    await user.clear(screen.getByRole('textbox', { name: /^Drills/ }));
    await user.click(screen.getByRole('button', { name: 'Keep this lathe' }));
    expect(onlathe.mock.lastCall?.[0].at_hand).toEqual({ taps: ['M5x0.8', '10-32'] });
    expect(withAtHand({ ...own, at_hand: { dies: ['M6x1'] } }, 'dies', ' ')).not.toHaveProperty('at_hand');
    expect(withAtHand(own, 'drills', 'all').at_hand).toEqual({ drills: 'all' });
  });

  test('both lathes of the app and a new tool of each kind are as they should be', () => {
    expect(latheErrors(firstLathe, [])).toEqual([]);
    expect(latheErrors(metricLathe, [])).toEqual([]);
    expect(latheErrors({ ...own, tools: [newTool('blade', [])] }, []).map((e) => e.where)).toEqual([
      'tools[0].width',
      'tools[0].reach',
    ]);
  });

  test.each([
    ['125, 210', [125, 210]],
    ['100 to 2500', { min: 100, max: 2500 }],
    ['100-2500', { min: 100, max: 2500 }],
    ['', null],
    ['fast', null],
    ['100, x', null],
  ])('speeds typed as %j', (text, speeds) => {
    const read = readSpeeds(text);
    expect(read).toEqual(speeds);
    if (read) expect(readSpeeds(writeSpeeds(read))).toEqual(read);
  });

  test('an own lathe is forgotten, the first one is there again', async () => {
    const { onlathe, onlathes, user } = show(own, keptWith([], own));
    await user.click(screen.getByRole('button', { name: 'Forget it' }));
    expect(onlathes).toHaveBeenCalledWith([]);
    expect(onlathe).toHaveBeenCalledWith(firstLathe);
  });
});
