import { readPart } from '../core/part/read-part.ts';
import { writePart } from '../core/part/write-part.ts';
import { saveFile, type FileHandle } from '../keep/files.ts';
import { InStep, type StepState } from '../keep/in-step.ts';
import type { Shop } from './shop.svelte.ts';

/** What a person can decide about the file that is kept in step with the part. */
export type StepChoice = 'begin' | 'allow' | 'open' | 'over' | 'stop';

/** The file of the part on the board, beside the store: the last copy that was saved, and the one that is kept in step. */
export class PartFile {
  readonly inStep: InStep;
  step = $state.raw<StepState>({ kind: 'none' });
  copy = $state.raw<{ name: string; at: number } | null>(null);
  readonly #shop: Shop;
  #handle: FileHandle | null = null;

  constructor(shop: Shop) {
    this.#shop = shop;
    this.inStep = new InStep(
      () => shop.keeper.db,
      (state) => (this.step = state),
    );
    this.inStep.onwritten = (name, at) => (this.copy = { name, at });
  }

  /** Another part is on the board: what is known of its own file, and the way to write to it where it was opened from one. */
  turnTo(copy: { name: string; at: number } | null, handle: FileHandle | null): void {
    this.copy = copy;
    this.#handle = handle;
  }

  /** Saves the part, with the picture that is traced in it. Rejects where the file cannot be written. */
  async save(now: number): Promise<void> {
    const { document, pictures } = this.#shop;
    const { part, lost } = await pictures.given(document.part);
    if (this.step.kind === 'changed')
      return this.#shop.say(
        `Something else changed ${this.step.name}: decide at the foot which of the two stays.`,
        true,
      );
    const saved = await saveFile(part, this.inStep.handle ?? this.#handle);
    if (!saved) return;
    this.turnTo({ name: saved.name, at: now }, saved.handle);
    if (saved.handle && this.step.kind !== 'none') await this.inStep.choose(saved.handle, writePart(part));
    const less = lost ? ' The traced picture is not in this browser, so it is not in the file either.' : '';
    this.#shop.say(`Saved as ${saved.name}.${less}`);
  }

  /** What a person decides about the file that is kept in step. Rejects where it cannot be read or written. */
  async settle(what: StepChoice, now: number): Promise<void> {
    if (what === 'begin') await this.#begin(now);
    else if (what === 'open') await this.#openTheirs();
    else if (what === 'allow') await this.inStep.allow();
    else if (what === 'over') await this.inStep.writeOver();
    else await this.inStep.stop();
  }

  /** Saves the part to a file of the person's choice, and writes every further edit to it too. */
  async #begin(now: number): Promise<void> {
    const { document, pictures } = this.#shop;
    const { part } = await pictures.given(document.part);
    const saved = await saveFile(part, this.#handle);
    if (!saved?.handle) return;
    this.turnTo({ name: saved.name, at: now }, saved.handle);
    await this.inStep.choose(saved.handle, writePart(part));
    this.#shop.say(`${saved.name} is kept in step with the part from here on.`);
  }

  /** Takes up the part as something else left it in the file, as an entry of its own. */
  async #openTheirs(): Promise<void> {
    const theirs = await this.inStep.theirs();
    if (!theirs) return;
    const read = readPart(theirs.text, theirs.name);
    if (!read.ok) return this.#shop.say(read.problem.say, true);
    await this.inStep.stop();
    this.#shop.take(theirs);
    await this.inStep.choose(theirs.handle, theirs.text);
  }
}
