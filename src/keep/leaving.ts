/**
 * Has the work settled whenever the page may be about to go: hidden, put away, closed. `settle` hands over what is
 * pending and says whether any of it is not on the disk yet; the browser then asks before it closes the window.
 */
export function keepToTheEnd(settle: () => boolean): () => void {
  const stop = new AbortController();
  const { signal } = stop;
  const onhidden = () => {
    if (document.visibilityState === 'hidden') settle();
  };
  document.addEventListener('visibilitychange', onhidden, { signal });
  addEventListener('pagehide', settle, { signal });
  addEventListener(
    'beforeunload',
    (event) => {
      if (settle()) event.preventDefault();
    },
    { signal },
  );
  return () => stop.abort();
}
