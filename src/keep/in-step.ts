import { isChangeOfMind, type FileHandle } from './files.ts';
import { fileKey, type Db } from './store.ts';

/** How the chosen file stands to the part on the board. */
export type StepState =
  | { readonly kind: 'none' }
  /** The file says what the part says, or will in a moment. */
  | { readonly kind: 'in-step'; readonly name: string }
  /** The browser wants to ask the person again before it lets the file be written. */
  | { readonly kind: 'asks'; readonly name: string }
  /** Somebody else changed the file; nothing was written over it. */
  | { readonly kind: 'changed'; readonly name: string }
  | { readonly kind: 'failed'; readonly name: string; readonly say: string };

/** A file that belongs to an entry: where it is, and what was last written to it, to know another's changes by. */
type Link = { readonly handle: FileHandle; readonly text: string };

/** Typing goes on for a while before the file is written. */
const QUIET = 400;

/**
 * Keeps one chosen file in step with the part on the board, beside the store. The file is read before it is written: where
 * it is not as this app left it, nothing is written over it until the person says so.
 */
export class InStep {
  /** Called after each write, for the date of the last file copy. */
  onwritten: (name: string, at: number) => void = () => undefined;
  readonly #db: () => Db | null;
  readonly #say: (state: StepState) => void;
  #id: string | null = null;
  #link: Link | null = null;
  #state: StepState = { kind: 'none' };
  #wanted: string | null = null;
  #timer: ReturnType<typeof setTimeout> | null = null;
  #busy: Promise<void> = Promise.resolve();

  constructor(db: () => Db | null, say: (state: StepState) => void) {
    this.#db = db;
    this.#say = say;
  }

  /** The file that is kept in step; null where none is. */
  get handle(): FileHandle | null {
    return this.#link?.handle ?? null;
  }

  /** Goes over to another entry, and to the file that is kept in step with it. */
  async adopt(id: string): Promise<void> {
    this.#leave(id);
    const link = await this.#stored(id);
    if (this.#id !== id || !link) return;
    this.#link = link;
    const granted = (await permission(link.handle, 'query')) === 'granted';
    const { name } = link.handle;
    this.#tell(granted ? { kind: 'in-step', name } : { kind: 'asks', name });
  }

  /** Looks whether the file is still as it was left, and writes what waits. Worth doing when the window comes to the front. */
  look(): void {
    if (this.#link) this.#write();
  }

  /** An entry that was just begun has no file. */
  begin(id: string): void {
    this.#leave(id);
  }

  /** From here on this file is kept in step; `text` is what stands in it. */
  async choose(handle: FileHandle, text: string): Promise<void> {
    this.#link = { handle, text };
    this.#tell({ kind: 'in-step', name: handle.name });
    await this.#store();
  }

  /** What the part says now. Written to the file in a moment, where one is kept in step. */
  follow(text: string): void {
    this.#wanted = text;
    this.#writeSoon();
  }

  /** Writes at once what still waits, as the page may go. */
  async flush(): Promise<void> {
    if (this.#timer) {
      clearTimeout(this.#timer);
      this.#timer = null;
      this.#write();
    }
    await this.#busy;
  }

  /** Has the browser ask the person again; called from a click, as browsers demand. */
  async allow(): Promise<void> {
    const { handle } = this.#link ?? {};
    if (!handle) return;
    if ((await permission(handle, 'request')) !== 'granted') return;
    this.#tell({ kind: 'in-step', name: handle.name });
    this.#write();
    await this.#busy;
  }

  /** What another wrote into the file. Rejects where it cannot be read. */
  async theirs(): Promise<{ name: string; text: string; handle: FileHandle } | null> {
    const { handle } = this.#link ?? {};
    return handle ? { name: handle.name, text: await textOf(handle), handle } : null;
  }

  /** The person decided: the part on the board goes over what another wrote. */
  async writeOver(): Promise<void> {
    if (!this.#link) return;
    this.#link = { ...this.#link, text: await textOf(this.#link.handle).catch(() => '') };
    this.#tell({ kind: 'in-step', name: this.#link.handle.name });
    this.#write();
    await this.#busy;
  }

  /** The file stays as it is, and is left alone from here on. */
  async stop(): Promise<void> {
    this.#link = null;
    this.#tell({ kind: 'none' });
    if (this.#id) await this.#db()?.delete('meta', fileKey(this.#id));
  }

  #leave(id: string): void {
    if (this.#timer) clearTimeout(this.#timer);
    this.#timer = null;
    this.#wanted = null;
    this.#link = null;
    this.#id = id;
    this.#tell({ kind: 'none' });
  }

  #writeSoon(): void {
    if (!this.#link) return;
    if (this.#timer) clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      this.#timer = null;
      this.#write();
    }, QUIET);
  }

  #write(): void {
    this.#busy = this.#busy.then(() => this.#writeOnce());
  }

  async #writeOnce(): Promise<void> {
    const link = this.#link;
    if (!link || this.#state.kind !== 'in-step') return;
    try {
      await this.#bring(link);
    } catch (fault) {
      if (this.#link !== link || isChangeOfMind(fault)) return;
      this.#tell({ kind: 'failed', name: link.handle.name, say: reasonOf(fault) });
    }
  }

  /** Brings the file to what is wanted, unless it is not as it was left. */
  async #bring(link: Link): Promise<void> {
    const { handle } = link;
    const { name } = handle;
    if ((await permission(handle, 'query')) !== 'granted') return this.#tell({ kind: 'asks', name });
    const there = await textOf(handle);
    const text = this.#wanted;
    if (this.#link !== link) return;
    if (there !== link.text && there !== text) return this.#tell({ kind: 'changed', name });
    if (text === null || text === link.text) return;
    if (there !== text) {
      const out = await handle.createWritable();
      await out.write(text);
      await out.close();
    }
    if (this.#link !== link) return;
    this.#link = { handle, text };
    this.onwritten(name, Date.now());
    await this.#store();
  }

  #tell(state: StepState): void {
    this.#state = state;
    this.#say(state);
  }

  async #stored(id: string): Promise<Link | null> {
    try {
      const link = await this.#db()?.get('meta', fileKey(id));
      return isLink(link) ? link : null;
    } catch {
      return null; // without the store there is no file to remember either
    }
  }

  async #store(): Promise<void> {
    const [id, link] = [this.#id, this.#link];
    if (id === null || !link) return;
    // Where the store is full, the file is in step until the window closes.
    await this.#db()
      ?.put('meta', link, fileKey(id))
      .catch(() => undefined);
  }
}

const textOf = async (handle: FileHandle): Promise<string> => (await handle.getFile()).text();

/** Whether the file may be written; browsers without the question let it be. */
const permission = async (handle: FileHandle, how: 'query' | 'request'): Promise<string> =>
  (await (how === 'query'
    ? handle.queryPermission?.({ mode: 'readwrite' })
    : handle.requestPermission?.({ mode: 'readwrite' }))) ?? 'granted';

function isLink(value: unknown): value is Link {
  if (typeof value !== 'object' || value === null) return false;
  const { handle, text } = value as Record<string, unknown>;
  return (
    typeof text === 'string' && typeof handle === 'object' && handle !== null && 'createWritable' in handle
  );
}

function reasonOf(fault: unknown): string {
  const name = fault instanceof DOMException ? fault.name : '';
  if (name === 'NotFoundError') return 'it is not there any more';
  if (name === 'NoModificationAllowedError') return 'another program holds it';
  if (name === 'QuotaExceededError') return 'the disk is full';
  return fault instanceof Error ? fault.message : String(fault);
}
