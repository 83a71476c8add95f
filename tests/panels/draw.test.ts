import { render, screen, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { describe, expect, test, vi } from 'vitest';
import type { Transaction } from '../../src/core/part/edit.ts';
import type { Part } from '../../src/core/part/types.ts';
import { draftReport } from '../../src/core/draft-report.ts';
import { PartDocument } from '../../src/keep/document.svelte.ts';
import { blankPart } from '../../src/panels/blank-part.ts';
import DrawPanel from '../../src/panels/draw/DrawPanel.svelte';
import type { Choice } from '../../src/board/choice.ts';
import { example } from './examples.ts';
import { pin } from './pin.ts';

// jsdom lays nothing out, so that it has no scrolling either.
Element.prototype.scrollIntoView = () => undefined;

/** The Draw place over a real document, as the app has it. */
function draw(part: Part) {
  const document = new PartDocument(part, (now) => draftReport(now));
  let chosen: Choice | null = null;
  const onlight = vi.fn();
  const props = () => ({ part: document.part, report: document.report, unit: part.unit, chosen, onlight });
  const view = render(DrawPanel, {
    ...props(),
    onedit: (change: Transaction) => {
      document.do(change);
      void view.rerender(props());
    },
    onchoose: (choice: Choice | null) => {
      chosen = choice;
      void view.rerender(props());
    },
  });
  const undo = async () => {
    document.undo();
    await view.rerender(props());
  };
  return { document, onlight, undo, user: userEvent.setup() };
}
/** Fields that complete from the tables are comboboxes, the others plain ones. */
const field = (name: string) =>
  screen.queryByRole('textbox', { name }) ?? screen.getByRole('combobox', { name });

describe('the tables of Draw', () => {
  test('a length typed in place is one step with a name', async () => {
    const { document, user } = draw(pin);
    await user.clear(field('Length B to C'));
    await user.type(field('Length B to C'), '1 5/8{Enter}');
    expect(document.part.lengths[1]?.size).toBe('1 5/8');
    expect(document.history.steps.map(({ did }) => did)).toEqual(['Length B–C to 1 5/8']);
  });

  test('what cannot be read stays as typed, with the reason beside it', async () => {
    const { document, user } = draw(pin);
    await user.clear(field('Length B to C'));
    await user.type(field('Length B to C'), '5/0{Enter}');
    expect(field('Length B to C')).toHaveValue('5/0');
    expect(field('Length B to C')).toBeInvalid();
    expect(field('Length B to C')).toHaveAccessibleDescription(/5\/0/);
    expect(document.part.lengths[1]?.size).toBe('5/0');
    document.undo();
    expect(document.part).toEqual(pin);
  });

  test('Escape keeps the old text', async () => {
    const { document, user } = draw(pin);
    await user.clear(field('Length B to C'));
    await user.type(field('Length B to C'), '9{Escape}{Enter}');
    expect(field('Length B to C')).toHaveValue('.750');
    expect(document.part).toBe(pin);
  });

  test('diameters, tolerances and forms are changed in the row of their station', async () => {
    const { document, user } = draw(pin);
    await user.clear(field('Diameter to the right of A'));
    await user.type(field('Diameter to the right of A'), '.375 h6{Enter}');
    await user.clear(field('Tolerance of the diameter to the right of B'));
    await user.tab();
    await user.selectOptions(screen.getByRole('combobox', { name: 'Form to the right of C' }), 'thread');
    await user.type(field('Thread to the right of C'), 'M6x1{Enter}');
    expect(document.part.segments).toEqual([
      { id: 's1', form: 'cylinder', diameter: '.375 h6' },
      { id: 's2', form: 'cylinder', diameter: { size: '.5000' } },
      { id: 's3', form: 'thread', thread: 'M6x1' },
    ]);
  });

  test('a shaft is drawn from nothing with the keyboard alone, and closes', async () => {
    const { document, user } = draw(blankPart('in'));
    expect(screen.getByText(/Type the diameter and the length/)).toBeVisible();
    await user.click(field('Diameter of the next segment'));
    for (const [size, length] of [
      ['3/8', '1/2'],
      ['.500', '3/4'],
      ['3/8', '1/4'],
    ] as const) {
      await user.keyboard(`${size}{Tab}${length}{Enter}`);
    }
    expect(document.part.faces.map(({ id }) => id)).toEqual(['A', 'B', 'C', 'D']);
    expect(document.report.chains.state).toBe('closed');
    expect(document.history.steps).toHaveLength(3);
  });

  test('a segment that cannot be read is not added, and what was typed stays', async () => {
    const { document, user } = draw(blankPart('in'));
    await user.type(field('Diameter of the next segment'), '1..5{Enter}');
    expect(document.part.segments).toEqual([]);
    expect(field('Diameter of the next segment')).toHaveValue('1..5');
    expect(screen.getByText(/Not added/)).toBeVisible();
  });

  test('a length is added where the chains are open, without choosing the ends', async () => {
    const { part } = example('idler-axle-open');
    const { document, user } = draw(part);
    await user.type(field('Size of the new length'), '36{Enter}');
    expect(document.part.lengths.at(-1)).toMatchObject({ from: 'C', to: 'D', size: '36' });
    expect(document.report.chains.state).toBe('closed');
  });

  test('a reference is bracketed, a length deleted, each undone exactly', async () => {
    const { document, user } = draw(pin);
    await user.click(screen.getByRole('checkbox', { name: 'A to B is a reference that binds nothing' }));
    expect(document.part.lengths[0]).toMatchObject({ role: 'reference' });
    await user.click(screen.getByRole('button', { name: 'Delete length C to D' }));
    expect(document.part.lengths).toHaveLength(2);
    document.undo();
    document.undo();
    expect(document.part).toEqual(pin);
  });

  test('the example tells edges, holes and crossings in words', () => {
    draw(example('blower-shaft').part);
    const table = screen.getAllByRole('table')[0];
    const text = table?.textContent ?? '';
    expect(text).toContain('chamfer 1/64 at 45° on its right side');
    expect(text).toContain('tapped M5x0.8-6H, 3/8 deep, drilled 1/2 deep');
    expect(text).toContain('cross hole 1/16, to the axis, at 0°');
    expect(text).toContain('keyseat 1/8 wide, .070 deep, to k2, at 90°');
    expect(text).toContain('journal in bearing 6000');
  });

  test('edges, holes, points and crossings are added, changed and deleted', async () => {
    const { document, user } = draw(pin);
    await user.click(screen.getByRole('button', { name: 'More about station A' }));
    await user.click(screen.getByRole('button', { name: 'chamfer' }));
    const chamfer = screen.getByRole('group', { name: 'chamfer' });
    await user.clear(within(chamfer).getByLabelText('along the axis'));
    await user.type(within(chamfer).getByLabelText('along the axis'), '1/32{Enter}');
    await user.click(screen.getByRole('button', { name: 'drilled hole' }));
    const hole = screen.getByRole('group', { name: 'drilled hole' });
    await user.clear(within(hole).getByLabelText(/^depth/));
    await user.type(within(hole).getByLabelText(/^depth/), 'through{Enter}');
    expect(document.part.edges).toEqual([
      expect.objectContaining({ face: 'A', side: 'right', form: 'chamfer', size: '1/32', angle: '45°' }),
    ]);
    expect(document.part.holes[0]).toMatchObject({ from: 'A', form: 'drill', through: true });
    expect(document.part.holes[0]).not.toHaveProperty('depth');

    await user.click(screen.getByRole('button', { name: 'point' }));
    await user.click(screen.getByRole('button', { name: 'More about station P1' }));
    await user.click(screen.getByRole('button', { name: 'cross hole' }));
    expect(document.part.crossings[0]).toMatchObject({ at: 'P1', form: 'hole', reaches: 'axis' });
    await user.click(screen.getByRole('button', { name: 'Delete point P1' }));
    expect(document.part.crossings).toEqual([]);
    while (document.undo() !== null);
    expect(document.part).toEqual(pin);
  });

  test('a segment is split and deleted', async () => {
    const { document, user } = draw(pin);
    await user.click(screen.getByRole('button', { name: 'More about station B' }));
    await user.click(screen.getByRole('button', { name: 'split' }));
    expect(document.part.segments).toHaveLength(4);
    await user.click(screen.getByRole('button', { name: 'Delete segment s2' }));
    expect(document.part.segments).toHaveLength(3);
  });

  test('the row of a station has every deed of the board, by the keyboard alone', async () => {
    const { document, undo, user } = draw(pin);
    const forms = () => document.part.segments.map((s) => (s.form === 'cylinder' ? s.diameter : s.form));
    const before = forms();
    const press = async (name: string, at = 'What can be done at B') => {
      within(screen.getByRole('group', { name: at }))
        .getByRole('button', { name })
        .focus();
      await user.keyboard('{Enter}');
    };
    screen.getByRole('button', { name: 'More about station B' }).focus();
    await user.keyboard('{Enter}');
    await press('swap with the next');
    expect(forms()).toEqual([before[0], before[2], before[1]]);
    await undo();
    await press('join with the next');
    expect(forms()).toHaveLength(2);
    await undo();
    await press('duplicate');
    expect(forms()).toEqual([before[0], before[1], before[1], before[2]]);
    await undo();
    await press('repeat …');
    await user.type(screen.getByLabelText('at a pitch of'), '1 1/2{Enter}');
    expect(document.part.lengths.filter(({ size }) => size === '1 1/2')).toHaveLength(2);
    await undo();
    await press('groove');
    expect(forms()).toHaveLength(5);
    await undo();
    await press('fillet', 'left of B');
    expect(document.part.edges.at(-1)).toMatchObject({ face: 'B', side: 'left', form: 'fillet' });
    await undo();
    await press('turn round', 'What can be done to the part');
    expect(document.part.faces.map(({ id }) => id)).toEqual(['D', 'C', 'B', 'A']);
  });

  test('requirements and the title block are edited in place', async () => {
    const { document, user } = draw(pin);
    await user.click(screen.getByRole('button', { name: 'Add a requirement' }));
    await user.type(screen.getByLabelText('at least'), '1.49{Enter}');
    await user.type(screen.getByLabelText('at most'), '1.51{Enter}');
    await user.clear(field('Title'));
    await user.type(field('Title'), 'Gate pin{Enter}');
    await user.selectOptions(screen.getByRole('combobox', { name: 'Rule for lengths' }), 'iso2768');
    expect(document.part.requirements[0]).toMatchObject({ from: 'A', to: 'D', min: '1.49', max: '1.51' });
    expect(document.part.title).toBe('Gate pin');
    expect(document.part.general?.lengths).toEqual({ rule: 'iso2768', class: 'm' });
  });

  test('going over a row lights it on the board', async () => {
    const { onlight, user } = draw(pin);
    await user.click(field('Length B to C'));
    expect(onlight).toHaveBeenCalledWith(['L2']);
  });
});
