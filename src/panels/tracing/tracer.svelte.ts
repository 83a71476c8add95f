import { setScan } from '../../core/part/part-commands.ts';
import type { Transaction } from '../../core/part/edit.ts';
import type { Part } from '../../core/part/types.ts';
import { roughly } from '../../core/tracing/place.ts';
import { readScan, type Scan } from '../../core/tracing/scan.ts';
import type { Pictures } from '../../keep/picture/pictures.ts';
import type { PdfPages } from '../../keep/picture/pdf-pages.ts';
import type { TakenPicture } from '../../keep/picture/take-picture.ts';

/** What the tracer needs of the shop. */
export type Easel = {
  readonly document: { readonly part: Part };
  readonly pictures: Pictures;
  edit(change: Transaction): void;
  say(say: string, wrong?: boolean): void;
};

/** A PDF whose page is being chosen. */
export type Paging = { readonly name: string; readonly pages: PdfPages };

/** The width that a picture first has where nothing is drawn yet, mm. */
const ACROSS = 200;

/** Few parts have a picture under them, so what opens one is fetched with the first. */
const pictures = () => import('../../keep/picture/take-picture.ts');
const bitmapOf = async (url: string) => (await pictures()).bitmapOf(url);

/** Brings in the picture that is traced, and has it ready to be drawn. */
export class Tracer {
  busy = $state(false);
  paging = $state.raw<Paging | null>(null);
  #easel: Easel;
  #shown = $state.raw<{ readonly image: string; readonly bitmap: ImageBitmap | null } | null>(null);
  #wanted: string | null = null;

  readonly scan: Scan | null = $derived.by(() => {
    const read = readScan(this.#easel.document.part.scan);
    return read?.ok ? read.value : null;
  });
  /** The picture as it is drawn; null while it is fetched, and where it is not to be had. */
  readonly bitmap: ImageBitmap | null = $derived.by(() =>
    this.#shown?.image === this.scan?.image ? (this.#shown?.bitmap ?? null) : null,
  );
  /** Whether the part names a picture that this browser does not have. */
  readonly lost: boolean = $derived.by(
    () => this.#shown !== null && this.#shown.image === this.scan?.image && this.#shown.bitmap === null,
  );

  constructor(easel: Easel) {
    this.#easel = easel;
  }

  /** Asks for a picture or a PDF, and takes it. */
  ask(): void {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = 'image/png,image/jpeg,image/webp,application/pdf,.pdf';
    input.addEventListener('change', () => {
      const file = input.files?.[0];
      if (file) void this.take(file);
    });
    input.click();
  }

  /** Lays a picture under the drawing. A refusal is said in a sentence and changes nothing. */
  async take(file: File): Promise<void> {
    await this.#working(async () => {
      this.leavePages();
      const { kindOf, takePicture } = await pictures();
      if ((await kindOf(file)) === 'picture') return this.#lay(await takePicture(file));
      const { openPdf } = await import('../../keep/picture/pdf-pages.ts');
      const pages = await openPdf(file);
      this.paging = { name: file.name, pages };
      if (pages.count === 1) await this.#takePage(1);
    });
  }

  /** Lays a page of the PDF that was opened under the drawing. */
  async takePage(page: number): Promise<void> {
    await this.#working(() => this.#takePage(page));
  }

  leavePages(): void {
    this.paging?.pages.close();
    this.paging = null;
  }

  /** Has the picture of the part ready; called whenever the part may name another. */
  async fetch(image: string | undefined): Promise<void> {
    if (image === undefined || image === this.#wanted) return;
    this.#wanted = image;
    const url = await this.#easel.pictures.find(image);
    const bitmap = url === null ? null : await bitmapOf(url);
    if (this.#wanted === image) this.#shown = { image, bitmap };
  }

  async #takePage(page: number): Promise<void> {
    if (!this.paging) return;
    const { pages } = this.paging;
    try {
      this.#lay(await pages.picture(page));
    } finally {
      if (pages.count === 1 || this.scan) this.leavePages();
    }
  }

  #lay({ name, url, width, height }: TakenPicture): void {
    const { part } = this.#easel.document;
    const image = this.#easel.pictures.hold(url);
    const before = this.scan;
    // The same picture again, or a better copy of one that was lost, lies as it lay.
    const stays = before !== null && before.width === width && before.height === height && this.lost;
    const scan = stays
      ? { ...before, image }
      : { image, name, width, height, ...roughly(width, height, ACROSS) };
    this.#easel.edit(setScan(part, scan, `Picture ${name} to trace`));
    this.#easel.say(
      stays
        ? `${name} lies where the picture lay before.`
        : `${name} lies under the drawing. Bring it to scale: “Place” wants two picks and a size.`,
    );
  }

  async #working(work: () => Promise<void>): Promise<void> {
    this.busy = true;
    try {
      await work();
    } catch (fault) {
      this.#easel.say(fault instanceof Error ? fault.message : String(fault), true);
    } finally {
      this.busy = false;
    }
  }
}
