/** What a stretch of the sheet is: standard structure types of ISO 32000-1, 14.8.4. */
export type Role = 'Document' | 'Sect' | 'H1' | 'H2' | 'P' | 'Table' | 'TR' | 'TH' | 'TD' | 'Figure';

/** A stretch of one page's ink, by its number on that page. */
export type Mark = { readonly page: number; readonly id: number };

/** One element of the sheet in the order of reading, for those who hear it read out: what it is, and what it holds. */
export class Tag {
  readonly role: Role;
  /** What a picture shows, in words. */
  readonly alt: string | null;
  readonly parts: (Tag | Mark)[];

  constructor(role: Role, alt: string | null = null) {
    this.role = role;
    this.alt = alt;
    this.parts = [];
  }

  /** A new last part. */
  add(role: Role, alt: string | null = null): Tag {
    const tag = new Tag(role, alt);
    this.parts.push(tag);
    return tag;
  }
}
