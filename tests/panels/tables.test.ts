import { render, screen, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { expect, test, vi } from 'vitest';
import type { Part, Segment } from '../../src/core/part/types.ts';
import { seatFeel } from '../../src/core/standards/bearing-seats.ts';
import TextField from '../../src/panels/draw/TextField.svelte';
import { besideFit, besideTaper, besideThread } from '../../src/panels/tables/beside.ts';
import { completedFrom } from '../../src/panels/tables/completing-later.ts';
import { shaftClasses, shaftSizes, tapers, threads } from '../../src/panels/tables/completions.ts';
import { cellText } from '../../src/panels/tables/table.ts';
import { find, tables } from '../../src/panels/tables/search.ts';
import TablesPage from '../../src/panels/tables/TablesPage.svelte';
import { example } from './examples.ts';

Element.prototype.scrollIntoView = () => undefined;

const typing = () => {
  const ontake = vi.fn();
  render(TextField, { value: '', label: 'Thread', ontake, complete: threads });
  return { ontake, user: userEvent.setup(), field: screen.getByRole('combobox', { name: 'Thread' }) };
};

test('the list follows the typing and changes nothing by itself', async () => {
  const { ontake, user, field } = typing();
  await user.type(field, '5/16');
  expect(screen.getAllByRole('option').map(({ textContent }) => textContent)).toHaveLength(3);
  expect(field).toHaveValue('5/16');
  expect(field).not.toHaveAttribute('aria-activedescendant');
  await user.keyboard('{Enter}');
  expect(ontake).toHaveBeenCalledWith('5/16');
});

test('arrows choose, Enter takes, Esc closes the list before it leaves the field', async () => {
  const { ontake, user, field } = typing();
  await user.type(field, '5/16{ArrowDown}{ArrowDown}');
  const option = screen.getByRole('option', { name: /5\/16-24 UNF/ });
  expect(option).toHaveAttribute('aria-selected', 'true');
  expect(field).toHaveAttribute('aria-activedescendant', option.id);
  await user.keyboard('{Escape}');
  expect(field).toHaveValue('5/16');
  expect(field).toHaveAttribute('aria-expanded', 'false');
  await user.keyboard('{ArrowDown}{ArrowDown}{Enter}');
  expect(field).toHaveValue('5/16-24 UNF');
  expect(ontake).toHaveBeenLastCalledWith('5/16-24 UNF');
});

test('classes come behind a size or alone, and not where figures are written', () => {
  expect(shaftClasses('k').map(({ text }) => text)).toContain('k5');
  expect(shaftClasses('±.00')).toEqual([]);
  expect(shaftSizes('12 k')[0]?.text).toBe('12 k5');
  expect(shaftSizes('1/2 in')).toEqual([]);
});

// Morse 2: .59941 in per foot, as published tables of Morse tapers print it.
test('a taper by its name is written the way the field wants it', () => {
  expect(tapers('per_foot')('MT2')[0]).toEqual({ text: '0.59941', hint: 'Morse 2' });
  expect(tapers('ratio')('Morse 2')[0]?.text).toBe('0.59941:12');
});

// 5/16-24 UNF-2A: major .3042 to .3114, tap drill I (ASME B1.1 tables; drill charts).
test('beside a thread', () => {
  const { brief } = besideThread('5/16-24', 'in') ?? { brief: '' };
  for (const figure of ['.3042 to .3114', '24 to the inch', 'tap drill I']) expect(brief).toContain(figure);
  expect(besideThread('5/16-20', 'in')).toBeNull();
});

// ISO 286: 12 k6 is +12/+1 µm; H7 of 12 is 0/+18. "Light tap": common practice, no source.
test('beside a fit', () => {
  const segment = {
    id: 's1',
    form: 'cylinder',
    diameter: { size: '12', tol: 'k6' },
    mate: { bore: '12 H7' },
  } as const;
  const row = { segment: 's1', end: null, min_mm: 12.001, max_mm: 12.012, aim_mm: null };
  const fit = { clearance_min_mm: -0.012, clearance_max_mm: 0.017 };
  const { brief } = besideFit(segment, [{ ...row, fit }], 'mm', 'mm') ?? { brief: '' };
  for (const words of ['+0.012, +0.001', 'light tap in H7', 'from 0.012 tight to 0.017 free'])
    expect(brief).toContain(words);
});

// 6000: bore 10 mm, 0/-8 µm; k5 of 10 is +7/+1 µm (ISO 286, ISO 492). How it goes on: common practice, no source.
test('beside a seat of a bearing, in words that say they are ours', () => {
  const segment = {
    id: 's1',
    form: 'cylinder',
    diameter: { size: '10', tol: 'k5' },
    mate: { bearing: '6000' },
  } as const;
  const said = besideFit(segment, [], 'mm', 'mm');
  expect(said?.brief).toContain('tapped on by the inner ring, or warmed');
  const names = said?.entries[0]?.facts.map(({ name }) => name);
  expect(names).toContain('feel (our own words: common practice, no source)');
  expect([seatFeel('k9'), seatFeel('H7'), seatFeel('12')]).toEqual([null, null, null]);
});

test('every size on the board that has a table is completed from it', () => {
  const part = example('blower-shaft').part;
  const segment = (id: string, form: Segment) => ({ ...part, segments: [{ ...form, id }] });
  const from = (of: Segment, end: 'start' | 'angle' = 'start') =>
    completedFrom(segment('s', of), { kind: 'segment', id: 's', end });
  expect(from({ id: 's', form: 'cylinder', diameter: '12' })).toBe('shaftSizes');
  expect(from({ id: 's', form: 'thread', thread: 'M6' })).toBe('threads');
  expect(from({ id: 's', form: 'taper', per_foot: '.6' }, 'angle')).toBe('per_foot');
  expect(from({ id: 's', form: 'taper', per_foot: '.6' })).toBe('shaftSizes');
  const holes: Part['holes'] = [
    { id: 'h1', from: 'A', form: 'tap', thread: 'M5', depth: '10' },
    { id: 'h2', from: 'A', form: 'centre', size: '#2' },
    { id: 'h3', from: 'A', form: 'bore', diameter: '12', depth: '10' },
  ];
  const inHole = (id: string, field: string) =>
    completedFrom({ ...part, holes }, { kind: 'hole', id, field });
  expect([inHole('h1', 'thread'), inHole('h2', 'size'), inHole('h3', 'diameter')]).toEqual([
    ...['threads', 'centreDrills', 'holeSizes'],
  ]);
  expect([inHole('h3', 'depth'), completedFrom(part, { kind: 'length', id: 'L1' })]).toEqual([null, null]);
});

// 1:10: whole angle 2 atan(1/20) = 5.7248°, half 2.8624°, 1.2 in per foot; by hand.
test('beside a taper', () => {
  const { brief } = besideTaper({ id: 's1', form: 'taper', ratio: '1:10' }) ?? { brief: '' };
  for (const words of ['2.862°', '5.725°', '1.2000 in per foot']) expect(brief).toContain(words);
});

const cell = (id: string, row: string, column: string) => {
  const table = tables.find((each) => each.id === id);
  const at = table?.columns.indexOf(column) ?? -1;
  const cells = table?.rows.find(
    ({ cells: [name] }) => name !== undefined && cellText(name, 'mm') === row,
  )?.cells;
  return cellText(cells?.[at] ?? null, 'mm');
};

// ISO 286 over 10 to 18 mm: h6 is 0/-11, H7 +18/0, s6 over 50 to 65 mm +72/+53 µm; ISO 2768-m to 30 mm: 0.2.
test('tables hold what is published', () => {
  expect(cell('shafts', '18', 'h6')).toBe('0 −0.011');
  expect(cell('holes', '18', 'H7')).toBe('+0.018 0');
  expect(cell('shafts', '65', 's6')).toBe('+0.072 +0.053');
  expect(cell('general-lengths', '30', 'medium m')).toBe('0.2');
  for (const { origins, rows, name } of tables) {
    expect(origins.length, name).toBeGreaterThan(0);
    expect(rows.length, name).toBeGreaterThan(0);
  }
});

test('the page finds, says what is near, and Esc leaves it', async () => {
  const onleave = vi.fn();
  render(TablesPage, { unit: 'in', onleave });
  const user = userEvent.setup();
  await user.type(screen.getByRole('searchbox', { name: 'Look up' }), '5/16-20');
  expect(screen.getByText(/nothing for/)).toHaveTextContent(/5\/16-24/);
  await user.clear(screen.getByRole('searchbox'));
  await user.click(screen.getByRole('button', { name: 'Tapers' }));
  const row = within(screen.getByRole('table')).getByRole('row', { name: /Morse 2/ });
  expect(row).toHaveTextContent('1.4307°');
  await user.keyboard('{Escape}');
  expect(onleave).toHaveBeenCalled();
});

test('words find whole tables and materials', () => {
  expect(find('keyseat', 'mm').tables.map(({ id }) => id)).toEqual(['keys-metric', 'keys-inch']);
  expect(find('brass', 'mm').entries.map(({ kind }) => kind)).toContain('material');
  expect(find('k6', 'mm').tables[0]?.name).toBe('k6 at all sizes');
});
