/**
 * Hands over what stands behind the # of the page's address, now and whenever a code leads here again, and takes it out
 * of the address: a reload is not to read it twice, nor a bookmark to keep it.
 */
export function takeFragments(ontake: (fragment: string) => void): () => void {
  const look = () => {
    const { hash, pathname, search } = location;
    if (!/^#t\d+\./.test(hash)) return;
    history.replaceState(null, '', `${pathname}${search}`);
    ontake(hash);
  };
  look();
  window.addEventListener('hashchange', look);
  return () => window.removeEventListener('hashchange', look);
}
