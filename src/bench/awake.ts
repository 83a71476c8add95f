/**
 * Keeps the screen awake while the element is on the page, where the browser can; asks again whenever the page
 * comes back into view, as the lock is lost then.
 */
export function awake(): (() => void) | undefined {
  if (!('wakeLock' in navigator)) return undefined;
  let lock: WakeLockSentinel | null = null;
  let over = false;
  const ask = async () => {
    if (document.visibilityState !== 'visible') return;
    try {
      lock = await navigator.wakeLock.request('screen');
      if (over) await lock.release();
    } catch {
      lock = null; // low battery or a refusal: the screen may sleep, the place is remembered anyway
    }
  };
  void ask();
  document.addEventListener('visibilitychange', ask);
  return () => {
    over = true;
    document.removeEventListener('visibilitychange', ask);
    void lock?.release();
  };
}
