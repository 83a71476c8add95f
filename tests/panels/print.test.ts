import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { SheetChoice, SheetProgress } from '../../src/panels/make-sheet.ts';
import PrintPanel from '../../src/panels/PrintPanel.svelte';
import type { PageKind } from '../../src/sheet/page-kinds.ts';

vi.mock('../../src/panels/pdf-reader.ts', () => ({
  wakePdfReader: () => Promise.resolve(),
  openPdf: vi.fn(() => Promise.reject(new Error('No canvas here.'))),
}));

beforeEach(() => {
  URL.createObjectURL = vi.fn(() => 'blob:sheet');
  URL.revokeObjectURL = vi.fn();
});
afterEach(() => vi.restoreAllMocks());

const print = (pdf: Promise<Blob>, wanted?: readonly PageKind[]) => {
  const onpage = vi.fn();
  const onmeasured = vi.fn();
  const cancel = vi.fn();
  const make = vi.fn((choice: SheetChoice, onprogress: SheetProgress) => {
    onprogress(choice.pages.length, 10);
    return { pdf, cancel };
  });
  const files = [{ name: 'Cuts (CSV)', file: 'latch-pin-cuts.csv', type: 'text/csv', text: () => 'cut' }];
  const view = render(PrintPanel, {
    title: 'Latch pin',
    page: 'letter',
    planned: true,
    ...(wanted ? { wanted } : {}),
    onpage,
    onmeasured,
    files,
    make,
  });
  return { view, onpage, onmeasured, cancel, make, user: userEvent.setup() };
};

describe('the Print place', () => {
  test('hands out the very file that it shows, under the name of the part', async () => {
    const { user } = print(Promise.resolve(new Blob(['%PDF-'], { type: 'application/pdf' })));
    const names: string[] = [];
    vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (this: HTMLAnchorElement) {
      names.push(this.download);
    });
    await user.click(await screen.findByRole('button', { name: 'Download the PDF' }));
    expect(names).toEqual(['latch-pin.pdf']);
  });

  test('a sheet that cannot be made is said in a sentence', async () => {
    print(Promise.reject(new Error('The drawing font could not be fetched (404).')));
    expect(await screen.findByRole('alert')).toHaveTextContent(
      'No sheet. The drawing font could not be fetched',
    );
  });

  test('pages that cannot be shown do not take the file away', async () => {
    print(Promise.resolve(new Blob(['%PDF-'], { type: 'application/pdf' })));
    expect(await screen.findByRole('alert')).toHaveTextContent(
      'The pages cannot be shown here. No canvas here. Download the sheet',
    );
    expect(screen.getByRole('button', { name: 'Download the PDF' })).toBeEnabled();
  });

  test('leaving stops the work', () => {
    const { view, cancel } = print(new Promise(() => undefined));
    expect(screen.getByRole('status')).toHaveTextContent('Making the sheet');
    view.unmount();
    expect(cancel).toHaveBeenCalled();
  });

  test('the page is chosen by name', async () => {
    const { onpage, user } = print(new Promise(() => undefined));
    await user.click(screen.getByRole('button', { name: 'A4' }));
    expect(onpage).toHaveBeenCalledWith('a4');
  });

  test('a kind of page that is not wanted is left out, and one always stays', async () => {
    const { make, user } = print(new Promise(() => undefined));
    const boxes = screen.getAllByRole('checkbox');
    expect(make.mock.lastCall?.[0].pages).toHaveLength(boxes.length);
    await user.click(screen.getByRole('checkbox', { name: 'Cautions' }));
    expect(make.mock.lastCall?.[0].pages).not.toContain('cautions');
    expect(make.mock.lastCall?.[0].pages).toContain('strips');
    for (const box of boxes) if (box instanceof HTMLInputElement && box.checked) await user.click(box);
    expect(make.mock.lastCall?.[0].pages).toHaveLength(1);
  });

  test('opened for the inspection alone, it makes that page alone, and all pages are one press away', async () => {
    const { make, user } = print(new Promise(() => undefined), ['inspection']);
    expect(make.mock.lastCall?.[0].pages).toEqual(['inspection']);
    await user.click(screen.getByRole('button', { name: 'All pages' }));
    expect(make.mock.lastCall?.[0].pages).toHaveLength(screen.getAllByRole('checkbox').length);
  });

  test('what 100 mm measures is taken as typed, and refused where no printer is so far off', async () => {
    const { onmeasured, user } = print(new Promise(() => undefined));
    const field = screen.getByRole('textbox', { name: /100 mm on the strip page measures/ });
    await user.clear(field);
    await user.type(field, '99,4{Enter}');
    await user.tab();
    expect(onmeasured).toHaveBeenLastCalledWith(99.4);
    await user.clear(field);
    await user.type(field, '50');
    await user.tab();
    expect(onmeasured).toHaveBeenCalledTimes(1);
    expect(field).toHaveAttribute('aria-invalid', 'true');
    expect(screen.getByText('From 90 to 110 mm.')).toBeInTheDocument();
  });

  test('says how far it is, can be stopped, and begun again', async () => {
    const { make, cancel, user } = print(new Promise(() => undefined));
    expect(screen.getByRole('progressbar')).toHaveAttribute('max', '10');
    await user.click(screen.getByRole('button', { name: 'Stop' }));
    expect(cancel).toHaveBeenCalledTimes(1);
    expect(screen.getByRole('status')).toHaveTextContent('Stopped');
    await user.click(screen.getByRole('button', { name: 'Make the sheet' }));
    expect(make).toHaveBeenCalledTimes(2);
    expect(screen.getByRole('status')).toHaveTextContent('Making the sheet');
  });

  test('strips and tables can be had as files', async () => {
    const { user } = print(new Promise(() => undefined));
    const names: string[] = [];
    vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (this: HTMLAnchorElement) {
      names.push(this.download);
    });
    await user.click(screen.getByRole('button', { name: 'Cuts (CSV)' }));
    expect(names).toEqual(['latch-pin-cuts.csv']);
  });
});
