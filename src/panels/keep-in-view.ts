/** Scrolls an element into view when it comes to be what is talked about. */
export const keepInView =
  (wanted: boolean) =>
  (element: HTMLElement): void => {
    if (wanted) element.scrollIntoView({ block: 'nearest' });
  };
