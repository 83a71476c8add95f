import type { Part } from '../core/part/types.ts';
import type { Report } from '../core/report-types.ts';
import type { Choice } from './choice.ts';
import { setSize } from './edits.ts';
import { missingSizes, sameTarget, targetsOf, textOf, type SizeTarget } from './size-target.ts';
import type { Transaction } from '../core/part/edit.ts';

type Given = {
  readonly part: Part;
  readonly report: Report;
  readonly onedit: (change: Transaction) => void;
  readonly onchoose: (choice: Choice | null) => void;
};

/** The one size that is being typed on the board, and where typing goes on. */
export class Typing {
  readonly #given: () => Given;
  target = $state.raw<SizeTarget | null>(null);
  /** Stations to light while a length between them is typed. */
  ends = $state.raw<readonly string[]>([]);
  /** Further sizes of something that was just put on: Tab goes through them before anything else. */
  #queue: readonly SizeTarget[] = [];
  /** What a station of a fresh land wants next: its length from the face before. */
  #then: SizeTarget | null = null;

  constructor(given: () => Given) {
    this.#given = given;
  }

  open(target: SizeTarget | null): void {
    this.target = target;
    this.ends = target?.kind === 'new-length' ? [target.from, target.to] : [];
    if (target && target.kind !== 'new-length') this.#given().onchoose({ kind: target.kind, id: target.id });
  }

  /** Opens the first size of something, and has Tab go through the others; `then` comes after them. */
  openAll(targets: readonly SizeTarget[], then: SizeTarget | null = null): void {
    this.#queue = targets.slice(1);
    this.#then = then;
    this.open(targets[0] ?? null);
  }

  accept(text: string, next: boolean): void {
    const { part, report, onedit } = this.#given();
    const target = this.target;
    if (!target) return;
    const before = missingSizes(part, report);
    const change = setSize(part, target, text);
    if (change.edits.length > 0) onedit(change);
    this.ends = [];
    if (next) this.open(this.#onward(target, before));
    else {
      this.leave();
      if (target.kind === 'new-length') this.#chooseLast();
    }
  }

  /** A length that was just drawn is chosen: what else can be done to it is then at hand. */
  #chooseLast(): void {
    const { part, onchoose } = this.#given();
    const id = part.lengths.at(-1)?.id;
    if (id !== undefined) onchoose({ kind: 'length', id });
  }

  /** The next missing size after this one, or the first; none where none is missing. */
  next(target: SizeTarget | null): void {
    const { part, report } = this.#given();
    this.open(this.#onward(target, missingSizes(part, report)));
  }

  leave(): void {
    this.target = null;
    this.ends = [];
    this.#queue = [];
    this.#then = null;
  }

  #onward(target: SizeTarget | null, before: readonly SizeTarget[]): SizeTarget | null {
    const { part } = this.#given();
    const [own, ...rest] = this.#queue;
    this.#queue = rest;
    if (own && stands(part, own)) return own;
    const then = this.#then;
    this.#then = null;
    if (then && isWanted(part, then)) return then;
    return this.#missing(target, before);
  }

  #missing(target: SizeTarget | null, before: readonly SizeTarget[]): SizeTarget | null {
    const { part, report } = this.#given();
    const open = missingSizes(part, report).filter((one) => target === null || !sameTarget(one, target));
    const at = before.findIndex((one) => target !== null && sameTarget(one, target));
    const onward = before.slice(at + 1).find((one) => open.some((other) => sameTarget(one, other)));
    return onward ?? open[0] ?? null;
  }
}

/** Whether there is still such a size: typing one may do away with another. */
const stands = (part: Part, target: SizeTarget): boolean =>
  target.kind === 'new-length' ||
  targetsOf(part, { kind: target.kind, id: target.id }).some((one) => sameTarget(one, target));

const isWanted = (part: Part, target: SizeTarget): boolean =>
  target.kind !== 'new-length'
    ? textOf(part, target) === ''
    : !part.lengths.some(({ from, to }) => from === target.from && to === target.to);
