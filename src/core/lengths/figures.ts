import { pm, type Length } from './length.ts';
import { isRefusal, refuse, type Refusal } from './refusal.ts';
import { scan, type Token, type TypedUnit } from './scan.ts';

/** A figure as written: an exact quotient, still without a unit unless one stands behind it. */
export type Figure = {
  readonly num: bigint;
  readonly den: bigint;
  /** Decimals written; null for a fraction. */
  readonly decimals: number | null;
  readonly fraction: boolean;
  /** Has a decimal mark. */
  readonly marked: boolean;
  readonly unit: TypedUnit | null;
  readonly at: number;
  readonly end: number;
};

type NumberToken = Extract<Token, { kind: 'number' }>;

const LARGEST = 10_000_000_000_000n;

/** Walks the tokens of a text once, left to right. */
export class Cursor {
  readonly #tokens: readonly Token[];
  #next = 0;

  constructor(text: string) {
    this.#tokens = scan(text);
  }

  /** The token `ahead` places on; past the end, the `end` token. */
  peek(ahead = 0): Token {
    const last = this.#tokens.length - 1;
    const token = this.#tokens[Math.min(this.#next + ahead, last)];
    if (!token) throw new RangeError('Cursor.peek: a scan always ends in an end token');
    return token;
  }

  take(): Token {
    const token = this.peek();
    this.#next += 1;
    return token;
  }

  /** Takes the next token where it is of `kind`, and says whether it was. */
  takeIf(kind: Token['kind']): boolean {
    const found = this.peek().kind === kind;
    if (found) this.#next += 1;
    return found;
  }
}

/** Null at the end of the text, else the refusal of what is left over. */
export function leftOver(cursor: Cursor): Refusal | null {
  const token = cursor.peek();
  if (token.kind === 'end') return null;
  return refuse(token.kind === 'stray' ? token.why : 'left-over', token);
}

/** What stands where a figure should. */
function noFigure(token: Token): Refusal {
  if (token.kind === 'stray') return refuse(token.why, token);
  if (token.kind === 'dash') return refuse('negative', token);
  return refuse('expected-figure', token);
}

const decimalFigure = (token: NumberToken): Figure => ({
  num: BigInt(token.digits),
  den: 10n ** BigInt(token.decimals),
  decimals: token.decimals,
  fraction: false,
  marked: token.marked,
  unit: null,
  at: token.at,
  end: token.end,
});

function fractionFigure(whole: NumberToken | null, over: readonly [bigint, bigint], at: number, end: number) {
  const [num, den] = over;
  if (den === 0n) return refuse('over-nothing', { at, end });
  if (whole && num >= den) return refuse('improper', { at, end });
  const all = BigInt(whole?.digits ?? '0') * den + num;
  const figure: Figure = {
    num: all,
    den,
    decimals: null,
    fraction: true,
    marked: false,
    unit: null,
    at: whole?.at ?? at,
    end,
  };
  return figure;
}

const isCount = (token: Token): token is NumberToken => token.kind === 'number' && !token.marked;

/** The fraction that begins `ahead` tokens on (`5/8` or `⅝`), and how many tokens it takes; null where none does. */
function fractionAhead(cursor: Cursor, ahead: number) {
  const first = cursor.peek(ahead);
  if (first.kind === 'vulgar') return { over: first.over, at: first.at, end: first.end, tokens: 1 };
  const solidus = cursor.peek(ahead + 1);
  const last = cursor.peek(ahead + 2);
  if (!isCount(first) || solidus.kind !== 'solidus' || !isCount(last)) return null;
  const over: readonly [bigint, bigint] = [BigInt(first.digits), BigInt(last.digits)];
  return { over, at: first.at, end: last.end, tokens: 3 };
}

/** Tokens between a whole number and its fraction: none, or a hyphen that is set evenly (`1-5/8`, not `1 -5/8`). */
function joinAhead(cursor: Cursor, hyphens: boolean): number {
  const [whole, dash, after] = [cursor.peek(0), cursor.peek(1), cursor.peek(2)];
  if (dash.kind !== 'dash') return 0;
  return hyphens && dash.at - whole.end === after.at - dash.end ? 1 : -1;
}

function skip(cursor: Cursor, tokens: number) {
  for (let i = 0; i < tokens; i += 1) cursor.take();
}

/**
 * Reads one figure with the unit behind it: `.428`, `5/8`, `1 5/8`, `1⅝`, `12,5 mm`. `hyphens` allows `1-5/8`,
 * which a deviation may not, as its hyphen begins the next deviation.
 */
export function readFigure(cursor: Cursor, hyphens: boolean): Figure | Refusal {
  const bare = bareFigure(cursor, hyphens);
  if (isRefusal(bare)) return bare;
  const behind = cursor.peek();
  if (behind.kind !== 'unit') return bare;
  cursor.take();
  return { ...bare, unit: behind.typed, end: behind.end };
}

function bareFigure(cursor: Cursor, hyphens: boolean): Figure | Refusal {
  const first = cursor.peek();
  const alone = fractionAhead(cursor, 0);
  if (alone) {
    skip(cursor, alone.tokens);
    return fractionFigure(null, alone.over, alone.at, alone.end);
  }
  if (first.kind !== 'number') return noFigure(first);
  const join = isCount(first) ? joinAhead(cursor, hyphens) : -1;
  const beside = join < 0 ? null : fractionAhead(cursor, 1 + join);
  skip(cursor, beside ? 1 + join + beside.tokens : 1);
  return beside && isCount(first)
    ? fractionFigure(first, beside.over, beside.at, beside.end)
    : decimalFigure(first);
}

/** The figure as a length in `unit`; refused where it is no whole number of picometres or over 10 m. */
export function figureLength(figure: Figure, unit: TypedUnit): { readonly length: Length } | Refusal {
  const scaled = figure.num * unit.pm;
  if (scaled > LARGEST * figure.den) return refuse('too-large', figure);
  if (scaled % figure.den !== 0n) return refuse('not-whole', figure);
  return { length: pm(Number(scaled / figure.den)) };
}
