import type { Choice } from '../board/choice.ts';
import { readProgress, type Progress } from '../bench/progress.ts';
import { freshStackView, type StackView } from './check/stack-ends.ts';
import { examples, fetchExample, firstExample } from './examples.ts';
import { blankPart } from './blank-part.ts';
import { keptWith, ownName } from './lathe/kept-lathes.ts';
import { PartFile, type StepChoice } from './part-file.svelte.ts';
import type { PlaceId } from './places.ts';
import { Planning } from './planning.svelte.ts';
import { firstLathe } from '../core/part/first-lathe.ts';
import type { Transaction } from '../core/part/edit.ts';
import type { Lathe } from '../core/part/lathe.ts';
import { readLathe } from '../core/part/read-lathe.ts';
import { readPart } from '../core/part/read-part.ts';
import type { Part } from '../core/part/types.ts';
import type { Report } from '../core/report-types.ts';
import type { Keeper, KeepState, Work } from '../keep/autosave.ts';
import { PartDocument } from '../keep/document.svelte.ts';
import { pickFile, type Incoming } from '../keep/files.ts';
import { looksLikeBackup } from '../keep/looks-like-backup.ts';
import { Pictures } from '../keep/picture/pictures.ts';
import { Shelf } from './library/shelf.svelte.ts';
import { Tracer } from './tracing/tracer.svelte.ts';
import type { Origin } from '../keep/store.ts';
import type { Settings } from '../keep/settings.svelte.ts';

type Compute = (part: Part) => Report;
/** A line for the person: said once, gone with the next. `wrong` where something was refused. */
export type Notice = {
  readonly say: string;
  readonly wrong: boolean;
  readonly offer?: { readonly name: string; readonly take: () => void };
};

/** What the whole app is about at this moment: the document, the lathe, where the person stands and looks. */
export class Shop {
  readonly settings: Settings;
  readonly keeper: Keeper;
  readonly document: PartDocument;
  readonly shelf: Shelf;
  readonly file: PartFile;
  readonly plan: Planning;
  readonly pictures: Pictures;
  readonly tracer: Tracer;
  /** There is something to draw. On a first visit it is there before the store has answered. */
  laid = $state(false);
  /** The work of the last visit is back, or there is none: from now on a person may do something to the part. */
  ready = $state(false);
  /** The board has been drawn with that work: all that a person does not see first may begin. */
  settled = $state(false);
  place = $state<PlaceId>('draw');
  chosen = $state.raw<Choice | null>(null);
  lit = $state.raw<readonly string[]>([]);
  /** The stack looked at in Check, and how its lengths are taken to fall. */
  stack = $state.raw<StackView>(freshStackView);
  notice = $state.raw<Notice | null>(null);
  kept = $state.raw<KeepState>({ kind: 'keeping' });
  progress = $state.raw<Progress | null>(null);
  /** The entry that an undone opening had put on the board; redo leads there again. */
  #onward = $state.raw<{ readonly id: string; readonly did: string } | null>(null);

  lathe: Lathe = $derived.by(() => this.#readLathe());
  unit = $derived.by(() => this.settings.unit ?? this.document.part.unit);
  /** All that is known now, with the plan where it is worked out, and with what was done at the lathe. */
  get report(): Report {
    return this.plan.report;
  }
  /** Untouched example on the board: the app then offers to start an own part. */
  showsExample = $derived.by(() => this.document.history.position === 0 && this.file.copy === null);

  constructor(settings: Settings, keeper: Keeper, compute: Compute) {
    this.settings = settings;
    this.keeper = keeper;
    this.document = new PartDocument(blankPart('in'), compute);
    this.pictures = new Pictures(() => keeper.db);
    this.pictures.onrefused = () =>
      this.say('There is no room to keep the picture in this browser: save a file, it goes along.', true);
    this.tracer = new Tracer(this);
    this.shelf = new Shelf(this);
    this.file = new PartFile(this);
    this.plan = new Planning(this);
  }

  /**
   * Takes up the work of the last visit, or opens the finished example where there is none. On a first visit the example is
   * drawn while the store is opened; should the store know better after all, that takes its place. `onlaid` is called once
   * there is something to draw.
   */
  async begin(onlaid: () => void = () => undefined): Promise<void> {
    const opening = this.keeper.openLast();
    if (!this.settings.visited) {
      this.#firstExample();
      this.laid = true;
      onlaid();
    }
    const entry = await opening;
    if (entry) {
      await this.putBack(entry.work);
      await this.shelf.arrived(entry);
    } else {
      if (!this.laid) this.#firstExample();
      this.shelf.begin();
      this.file.inStep.begin(this.keeper.card.id);
      if (this.keeper.lostLast)
        this.say(
          'Nothing of the part that was on the board can be read any more; what else is kept is in Parts.',
          true,
        );
    }
    this.laid = true;
    this.ready = true;
    onlaid();
    this.settings.noteVisit();
    void this.pictures.tidy(Date.now()).catch(() => undefined); // at worst a picture stays too long
  }

  /** Puts a kept part on the board as it was left. */
  async putBack({ part, steps, position, fileCopy }: Work): Promise<void> {
    this.document.resume(part, { steps, position });
    this.file.turnTo(fileCopy, null);
    this.#onward = null;
    void this.file.inStep.adopt(this.keeper.card.id);
    this.progress = readProgress(await this.keeper.progress());
  }

  /** Opens a part or a lathe from text. A refusal is said in one line and changes nothing. */
  take(incoming: Incoming, origin: Origin = 'own'): void {
    if (looksLikeBackup(incoming.text)) return void this.shelf.takeBackup(incoming);
    if (looksLikeLathe(incoming.text)) return this.takeLathe(incoming);
    const read = readPart(incoming.text, incoming.name);
    if (!read.ok) return this.say(read.problem.say, true);
    this.#begin(this.pictures.taken(read.value), `Open ${incoming.name}`, origin);
    this.#lookAfresh();
    this.file.turnTo(null, incoming.handle ?? null);
    this.say(`${incoming.name} is on the board. Undo brings back what was there.`);
  }

  takeLathe({ name, text }: Incoming): void {
    const read = readLathe(text, name);
    if (!read.ok) return this.say(read.problem.say, true);
    this.chooseLathe(ownName(read.value, this.settings.lathes));
  }

  chooseLathe(lathe: Lathe): void {
    const lathes = keptWith(this.settings.lathes, lathe);
    this.settings.choose({ lathe: JSON.stringify(lathe), lathes });
    this.say(`Planned for the lathe “${lathe.name}”.`);
  }

  startOwn(): void {
    this.#begin(blankPart(this.unit), 'Start your own', 'app');
    this.#lookAfresh();
    this.file.turnTo(null, null);
    this.place = 'draw';
    this.say('An empty board. Undo brings back what was there.');
  }

  async openExample(file: string): Promise<void> {
    await this.#orSay(async () => this.take({ name: file, text: await fetchExample(file) }, 'app'));
  }

  async openFile(): Promise<void> {
    await this.#orSay(async () => {
      const incoming = await pickFile();
      if (incoming) this.take(incoming);
    });
  }

  save(now: number): Promise<void> {
    return this.#orSay(() => this.file.save(now));
  }

  /** What a person decides about the file that is kept in step with the part. */
  settleStep(what: StepChoice, now: number): Promise<void> {
    return this.#orSay(() => this.file.settle(what, now));
  }

  /** Does one thing to the part; what was last said is then old. */
  edit(change: Transaction): void {
    if (this.shelf.follows) return this.shelf.refuse();
    this.document.do(change);
    this.notice = null;
    this.#onward = null;
    void this.shelf.askLasting();
  }

  /** What redo would do again; null where there is nothing. */
  get redoes(): string | null {
    return this.#onward?.did ?? this.document.redoes;
  }

  undo(): void {
    if (this.shelf.follows) return this.shelf.refuse();
    const { id, from } = this.keeper.card;
    const { position, steps } = this.document.history;
    const opened = position === 1 && steps[0]?.kind === 'opening' && from !== null;
    if (opened) {
      this.keeper.beStill(true); // the entry stays as it was opened, and so does its file; the one before comes back
      this.file.inStep.begin(this.keeper.card.id);
    }
    const name = this.document.undo();
    if (opened && name !== null) void this.#goBack(from, { id, did: name });
    this.say(name === null ? 'Nothing to undo.' : `Undone: ${name}.`);
  }

  redo(): void {
    if (this.shelf.follows) return this.shelf.refuse();
    if (this.#onward) return void this.shelf.openEntry(this.#onward.id);
    const name = this.document.redo();
    this.say(name === null ? 'Nothing to redo.' : `Done again: ${name}.`);
  }

  keepProgress(progress: Progress): void {
    this.progress = progress;
    void this.keeper.keepProgress(progress);
  }

  /** A newer version of the app is here; it comes with the next start, or at once where the person wants it. */
  offerNewer(take: () => void): void {
    const offer = { name: 'Start it now', take };
    this.notice = { say: 'A newer version of Shaftwright is ready. Your work stays.', wrong: false, offer };
  }

  say(say: string, wrong = false, offer?: Notice['offer']): void {
    this.notice = offer ? { say, wrong, offer } : { say, wrong };
  }

  /** The work as the keeper wants it; reads everything that is to be kept. */
  work() {
    const { part, history } = this.document;
    return { part, steps: history.steps, position: history.position, fileCopy: this.file.copy };
  }

  /** Puts another part on the board as an entry of its own. */
  #begin(part: Part, did: string, origin: Origin): void {
    this.shelf.started(origin);
    this.file.inStep.begin(this.keeper.card.id);
    this.document.begin(part, did);
    this.progress = null;
    this.#onward = null;
  }

  async #goBack(from: string, onward: { id: string; did: string }): Promise<void> {
    if (await this.shelf.openEntry(from)) this.#onward = onward;
  }

  #lookAfresh(): void {
    this.chosen = null;
    this.lit = [];
    this.stack = freshStackView;
    this.plan.lookAfresh();
  }

  #readLathe(): Lathe {
    const text = this.settings.lathe;
    if (text === null) return firstLathe;
    const read = readLathe(text, 'the lathe of this browser');
    return read.ok ? read.value : firstLathe;
  }

  #firstExample(): void {
    const read = readPart(firstExample, examples[0].file);
    if (read.ok) this.document.resume(this.pictures.taken(read.value), { steps: [], position: 0 });
    else this.say(read.problem.say, true);
  }

  /** Does what may fail outside the app (files, fetching) and says the failure in one line. */
  async #orSay(work: () => Promise<void>): Promise<void> {
    try {
      await work();
    } catch (fault) {
      this.say(fault instanceof Error ? fault.message : String(fault), true);
    }
  }
}

const looksLikeLathe = (text: string): boolean =>
  /"shaftwright_lathe"\s*:/.test(text) && !/"shaftwright"\s*:/.test(text);
