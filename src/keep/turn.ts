/** What windows of one browser tell each other: an entry was kept; somebody wants to work on it. */
type Word = { readonly word: 'kept' | 'give'; readonly id: string };

const nameOf = (id: string): string => `shaftwright part ${id}`;
/** A window that does not answer in this time is asleep or stuck; its turn is then taken. */
const ANSWER_WITHIN = 2_000;

/**
 * Whose turn it is to work on a part, among the windows of this browser: one works, the others follow it. Where the
 * browser has no locks (plain http), every window believes that it works; the store then refuses the second writer.
 */
export class Turn {
  /** Another window kept this entry. */
  onother: (id: string) => void = () => undefined;
  /** It became this window's turn, or ceased to be. */
  onturn: (mine: boolean) => void = () => undefined;
  /** Asked to settle what is pending, before the turn goes to another window. */
  ongive: () => Promise<void> = () => Promise.resolve();
  #id: string | null = null;
  #release: (() => void) | null = null;
  #waiting: AbortController | null = null;
  #channel: BroadcastChannel | null = null;
  #locks: LockManager | null;

  constructor(locks: LockManager | null, channel: BroadcastChannel | null) {
    this.#locks = locks;
    this.#channel = channel;
    if (channel) channel.onmessage = ({ data }: MessageEvent<unknown>) => this.#hear(data);
  }

  /** Goes over to an entry and says whether it is this window's turn there; where not, it waits in line. */
  async take(id: string): Promise<boolean> {
    this.leave();
    this.#id = id;
    if (!this.#locks) return true;
    const mine = await this.#ask(id, { ifAvailable: true });
    if (!mine) this.#queue(id);
    return mine;
  }

  /** Asks the window that works on the entry to hand it over, and takes it where no answer comes. */
  askFor(): void {
    const id = this.#id;
    if (!id || this.#release) return;
    this.#tell({ word: 'give', id });
    setTimeout(() => {
      if (this.#id !== id || this.#release) return;
      this.#waiting?.abort();
      void this.#ask(id, { steal: true }).then((mine) => mine && this.onturn(true));
    }, ANSWER_WITHIN);
  }

  /** Tells the other windows that the entry was kept. */
  kept(id: string): void {
    this.#tell({ word: 'kept', id });
  }

  leave(): void {
    this.#waiting?.abort();
    this.#waiting = null;
    this.#release?.();
    this.#release = null;
    this.#id = null;
  }

  close(): void {
    this.leave();
    this.#channel?.close();
    this.#channel = null;
  }

  #tell(word: Word): void {
    this.#channel?.postMessage(word);
  }

  #hear(data: unknown): void {
    const { word, id } = (data ?? {}) as Partial<Word>;
    if (id === undefined || id !== this.#id) return;
    if (word === 'kept') this.onother(id);
    if (word === 'give' && this.#release) void this.#give(id);
  }

  async #give(id: string): Promise<void> {
    await this.ongive();
    if (this.#id !== id) return;
    this.#release?.();
    this.#release = null;
    this.onturn(false);
    this.#queue(id);
  }

  #queue(id: string): void {
    const waiting = new AbortController();
    this.#waiting = waiting;
    void this.#ask(id, { signal: waiting.signal }).then((mine) => {
      if (mine && this.#id === id) this.onturn(true);
    });
  }

  /** Settles with whether the turn came; it is then held until it is released or taken. */
  #ask(id: string, options: LockOptions): Promise<boolean> {
    return new Promise((resolve) => {
      const held = this.#locks?.request(nameOf(id), options, (lock) => {
        if (!lock || this.#id !== id) return resolve(false);
        return new Promise<void>((release) => {
          this.#release = release;
          resolve(true);
        });
      });
      held?.catch(() => {
        resolve(false);
        if (this.#id !== id || !this.#release) return;
        this.#release = null; // another window took the turn
        this.onturn(false);
        this.#queue(id);
      });
    });
  }
}

/** The turn among the windows of this browser, as far as it offers the means. */
export function pageTurn(): Turn {
  const locks = typeof navigator === 'object' && 'locks' in navigator ? navigator.locks : null;
  return new Turn(locks, typeof BroadcastChannel === 'function' ? new BroadcastChannel('shaftwright') : null);
}
