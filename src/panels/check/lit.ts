/** Handlers that light ids on the board while a row is pointed at or holds the focus. */
export const lit = (onlight: (ids: readonly string[]) => void, ids: readonly string[]) => ({
  onpointerenter: () => onlight(ids),
  onpointerleave: () => onlight([]),
  onfocusin: () => onlight(ids),
  onfocusout: () => onlight([]),
});
