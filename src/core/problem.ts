/** One thing that is wrong or worth knowing, as data: programs compare `code` and `where`, people read `say`. */
export type Problem = {
  /** A fixed word, listed in docs/problems.md. */
  readonly code: string;
  /** The place: an id ("L5", "s1") or a path in the file ("lengths[3].size"). */
  readonly where: string;
  /** The sentence a person reads. */
  readonly say: string;
  /** Figures and names behind the sentence, for programs and tests. */
  readonly facts?: Readonly<Record<string, string | number | boolean | null | readonly string[]>>;
};

/** Either what was asked for, or why not. */
export type Outcome<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: Problem };
