import { readLathe } from '../../core/part/read-lathe.ts';
import { readPart } from '../../core/part/read-part.ts';
import type { Carried } from '../../keep/carried.ts';
import type { Piece } from '../../keep/carry-code.ts';
import type { Incoming } from '../../keep/files.ts';
import type { PlaceId } from '../places.ts';

/** What a carrier needs of the app: a board to put the part on. */
export type Board = {
  place: PlaceId;
  readonly lathe: unknown;
  take(incoming: Incoming): void;
  takeLathe(incoming: Incoming): void;
};

export const NAME = 'part by code';

/** How far the reading of codes has come. */
export type Gathered = { readonly read: readonly number[]; readonly count: number };

/** Takes in the links of codes one by one, and puts the part on the board once all are there. */
export class Carrier {
  /** What the page of codes shows; null where it is closed. */
  page = $state<'show' | 'read' | null>(null);
  gathered = $state.raw<Gathered | null>(null);
  refused = $state('');
  #board: Board;
  #carried: Carried | null = null;

  constructor(board: Board) {
    this.#board = board;
  }

  /** Numbers of the codes that are still to be read. */
  get missing(): readonly number[] {
    const { read, count } = this.gathered ?? { read: [], count: 0 };
    return Array.from({ length: count }, (_, i) => i + 1).filter((number) => !read.includes(number));
  }

  /**
   * Takes in one link. `other`: it is none of ours; `refused`: said in `refused`, and nothing is changed; `more`: kept,
   * others are missing; `opened`: that was the last, and the part is on the board.
   */
  async take(link: string): Promise<'other' | 'refused' | 'more' | 'opened'> {
    const [{ readPiece }, { Carried }] = await Promise.all([
      import('../../keep/carry-code.ts'),
      import('../../keep/carried.ts'),
    ]);
    const piece = readPiece(link);
    if (!piece) {
      this.refused = 'This is no code of a part.';
      return 'other';
    }
    this.page = 'read';
    if (!piece.ok) return this.#refuse(piece.say);
    const carried = (this.#carried ??= new Carried());
    const pieces = await carried.add(piece.value, Date.now());
    this.refused = '';
    this.gathered = { read: pieces.map(({ number }) => number), count: piece.value.count };
    if (this.missing.length > 0) return 'more';
    return this.#open(piece.value, pieces, carried);
  }

  async #open({ whole }: Piece, pieces: readonly Piece[], carried: Carried): Promise<'refused' | 'opened'> {
    const [{ joinPieces }, { unpackParcel }] = await Promise.all([
      import('../../keep/carry-code.ts'),
      import('./parcel.ts'),
    ]);
    const text = await joinPieces(pieces);
    await carried.drop(whole);
    this.gathered = null;
    const parcel = text.ok ? unpackParcel(text.value) : text;
    if (!parcel.ok) return this.#refuse(parcel.say);
    const { part, lathe } = parcel.value;
    const reads = [readPart(part, NAME), readLathe(lathe, 'lathe by code')];
    for (const read of reads) if (!read.ok) return this.#refuse(read.problem.say);
    // The lathe first: what is said last is that the part is on the board.
    if (lathe !== JSON.stringify(this.#board.lathe))
      this.#board.takeLathe({ name: 'lathe by code', text: lathe });
    this.#board.take({ name: NAME, text: part });
    this.#board.place = 'turn';
    this.page = null;
    return 'opened';
  }

  #refuse(say: string): 'refused' {
    this.refused = say;
    return 'refused';
  }
}
