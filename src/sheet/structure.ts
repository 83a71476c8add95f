import { PDFName, PDFObject } from 'pdf-lib';
import type { PDFDocument, PDFRef } from 'pdf-lib';
import { Tag } from './tags.ts';
import { utf16 } from './typeface.ts';

/** An object that is written as it stands: a sheet has thousands of tags, and dictionaries of them cost their time. */
class Written extends PDFObject {
  readonly #text: string;

  /** `text` is ASCII. */
  constructor(text: string) {
    super();
    this.#text = text;
  }

  override toString(): string {
    return this.#text;
  }

  override sizeInBytes(): number {
    return this.#text.length;
  }

  override copyBytesInto(buffer: Uint8Array, offset: number): number {
    for (let i = 0; i < this.#text.length; i++) buffer[offset + i] = this.#text.charCodeAt(i);
    return this.#text.length;
  }
}

/**
 * Writes the tree of tags into the file: ISO 32000-1, 14.7 (logical structure) and 14.8 (tagged PDF).
 *
 * @param marks - For each page, which tag each stretch of its ink belongs to, by the stretch's number.
 */
export function writeStructure(doc: PDFDocument, document: Tag, marks: readonly (readonly Tag[])[]): void {
  const { context, catalog } = doc;
  const root = context.nextRef();
  const pages = doc.getPages();
  const refs = new Map<Tag, PDFRef>();
  const number = (tag: Tag): void => {
    refs.set(tag, context.nextRef());
    for (const part of tag.parts) if (part instanceof Tag) number(part);
  };
  number(document);
  const write = (tag: Tag, parent: PDFRef): void => {
    const own = refs.get(tag);
    if (!own) return;
    const first = tag.parts.find((part) => !(part instanceof Tag));
    const on = first && !(first instanceof Tag) ? first.page : null;
    const kids = tag.parts.map((part) => {
      if (part instanceof Tag) return String(refs.get(part));
      return part.page === on ? String(part.id) : markOn(pages[part.page]?.ref, part.id);
    });
    const entries = [
      `/S/${tag.role}/P ${String(parent)}`,
      ...(on === null ? [] : [`/Pg ${String(pages[on]?.ref)}`]),
      ...(kids.length > 1 ? [`/K[${kids.join(' ')}]`] : kids.map((kid) => `/K ${kid}`)),
      ...(tag.alt === null ? [] : [`/Alt<FEFF${utf16(tag.alt)}>`]),
      ...(tag.role === 'TH' ? ['/A<</O/Table/Scope/Column>>'] : []),
    ];
    context.assign(own, new Written(`<<${entries.join('')}>>`));
    for (const part of tag.parts) if (part instanceof Tag) write(part, own);
  };
  write(document, root);
  const parents = marks.map((tags, i) => `${i}[${tags.map((tag) => String(refs.get(tag))).join(' ')}]`);
  const tree = context.register(new Written(`<</Nums[${parents.join('')}]>>`));
  const top = `<</Type/StructTreeRoot/K ${String(refs.get(document))}/ParentTree ${String(tree)}/ParentTreeNextKey ${marks.length}>>`;
  context.assign(root, new Written(top));
  pages.forEach(({ node }, i) => {
    node.set(PDFName.of('StructParents'), context.obj(i));
    // By the tab key one goes through a page in the order of its tags.
    node.set(PDFName.of('Tabs'), PDFName.of('S'));
  });
  catalog.set(PDFName.of('StructTreeRoot'), root);
  catalog.set(PDFName.of('MarkInfo'), context.obj({ Marked: true }));
}

const markOn = (page: PDFRef | undefined, id: number): string =>
  `<</Type/MCR/Pg ${String(page)}/MCID ${id}>>`;
