import { mount, unmount } from 'svelte';
import type { Suggestion } from '../../core/standards/suggest.ts';
import type { Complete } from './completions.ts';
import SuggestionList from './SuggestionList.svelte';

/** The list under a field: its options, the one the arrows are on (-1: none), and where it hangs, in px. */
export type Open = {
  options: readonly Suggestion[];
  at: number;
  left: number;
  top: number | null;
  bottom: number | null;
  width: number;
  height: number;
};

const GAP = 3;
const TALL = 280;
const EDGE = 8;
let made = 0;

/**
 * Gives a text field a list to complete from while it is typed. The field stays an ordinary one: nothing is chosen
 * until an arrow goes to it, and what is typed is never changed by the list alone. Enter takes the option that the
 * arrows are on, Esc closes the list and nothing else. `picked` is called after an option has been put in.
 */
export function completing(complete: Complete | undefined, picked: () => void = () => undefined) {
  return (input: HTMLInputElement): (() => void) | undefined =>
    complete ? attach(input, complete, picked) : undefined;
}

function attach(input: HTMLInputElement, complete: Complete, picked: () => void): () => void {
  const id = `completing-${(made += 1)}`;
  const open = $state<Open>({ options: [], at: -1, left: 0, top: 0, bottom: null, width: 0, height: TALL });
  const tell = () => {
    const shown = open.options.length > 0;
    input.setAttribute('aria-expanded', String(shown));
    if (shown && open.at >= 0) input.setAttribute('aria-activedescendant', `${id}-${open.at}`);
    else input.removeAttribute('aria-activedescendant');
  };
  const close = () => {
    if (open.options.length === 0) return;
    open.options = [];
    open.at = -1;
    tell();
  };
  const show = () => {
    const options = complete(input.value);
    const said = options.length === 1 && options[0]?.text === input.value.trim();
    Object.assign(open, { options: said ? [] : options, at: -1 }, spot(input));
    tell();
  };
  const pick = (text: string) => {
    input.value = text;
    picking = true;
    input.dispatchEvent(new Event('input', { bubbles: true }));
    picking = false;
    close();
    picked();
  };
  const go = (step: 1 | -1) => {
    if (open.options.length === 0) show();
    if (open.options.length === 0) return;
    const places = open.options.length + 1;
    open.at = ((open.at + 1 + step + places) % places) - 1;
    tell();
  };
  let picking = false;

  const list = mount(SuggestionList, { target: document.body, props: { id, open, onpick: pick } });
  const oninput = () => (picking ? undefined : input.value.trim() === '' ? close() : show());
  const onkeydown = (event: KeyboardEvent) => {
    if (event.isComposing || event.altKey || event.ctrlKey || event.metaKey) return;
    const chosen = open.options[open.at];
    if (event.key === 'ArrowDown' || event.key === 'ArrowUp') go(event.key === 'ArrowDown' ? 1 : -1);
    else if (event.key === 'Enter' && chosen) pick(chosen.text);
    else if (event.key === 'Escape' && open.options.length > 0) close();
    else return event.key === 'Enter' || event.key === 'Tab' ? close() : undefined;
    event.preventDefault();
    event.stopPropagation();
  };
  const onscroll = (event: Event) => {
    if (!(event.target instanceof Element && event.target.id === id)) close();
  };

  const marks = {
    role: 'combobox',
    'aria-autocomplete': 'list',
    'aria-controls': id,
    'aria-expanded': 'false',
  };
  for (const [name, value] of Object.entries(marks)) input.setAttribute(name, value);
  input.addEventListener('input', oninput);
  input.addEventListener('keydown', onkeydown);
  input.addEventListener('blur', close);
  addEventListener('scroll', onscroll, true);
  addEventListener('resize', close);
  return () => {
    for (const name of [...Object.keys(marks), 'aria-activedescendant']) input.removeAttribute(name);
    input.removeEventListener('input', oninput);
    input.removeEventListener('keydown', onkeydown);
    input.removeEventListener('blur', close);
    removeEventListener('scroll', onscroll, true);
    removeEventListener('resize', close);
    void unmount(list);
  };
}

/** Under the field, or over it where there is more room. */
function spot(input: HTMLInputElement): Pick<Open, 'left' | 'top' | 'bottom' | 'width' | 'height'> {
  const { left, top, bottom, width } = input.getBoundingClientRect();
  const under = innerHeight - bottom - GAP - EDGE;
  const over = top - GAP - EDGE;
  const below = under >= Math.min(TALL, over);
  return {
    left: Math.max(EDGE, Math.min(left, innerWidth - Math.max(width, 220) - EDGE)),
    top: below ? bottom + GAP : null,
    bottom: below ? null : innerHeight - top + GAP,
    width,
    height: Math.min(TALL, below ? under : over),
  };
}
