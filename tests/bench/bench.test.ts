import { render, screen, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { describe, expect, test } from 'vitest';
import BenchView from '../../src/bench/BenchView.svelte';
import { drawingOf } from '../../src/bench/drawing.ts';
import { pageOf, progressAt, readProgress, type Progress } from '../../src/bench/progress.ts';
import { entriesAt } from '../../src/bench/entries.ts';
import { stepsOf, wayOf } from '../../src/bench/steps.ts';
import { actualsOf } from '../../src/core/actuals/section.ts';
import { addActual, tickStep } from '../../src/core/actuals/commands.ts';
import { applyAll, type Transaction } from '../../src/core/part/edit.ts';
import { firstLathe } from '../../src/core/part/first-lathe.ts';
import type { Part } from '../../src/core/part/types.ts';
import { example } from '../panels/examples.ts';

const { part: drawn, report } = example('blower-shaft');
const { plan, diameters } = report;
if (!plan) throw new Error('the finished example has a plan');
const steps = stepsOf(plan);
const pageWhere = (kind: string, segment: string | null, pass = 1): number =>
  steps.findIndex(({ cut, name }) => cut.kind === kind && cut.segment === segment && name.pass === pass);

/** The bench with everything it hands out put back into it, as the app does. */
const bench = (at: number | null, part: Part = drawn) => {
  const state = { part, progress: at === null ? null : progressAt(steps, at), printed: 0 };
  const shown = () => ({ part: state.part, actuals: actualsOf(state.part, firstLathe, report) });
  const view = render(BenchView, {
    ...{ plan, diameters, planning: false, lathe: firstLathe, pictureOf: () => null },
    ...shown(),
    progress: state.progress,
    onprint: () => (state.printed += 1),
    oncarry: () => undefined,
    onprogress: (now: Progress) => {
      state.progress = now;
      void view.rerender({ progress: now });
    },
    onedit: (change: Transaction) => {
      state.part = applyAll(state.part, change);
      void view.rerender(shown());
    },
  });
  return { state, user: userEvent.setup() };
};
const page = (n: number) => screen.getByRole('button', { name: `Cut ${n + 1} of ${steps.length}` });
const readings = () => within(screen.getByRole('list', { name: 'Readings' }));
const button = (name: string | RegExp) => screen.getByRole('button', { name });

describe('where the work stopped', () => {
  test('pages stop at both ends; the last is the record', () => {
    expect(progressAt(steps, -1).at).toBe(0);
    expect(progressAt(steps, 999)).toEqual({ at: steps.length, step: null, pecks: 0 });
  });

  test('is found by the name of its step, whatever its number', () => {
    const later = progressAt(steps, 30);
    expect(pageOf({ ...later, at: 2 }, steps, [])).toBe(30);
    expect(pageOf({ at: 2, step: { of: 'gone', kind: 'face', pass: 1 }, pecks: 0 }, steps, [])).toBe(2);
  });

  test('without a kept page it is the first step that has no tick', () => {
    expect(pageOf(null, steps, [1, 2, 3])).toBe(3);
    expect(
      pageOf(
        null,
        steps,
        steps.map(({ cut }) => cut.n),
      ),
    ).toBe(steps.length);
  });

  test.each([null, 'x', {}, { at: '3' }, { plan: 'p', done: [1] }])('%j is no page', (kept) => {
    expect(readProgress(kept)).toBeNull();
  });
});

test('ticks and sizes leave the drawing the very same, a change of it does not', () => {
  const [first] = steps;
  if (!first) throw new Error('no steps');
  const ticked = applyAll(drawn, tickStep(drawn, first.name, 1));
  expect(drawingOf(ticked, drawn)).toBe(drawn);
  expect(drawingOf(ticked, null)).toEqual(drawn);
  expect(drawingOf({ ...ticked, title: 'Other' }, drawn)).toEqual({ ...drawn, title: 'Other' });
});

describe('the bench view', () => {
  test('every cut of the plan is a page, off-lathe work last', () => {
    const cuts = plan.holdings.reduce((sum, { cuts: { length } }) => sum + length, 0) + plan.off_lathe.length;
    expect(steps).toHaveLength(cuts);
    expect(steps.at(-1)?.holding).toBeNull();
  });

  test('ticking goes on to the next cut and stands in the part', async () => {
    const { state, user } = bench(null);
    await user.click(button('Done, tick it'));
    expect(state.part.actuals).toEqual([{ what: 'done', step: steps[0]?.name, cut: 1 }]);
    expect(page(1)).toBeVisible();
    await user.click(button('Back'));
    await user.click(button('Take the tick back'));
    expect(state.part).toEqual(drawn);
  });

  test('ticks of steps that the plan no longer has are said', () => {
    bench(0, { ...drawn, actuals: [{ what: 'done', step: { of: 'gone', kind: 'face', pass: 1 } }] });
    expect(screen.getByText('The plan has changed since you began.')).toBeVisible();
  });

  test('the list leads to any cut', async () => {
    const { user } = bench(0);
    await user.click(page(0));
    const fifth = screen.getAllByRole('listitem').flatMap((item) => [...item.querySelectorAll('button')])[4];
    if (fifth) await user.click(fifth);
    expect(page(4)).toBeVisible();
  });

  test('arrow keys turn the pages', async () => {
    const { user } = bench(0);
    await user.keyboard('{ArrowRight}{ArrowRight}{ArrowLeft}');
    expect(page(1)).toBeVisible();
  });

  test('pecks are counted one by one, with the depth of each', async () => {
    const { state, user } = bench(steps.findIndex(({ cut }) => (cut.setting?.pecks_mm?.length ?? 0) > 2));
    const pecks = within(screen.getByRole('region', { name: 'Pecks' }));
    // 3/8 in first, then 3/16 more: by hand .375 and .5625.
    expect(pecks.getByText('.375')).toBeVisible();
    await user.click(button('Peck done, flutes clear'));
    expect(await pecks.findByText(/Peck 2 of 9/)).toBeVisible();
    expect(state.progress?.pecks).toBe(1);
  });
});

describe('one thing after another', () => {
  const list = () => within(screen.getByRole('region', { name: 'One thing after another' }));

  test('a die: the turns to the end of the thread, then turned round for the last threads', async () => {
    // The nut is 1/2 in of M6x1: 12.7 mm of a pitch of 1 are 12.7 turns; three threads are 3 mm, .118 in.
    const { state, user } = bench(pageWhere('thread', 'nut'));
    expect(list().getByText(/then 12\.7 turns to the end of the thread, \.500 in/)).toBeVisible();
    await user.click(button('1 is done'));
    expect(state.progress?.pecks).toBe(1);
    const turned = list().getByText(/turn it round in its holder/);
    expect(turned).toHaveAttribute('aria-current', 'step');
    expect(turned).toHaveTextContent('the last 3 threads, .118 in');
    await user.click(button('One back'));
    expect(state.progress?.pecks).toBe(0);
  });

  test('parting off: what comes before, where to stop, and what still holds the work', () => {
    bench(steps.findIndex(({ cut }) => cut.kind === 'part-off'));
    expect(list().getByText(/the centre is backed off, the carriage locked/)).toBeVisible();
    expect(list().getByText(/Stop at X \.0790\./)).toBeVisible();
    expect(list().getByText(/A pip \.079 in thick still holds the work/)).toBeVisible();
  });

  test('a cut of one movement has none', () => {
    bench(pageWhere('finish', 'collar'));
    expect(screen.queryByRole('region', { name: 'One thing after another' })).toBeNull();
  });
});

describe('what was measured', () => {
  // X showed .4040 and the micrometer says .4035: a readout left alone is .0005 high, so .3940 is at .3945 of it.
  const measure = pageWhere('measure', 'left');

  test('a diameter shifts the readings after it, and says by how much', async () => {
    const { state, user } = bench(measure);
    await user.type(screen.getByRole('textbox', { name: 'Diameter of left' }), '.4035');
    await user.click(button('Shift the readings'));
    await user.click(button('Enter'));
    expect(state.part.actuals?.[0]).toMatchObject({
      what: 'diameter',
      of: 'left',
      text: '.4035',
      shown: '.4040',
    });
    expect(screen.getByText(/Diameter of left .4035/)).toBeVisible();
    await user.click(button('Next'));
    expect(readings().getByText('.3945')).toBeVisible();
    expect(readings().getByText('+.0005')).toBeVisible();
  });

  test('says how much to take next, in equal passes', async () => {
    // .4035 in less .3935 in, the aim as the plan writes it, is .0100 in. The aim itself, a hair over .3935, lies between
    // two counts of a readout of .0005 in, and a shaft is never cut under it: the last pass is at .3940.
    const { user } = bench(measure);
    await user.type(screen.getByRole('textbox', { name: 'Diameter of left' }), '.4035');
    await user.click(button('I set the readout'));
    await user.click(button('Enter'));
    expect(screen.getByText('.0100 in left to .3935 in')).toBeVisible();
    const passes = within(screen.getByRole('list', { name: 'Passes' }));
    expect(passes.getByText('X .3940')).toBeVisible();
  });

  test('a taper is checked by two diameters', async () => {
    // Wanted .375 to .300 in .750: slope .1. Measured .360 and .302 at .5 apart: atan(.058) = 3.3194°,
    // wanted atan(.05) = 2.8624°, so .457° shallower.
    const { user } = bench(pageWhere('taper', 'cone'));
    await user.click(screen.getByText('Check the taper'));
    const type = (name: string, text: string) => user.type(screen.getByRole('textbox', { name }), text);
    await type('Smaller diameter', '.302');
    await type('Larger diameter', '.360');
    await type('Distance between them', '.5');
    expect(screen.getByText('0.457°')).toBeVisible();
    expect(screen.getByText(/this much shallower/)).toBeVisible();
  });

  test('a readout that is set leaves the readings as planned', async () => {
    const { user } = bench(measure);
    await user.type(screen.getByRole('textbox', { name: 'Diameter of left' }), '.4035');
    await user.click(button('I set the readout'));
    await user.click(button('Enter'));
    expect(screen.getByText('X .4035')).toBeVisible();
    await user.click(button('Next'));
    expect(readings().getByText('.3940')).toBeVisible();
  });

  test('what is no size is refused, with what was typed left standing', async () => {
    const { state, user } = bench(measure);
    const field = screen.getByRole('textbox', { name: 'Diameter of left' });
    await user.type(field, '.40.35');
    await user.click(button('Enter'));
    expect(state.part).toBe(drawn);
    expect(field).toHaveValue('.40.35');
    expect(field).toHaveAttribute('aria-invalid', 'true');
  });

  test('an entry can be taken back', async () => {
    const step = steps[measure];
    if (!step) throw new Error('no such step');
    const typed = { what: 'diameter', of: 'left', text: '.4035', unit: 'in', step: step.name } as const;
    const { state, user } = bench(measure, applyAll(drawn, addActual(drawn, typed)));
    await user.click(button('Take it back'));
    expect(state.part).toEqual(drawn);
  });

  test('a face that came out elsewhere is entered from any station', async () => {
    const at = pageWhere('finish', 'collar');
    const { state, user } = bench(at);
    await user.click(button('Where face C came out'));
    await user.type(screen.getByRole('textbox', { name: 'Where face C came out, from A' }), '.4470');
    await user.click(button('Enter'));
    expect(state.part.actuals?.[0]).toMatchObject({ what: 'face', of: 'C', from: 'A', text: '.4470' });
    expect(screen.getByText(/lengths of the drawing can be kept/)).toBeVisible();
    expect(screen.getByText(/C\s+came out\s+\.00/)).toBeVisible();
    expect(readings().getByText('-.4470')).toBeVisible();
    expect(readings().getByText('-.0020')).toBeVisible();
  });

  test('a taper is checked by the band of fluid that is left', async () => {
    // Wanted .375 to .300 in .750; a band of .150 left: atan(.075 / (2 · .600)) = 3.5763°, wanted atan(.05) = 2.8624°.
    const { user } = bench(pageWhere('taper', 'cone'));
    await user.click(screen.getByText('Check the taper'));
    await user.click(button('Band of fluid'));
    await user.type(screen.getByRole('textbox', { name: 'Band left at the large end' }), '.150');
    expect(screen.getByText('0.714°')).toBeVisible();
    expect(screen.getByText(/this much shallower/)).toBeVisible();
    // No band, small end .015 too large: atan((.075 − .015) / 1.5) = 2.2906°.
    await user.clear(screen.getByRole('textbox', { name: 'Band left at the large end' }));
    await user.type(screen.getByRole('textbox', { name: 'Small end too large by' }), '.015');
    expect(screen.getByText('0.572°')).toBeVisible();
    expect(screen.getByText(/this much steeper/)).toBeVisible();
  });

  test('a taper cut below size says so, and what a dial gauge shows for the correction', async () => {
    // Small end .298 measured .5 from the large .348 at 0: aim .300 and .350, both .002 under; the angle is right.
    const { user } = bench(pageWhere('taper', 'cone'));
    await user.click(screen.getByText('Check the taper'));
    const type = (name: string, text: string) => user.type(screen.getByRole('textbox', { name }), text);
    await type('Smaller diameter', '.298');
    await type('Larger diameter', '.348');
    await type('Distance between them', '.5');
    expect(screen.getByText('The angle is right.')).toBeVisible();
    expect(screen.getByText(/Cut below size already, by .0020/)).toBeVisible();
  });

  test('the edge a blade was touched off by turns its readings, and stands in the part', async () => {
    // 1.2670 and 1.4390 by the headstock edge; the blade is .078 wide: 1.1890 and 1.3610 by the other.
    const at = pageWhere('groove', 'gap');
    const { state, user } = bench(at);
    const edges = within(screen.getByRole('group', { name: 'Edge of T3 that was touched off' }));
    expect(edges.getByRole('button', { name: 'headstock side' })).toHaveAttribute('aria-pressed', 'true');
    await user.click(edges.getByRole('button', { name: 'tailstock side' }));
    const touched = steps.findIndex(({ cut }) => cut.kind === 'touch' && cut.tool === 'T3');
    expect(state.part.actuals).toMatchObject([
      { what: 'touch', of: 'T3', edge: 'right', text: '', step: steps[touched]?.name },
    ]);
    expect(readings().getByText('-1.1890')).toBeVisible();
    expect(readings().getByText('-1.2670')).toBeVisible();
    await user.click(edges.getByRole('button', { name: 'headstock side' }));
    expect(
      readings()
        .getAllByText(/^-/)
        .map((digits) => digits.textContent),
    ).toEqual(['-1.2670', '-1.1890', '-1.4390', '-1.3610']);
  });

  test('readings say which way they lie', () => {
    bench(pageWhere('finish', 'collar'));
    expect(readings().getByText('diameter, inward')).toBeVisible();
    expect(readings().getByText('← toward the headstock, station C')).toBeVisible();
  });

  test('a face that costs a length stops the work in words, and says what can be done', async () => {
    // A–C is drawn .4469, L1 + L2: at .60 one of them gives way.
    const { user } = bench(pageWhere('finish', 'collar'));
    await user.click(button('Where face C came out'));
    await user.type(screen.getByRole('textbox', { name: 'Where face C came out, from A' }), '.60');
    await user.click(button('Enter'));
    const stop = within(screen.getByRole('alert', { name: 'Stop before the next cut.' }));
    const cannot = stop.getByRole('list', { name: 'Lengths that cannot be kept' });
    expect(cannot).toHaveTextContent(/^L\d will be over its greatest by \.\d{4} in\.$/);
    await user.click(stop.getByText('What can be done, and the new readings'));
    const ways = within(stop.getByRole('list', { name: 'Ways on, the least loss first' }));
    expect(ways.getAllByRole('listitem')[0]).toHaveTextContent(/^Go on by the readings: L\d is over/);
    const keepable = stop.getByRole('list', { name: 'Lengths that can still be kept' });
    expect(keepable).toHaveTextContent(/Z -\.\d{4} from cut \d+, planned -\.\d{4}/);
  });

  test('a face that costs a length stops the work in words', async () => {
    const { user } = bench(pageWhere('finish', 'collar'));
    await user.click(button('Where face C came out'));
    await user.type(screen.getByRole('textbox', { name: 'Where face C came out, from A' }), '.60');
    await user.click(button('Enter'));
    expect(screen.getByText('Stop before the next cut.')).toBeVisible();
  });
});

describe('a trial land', () => {
  const proving = (segment: string | null) => {
    const [step] = steps;
    if (!step) throw new Error('no steps');
    const cut = { ...step.cut, kind: 'prove' as const, segment, makes: 'trial', readings: [] };
    return [{ ...step, cut, name: { of: 'trial', kind: 'prove', pass: 1 } }];
  };
  const typed = { text: '.3936', unit: 'in', shown: '', set: 'readings', from: '' } as const;

  test('remembers the size that fitted for the land it proves', () => {
    const [entry, ...others] = entriesAt(proving('left'), 0, drawn, diameters, null);
    expect(others).toEqual([]);
    expect(entry?.make(typed)).toMatchObject({ what: 'fit', of: 'left', text: '.3936' });
    const part = applyAll(drawn, addActual(drawn, { what: 'fit', of: 'left', text: '.3936', unit: 'in' }));
    expect(actualsOf(part, firstLathe, report)?.aims).toMatchObject([
      { segment: 'left', why: 'fit', from: 'left' },
      { segment: 'right', why: 'fit', from: 'left' }, // matched with it
    ]);
  });

  test('asks which, where it proves more than one', () => {
    const fitted = diameters.filter(({ fit }) => fit !== null).map(({ segment }) => segment);
    expect(fitted.length).toBeGreaterThan(1);
    const entries = entriesAt(proving(null), 0, drawn, diameters, null);
    expect(entries.map(({ make }) => make(typed).of)).toEqual(fitted);
  });
});

test.each([
  ['diameter', 'tailstock', 12, 'X', false, 'diameter, inward'],
  ['radius', 'tailstock', 6, 'X', true, 'radius, outward'],
  ['diameter', 'tailstock', -3, 'Z', false, '← toward the headstock'],
  ['diameter', 'headstock', -3, 'Z', false, 'toward the tailstock →'],
  ['diameter', 'headstock', 3, 'Z', false, '← toward the headstock'],
  ['diameter', 'tailstock', 0, 'Z', false, ''],
  ['diameter', 'tailstock', 8, 'quill', true, 'into the work'],
] as const)(
  'X as %s, Z counting to the %s: %d on %s lies %s%s',
  (x, zPositive, value_mm, axis, inside, way) => {
    const cut = steps.find((step) => step.cut.kind === 'finish')?.cut;
    if (!cut) throw new Error('no finish');
    expect(wayOf({ axis, value_mm }, { ...cut, inside }, { x, zPositive })).toBe(way);
  },
);

describe('the record', () => {
  test('comes after the last cut, takes sizes and gives verdicts', async () => {
    const { state, user } = bench(steps.length - 1);
    await user.click(button('Record'));
    expect(screen.getByRole('heading', { name: 'Inspection record' })).toBeVisible();
    // left is .3935 in, .3933 to .3937: .3940 is over by .0003.
    await user.click(button(/^left, diameter/));
    await user.type(screen.getByRole('textbox', { name: 'Measured, left, diameter' }), '.3940{Enter}');
    expect(button(/^left, diameter/)).toHaveTextContent('.3940');
    expect(button(/^left, diameter/)).toHaveTextContent('over');
    expect(screen.getByText('1 out of limits.')).toBeVisible();
    await user.click(button('Print the record'));
    expect(state.printed).toBe(1);
  });
});
