/** The colours a drawing is made with, from the one stylesheet that names them. */
export type Inks = {
  readonly paper: string;
  readonly graphite: string;
  readonly soft: string;
  readonly line: string;
  readonly steel: string;
  readonly bright: string;
  readonly swarf: string;
  readonly blue: string;
  readonly lead: string;
  readonly onLead: string;
  readonly family: string;
};

const names: Readonly<Record<keyof Inks, readonly [property: string, otherwise: string]>> = {
  paper: ['--paper', '#f5f0e4'],
  graphite: ['--graphite', '#2a2927'],
  soft: ['--ink-soft', '#5b564d'],
  line: ['--line', '#cfc5b1'],
  steel: ['--steel', '#aab4bc'],
  bright: ['--steel-bright', '#dfe4e7'],
  swarf: ['--swarf', '#a4603a'],
  blue: ['--layout-blue', '#24509a'],
  lead: ['--red-lead', '#b2361b'],
  onLead: ['--on-red-lead', '#ffffff'],
  family: ['--font', 'system-ui, sans-serif'],
};

/** The inks of day on white paper, whatever the page wears: for what is saved and printed. */
export function dayInks(family: string): Inks {
  const day = Object.entries(names).map(([key, [, otherwise]]) => [key, otherwise]);
  return { ...(Object.fromEntries(day) as Inks), paper: '#ffffff', family };
}

/** Reads the inks that hold for an element; a property that the page lacks has a plain stand-in. */
export function readInks(element: Element): Inks {
  const style = getComputedStyle(element);
  const read = (key: keyof Inks) => style.getPropertyValue(names[key][0]).trim() || names[key][1];
  return {
    paper: read('paper'),
    graphite: read('graphite'),
    soft: read('soft'),
    line: read('line'),
    steel: read('steel'),
    bright: read('bright'),
    swarf: read('swarf'),
    blue: read('blue'),
    lead: read('lead'),
    onLead: read('onLead'),
    family: read('family'),
  };
}

/** Calls back whenever the theme may have changed: the root's attributes, or the system's preference. */
export function onThemeChange(changed: () => void): () => void {
  const observer = new MutationObserver(changed);
  observer.observe(document.documentElement, { attributes: true, attributeFilter: ['data-theme', 'class'] });
  const query = matchMedia('(prefers-color-scheme: dark)');
  query.addEventListener('change', changed);
  return () => {
    observer.disconnect();
    query.removeEventListener('change', changed);
  };
}
