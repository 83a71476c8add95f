/** Names by which a machine reaches only itself. */
const OWN = /^(localhost|.*\.localhost|127(\.\d+){3}|\[::1\]|0\.0\.0\.0)$/i;

/** The address of this page without what follows its folder. */
export const pageAddress = (): string => `${location.origin}${location.pathname}`;

/** Whether another device can be led to an address: over http or https, and not this machine's name for itself. */
export function reachesOthers(address: string): boolean {
  try {
    const { protocol, hostname } = new URL(address);
    return /^https?:$/.test(protocol) && !OWN.test(hostname);
  } catch {
    return false;
  }
}

/** An address as a person types it, `192.168.1.5:4173`, made whole; null where none can be made of it. */
export function wholeAddress(typed: string): string | null {
  const text = typed.trim();
  const withScheme = /^[a-z][a-z0-9+.-]*:\/\//i.test(text) ? text : `http://${text}`;
  if (text === '' || !reachesOthers(withScheme)) return null;
  const { origin, pathname } = new URL(withScheme);
  return `${origin}${pathname}`;
}
