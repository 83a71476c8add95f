/**
 * Scrolls an element into view when it comes to be what is talked about; not one that the person is already in, as what
 * is being clicked would move away from under the pointer.
 */
export const keepInView =
  (wanted: boolean) =>
  (element: HTMLElement): void => {
    if (wanted && !element.contains(document.activeElement)) element.scrollIntoView({ block: 'nearest' });
  };

/**
 * The same for a row of a list that stands beside what it belongs to: it scrolls only where its list scrolls by
 * itself. On a small screen the list lies below, and following it would carry away what is being read.
 */
export const keepInList =
  (wanted: boolean) =>
  (row: HTMLElement): void => {
    const list = row.closest('nav');
    if (wanted && list && list.scrollHeight > list.clientHeight) row.scrollIntoView({ block: 'nearest' });
  };
