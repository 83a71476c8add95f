/**
 * The outside of the bar while a plan is being thought out, in u (pm): level pieces only, a cone counted in
 * steps that stand over it; in order from the tailstock. It serves to count passes and to see how stiff the bar is; what proves a plan is the virtual lathe.
 */
export type Piece = { readonly u0: number; readonly u1: number; readonly d: number };

/** Turns everything between u0 and u1 down to d; metal thinner than that stays as it is. */
export function turned(pieces: readonly Piece[], u0: number, u1: number, d: number): Piece[] {
  if (u0 >= u1) return [...pieces];
  // What lies before and behind the cut stays as it is.
  let first = 0;
  while ((pieces[first]?.u1 ?? Infinity) <= u0) first++;
  let end = first;
  while ((pieces[end]?.u0 ?? Infinity) < u1) end++;
  const out = pieces.slice(0, first);
  for (const piece of pieces.slice(first, end))
    if (piece.d <= d) out.push(piece);
    else turnPiece(out, piece, u0, u1, d);
  return out.concat(pieces.slice(end));
}

function turnPiece(out: Piece[], piece: Piece, u0: number, u1: number, d: number): void {
  const from = Math.max(piece.u0, u0);
  const to = Math.min(piece.u1, u1);
  if (piece.u0 < from) out.push({ u0: piece.u0, u1: from, d: piece.d });
  if (d > 0) out.push({ u0: from, u1: to, d });
  if (to < piece.u1) out.push({ u0: to, u1: piece.u1, d: piece.d });
}

const CONE_STEPS = 6;

/** Turns a cone, as steps that stand no lower than it anywhere. */
export function coned(pieces: readonly Piece[], u0: number, u1: number, d0: number, d1: number): Piece[] {
  const at = (from: number, to: number, i: number): number =>
    Math.round(from + ((to - from) * i) / CONE_STEPS);
  let out = [...pieces];
  for (let i = 0; i < CONE_STEPS; i++)
    out = turned(out, at(u0, u1, i), at(u0, u1, i + 1), Math.max(at(d0, d1, i), at(d0, d1, i + 1)));
  return out;
}

/** The largest diameter standing between u0 and u1; 0 where nothing stands. */
export function thickest(pieces: readonly Piece[], u0: number, u1: number): number {
  let most = 0;
  for (const p of pieces) if (p.u0 < u1 && p.u1 > u0 && p.d > most) most = p.d;
  return most;
}

/** The smallest diameter standing between u0 and u1; 0 where nothing stands. */
export function thinnest(pieces: readonly Piece[], u0: number, u1: number): number {
  const within = pieces.filter((p) => p.u0 < u1 && p.u1 > u0).map((p) => p.d);
  return within.length ? Math.min(...within) : 0;
}

/**
 * How far a tool must stay from `u` so that its trailing edge, which rises from the tip toward `side` at the given
 * angle, clears everything that stands there; 0 where it is clear at u itself. `slack`: height on the diameter that
 * does no harm.
 */
export function roomWanted(
  pieces: readonly Piece[],
  tip: { readonly u: number; readonly d: number },
  side: 'tail' | 'head',
  edge: { readonly trailingDeg: number; readonly slack: number },
): number {
  const rise = 2 * Math.tan((Math.max(edge.trailingDeg, 1) * Math.PI) / 180);
  let wanted = 0;
  for (const piece of pieces) {
    const beyond = side === 'tail' ? piece.u0 < tip.u : piece.u1 > tip.u;
    if (!beyond) continue;
    const near = side === 'tail' ? Math.max(0, tip.u - piece.u1) : Math.max(0, piece.u0 - tip.u);
    wanted = Math.max(wanted, (piece.d - tip.d - edge.slack) / rise - near);
  }
  return Math.ceil(wanted);
}
