import type { BoardProps } from './board-props.ts';
import { kindsOf, sameChoice, type Choice } from './choice.ts';

/** What is chosen: the one thing that everybody knows of, and what the board has chosen besides. */
export class Chosen {
  readonly #given: () => Pick<BoardProps, 'part' | 'chosen' | 'onchoose'>;
  /** What is chosen besides, as long as the choice that it goes with stands. */
  #also = $state.raw<{ readonly to: Choice; readonly list: readonly Choice[] } | null>(null);

  constructor(given: () => Pick<BoardProps, 'part' | 'chosen' | 'onchoose'>) {
    this.#given = given;
  }

  readonly also = $derived.by((): readonly Choice[] => {
    const { part, chosen } = this.#given();
    if (!this.#also || !sameChoice(this.#also.to, chosen)) return [];
    const kinds = kindsOf(part);
    // A length may be worked out for the drawing alone; whatever else was undone or deleted elsewhere is let go.
    return this.#also.list.filter(({ kind, id }) => kind === 'length' || kinds.get(id) === kind);
  });
  readonly all = $derived.by((): readonly Choice[] => {
    const { chosen } = this.#given();
    return chosen ? [chosen, ...this.also] : [];
  });

  get segments(): readonly string[] {
    return this.all.filter(({ kind }) => kind === 'segment').map(({ id }) => id);
  }

  /** Chooses several things; the first is the one that the tables open. */
  choose([first, ...list]: readonly Choice[]): void {
    this.#also = first ? { to: first, list } : null;
    this.#given().onchoose(first ?? null);
  }

  /** One thing more, or one less where it is chosen already. */
  toggle(target: Choice): void {
    const rest = this.all.filter((c) => !sameChoice(c, target));
    this.choose(rest.length < this.all.length ? rest : [...this.all, target]);
  }

  add(more: readonly Choice[]): void {
    this.choose([...this.all, ...more.filter((c) => !this.all.some((o) => sameChoice(c, o)))]);
  }
}
