/**
 * A part of the program that is fetched when it is first wanted, so that the board need not wait for it. Where it cannot
 * be fetched, whoever wants it is given the fault once; the next to want it asks anew.
 */
export class Later<T> {
  #here = $state.raw<T | null>(null);
  /** Counts what became of asking, so that a reader looks again after a fault too. */
  #news = $state(0);
  #asked: Promise<T> | null = null;
  #fault: unknown = null;
  readonly #bring: () => Promise<T>;

  constructor(bring: () => Promise<T>) {
    this.#bring = bring;
  }

  /** It, or null while it is on its way. Throws where it could not be fetched. */
  get now(): T | null {
    void this.#news;
    const fault = this.#fault;
    if (fault !== null) {
      this.#fault = null;
      throw fault;
    }
    if (this.#here === null && !this.#asked)
      this.fetch().catch((why: unknown) => {
        this.#fault = why ?? new Error('it could not be fetched');
        this.#news += 1;
      });
    return this.#here;
  }

  /** It, or null where it is not here; nobody fetches it for that. */
  get here(): T | null {
    return this.#here;
  }

  /** Fetches it, once. */
  fetch(): Promise<T> {
    this.#asked ??= this.#bring().then(
      (here) => (this.#here = here),
      (why: unknown) => {
        this.#asked = null;
        throw why;
      },
    );
    return this.#asked;
  }
}
