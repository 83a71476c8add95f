import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import PrintPanel from '../../src/panels/PrintPanel.svelte';

beforeEach(() => {
  URL.createObjectURL = vi.fn(() => 'blob:sheet');
  URL.revokeObjectURL = vi.fn();
});
afterEach(() => vi.restoreAllMocks());

const print = (pdf: Promise<Blob>) => {
  const onpage = vi.fn();
  const cancel = vi.fn();
  const view = render(PrintPanel, {
    title: 'Latch pin',
    page: 'letter',
    planned: true,
    onpage,
    make: () => ({ pdf, cancel }),
  });
  return { view, onpage, cancel, user: userEvent.setup() };
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
});
