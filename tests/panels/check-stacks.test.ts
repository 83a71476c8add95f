import { render, screen, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { describe, expect, test, vi } from 'vitest';
import { pm } from '../../src/core/lengths/length.ts';
import { applyAll, type Transaction } from '../../src/core/part/edit.ts';
import { firstLathe } from '../../src/core/part/first-lathe.ts';
import { resolvePart } from '../../src/core/part/resolve.ts';
import type { Part } from '../../src/core/part/types.ts';
import { draftReport } from '../../src/core/draft-report.ts';
import { proofSides } from '../../src/panels/check/loop-view.ts';
import { picked } from '../../src/panels/check/pick.ts';
import { writtenLimits } from '../../src/panels/check/proposals.ts';
import { showShare } from '../../src/panels/check/share-words.ts';
import { freshStackView } from '../../src/panels/check/stack-ends.ts';
import CheckPanel from '../../src/panels/CheckPanel.svelte';
import { example } from './examples.ts';

function check(part: Part) {
  const edits: Transaction[] = [];
  const onlight = vi.fn();
  const of = (now: Part) => ({ part: now, report: draftReport(now) });
  const { rerender } = render(CheckPanel, {
    ...{ ...of(part), lathe: firstLathe, chosen: null, unit: part.unit, onlight },
    onedit: (change: Transaction) => {
      edits.push(change);
      void rerender(of(edits.reduce(applyAll, part)));
    },
  });
  return { edits, after: () => edits.reduce(applyAll, part), onlight, user: userEvent.setup() };
}
const blower = example('blower-shaft').part;
const winch = example('winch-spindle-clash').part;
const sized = (part: Part, sizes: Record<string, string>): Part => ({
  ...part,
  lengths: part.lengths.map((length) => ({ ...length, size: sizes[length.id] ?? length.size })),
});
const chainsOf = (part: Part) => draftReport(part).chains;
const rowOf = (name: RegExp) =>
  within(screen.getByRole('region', { name: 'Between any two stations' })).getByRole('row', { name });

describe('loops', () => {
  test('a doubled length is bracketed as advised, in one step', async () => {
    const { edits, after, user } = check(sized(winch, { L2: '.356' }));
    const [button] = screen.getAllByRole('button', { name: /^Bracket L\d$/ });
    if (button) await user.click(button);
    expect(edits).toHaveLength(1);
    expect(chainsOf(after()).doubled).toHaveLength(1);
  });

  test('several misreads are put right together, in one step', async () => {
    const more = [
      { id: 'L7', from: 'B', to: 'E', size: '2.481' },
      { id: 'L8', from: 'A', to: 'E', size: '3.231' },
    ];
    const part = sized(winch, { L4: '2.660' });
    const { edits, after, user } = check({ ...part, lengths: [...part.lengths, ...more] });
    await user.click(screen.getByRole('button', { name: 'Make L2 .356, L4 2.606' }));
    expect(edits).toHaveLength(1);
    expect(chainsOf(after()).clashes).toEqual([]);
  });

  test('the focus lights a row on the board as well as the pointer', async () => {
    const { onlight } = check(winch);
    screen.getByRole('button', { name: 'L2, L3, L6' }).focus();
    expect(onlight).toHaveBeenLastCalledWith(['L2', 'L3', 'L6']);
    screen.getByRole('button', { name: 'L2, L3, L6' }).blur();
    expect(onlight).toHaveBeenLastCalledWith([]);
  });

  // 3/4 ±1/64 and 1.856 ±.005 reach 2.626625 at most, 2.660 ±.005 is 2.655 at least: by hand .028375 short.
  test('the proof adds up both ways round', () => {
    const part = sized(winch, { L4: '2.660' });
    const impossible = chainsOf(part).impossible;
    const sides = impossible && proofSides(resolvePart(part), impossible);
    expect(sides?.most.map(({ id }) => id)).toEqual(['L1', 'L6']);
    expect(sides?.least.map(({ id }) => id)).toEqual(['L4']);
    expect(sides?.mostSum).toBe(Math.round(2.626625 * 25.4e9));
    expect(sides?.leastSum).toBe(Math.round(2.655 * 25.4e9));
  });

  test('the proof by the order of the faces says so', () => {
    // B to D is less than B to C alone, and D lies right of C.
    const bare = { ...winch, lengths: winch.lengths.filter(({ id }) => id === 'L2' || id === 'L6') };
    const part = sized(bare, { L2: '1.5', L6: '1.000' });
    const impossible = chainsOf(part).impossible;
    const sides = impossible && proofSides(resolvePart(part), impossible);
    expect(sides?.least.map(({ id, from, to }) => id ?? `${from} ${to}`).sort()).toEqual(['C D', 'L2']);
    expect(sides?.most.map(({ id }) => id)).toEqual(['L6']);
  });
});

describe('stacks', () => {
  // 9 mm +0/-.15 mm, 1.0875 ±.003 in and 7/16 ±1/64 in, by hand: mid-limits 1.876378 in, halves .002953, .003, .015625 in:
  // worst case ±.021578, root-sum-square ±.016182.
  test('between two stations: worst case and root-sum-square', async () => {
    const { user } = check(blower);
    await user.selectOptions(screen.getByLabelText('Stack from'), 'A');
    await user.selectOptions(screen.getByLabelText('Stack to'), 'G');
    expect(rowOf(/worst case/)).toHaveTextContent(/1\.8548\s*1\.8980/);
    expect(rowOf(/root-sum-square/)).toHaveTextContent(/1\.8602\s*1\.8926/);
  });

  test('how a length falls moves what most parts keep to', async () => {
    const { user, after } = check(blower);
    // An edit draws the panel afresh here, and what was picked is forgotten.
    const fall = async (words: string) => {
      for (let turn = 0; turn < 2; turn++) {
        await user.selectOptions(screen.getByLabelText('Stack from'), 'F');
        await user.selectOptions(screen.getByLabelText('Stack to'), 'G');
        const select = screen.getByLabelText('How L6 falls');
        if (within(select).getByRole<HTMLOptionElement>('option', { name: words, hidden: true }).selected)
          return;
        await user.selectOptions(select, words);
      }
    };
    await fall('anywhere alike');
    // Even over 7/16 ±1/64: 99.73 % of it is ±.0155828 about .4375.
    expect(rowOf(/99\.73/)).toHaveTextContent(/\.4219\s*\.4531/);
    await fall('metal left on');
    // Rising from .421875: quantiles at its square roots, .421875 + .03125 √.00135 and √.99865.
    expect(rowOf(/99\.73/)).toHaveTextContent(/\.4230\s*\.4531/);
    expect(after().lengths.find(({ id }) => id === 'L6')?.falls).toBe('metal-safe');
  });

  test('the head says which requirement fails, and how many parts meet it', () => {
    check({ ...blower, requirements: [{ id: 'R1', from: 'B', to: 'H', min: '2.649', max: '2.651' }] });
    expect(screen.getByRole('heading', { level: 2 })).toHaveTextContent(/R1 is not always met\.$/);
    // 2.6500 ±.0040 normal, cut at three deviations, held to ±.0010: (2 Φ(.75) - 1) / .9973 = .5482.
    expect(screen.getByText('54.8 %')).toBeVisible();
  });

  test('limits are shared out in one step, and hold', async () => {
    const { edits, after, user } = check(blower);
    await user.click(screen.getByRole('button', { name: 'Write these limits to the drawing' }));
    expect(edits).toHaveLength(1);
    expect(draftReport(after()).requirements.map(({ meets_worst }) => meets_worst)).toEqual([true, true]);
    expect(after().lengths.find(({ id }) => id === 'L7')?.tol).toBe('±.0050');
  });
});

describe('words and picks', () => {
  test('a share is never more than it is', () => {
    expect([1, 0.99999, 0.9996, 0.5, 0.002, 0.00001, 0].map(showShare)).toEqual([
      ...['all', 'over 99.99 %', '99.96 %', '50.0 %', '0.20 %', 'under 0.01 %', 'none'],
    ]);
  });

  test('limits are rounded toward the size', () => {
    const inch = 25.4e9;
    const about = (min: number, max: number) => ({
      min: pm(Math.round(min * inch)),
      max: pm(Math.round(max * inch)),
    });
    expect(writtenLimits(pm(inch), about(0.99701, 1.00299), 'in')).toBe('±.0029');
    expect(writtenLimits(pm(inch), about(0.998, 1.00561), 'in')).toBe('+.0056/-.0020');
    expect(writtenLimits(pm(inch), about(1, 1.00005), 'in')).toBe('+.00005/-.0000');
    expect(writtenLimits(pm(10e9), { min: pm(9.95e9), max: pm(10.05e9) }, 'mm')).toBe('±0.050');
  });

  test('what is chosen on the board becomes the ends of the stack', () => {
    const b = picked(blower, freshStackView, { kind: 'station', id: 'B' });
    expect(picked(blower, b, { kind: 'station', id: 'H' })).toMatchObject({ from: 'B', to: 'H' });
    expect(picked(blower, b, { kind: 'length', id: 'L5' })).toMatchObject({ from: 'B', to: 'F' });
    expect(picked(blower, b, { kind: 'segment', id: 'collar' })).toMatchObject({ from: 'B', to: 'C' });
    expect(picked(blower, b, { kind: 'hole', id: 'tap' })).toBe(b);
  });
});
