import { pm, type Length } from '../lengths/length.ts';
import { readSize } from '../lengths/read-size.ts';
import { readTolerance } from '../lengths/read-tolerance.ts';
import type { WrittenSize, WrittenTolerance } from '../lengths/written.ts';
import { fitDeviations, readFitClass } from '../standards/iso286.ts';
import { bandAround, generalTolerance } from './general-rules.ts';
import { fault, valueAt, warn, type ResolveContext } from './resolve-context.ts';
import type { ResolvedSize } from './resolved.ts';
import type { SizeText } from './types.ts';

/** What a size is the size of: it says which general rule serves, and which way a class of fit is written. */
export type Use = 'length' | 'edge' | 'shaft' | 'hole';

type Placed = {
  readonly text: string;
  readonly at: string;
  readonly tol: string | undefined;
  readonly tolAt: string;
  readonly reference: boolean;
};

/** A size with the places of its texts. A length may carry `tol` and `role` beside its size. */
function placed(
  size: SizeText,
  where: string,
  beside: { tol?: string; role?: string },
  besideAt: string,
): Placed {
  const inner = typeof size === 'string' ? { size } : size;
  const tolInside = 'tol' in inner && inner.tol !== undefined;
  return {
    text: inner.size,
    at: typeof size === 'string' ? where : `${where}.size`,
    tol: tolInside ? inner.tol : beside.tol,
    tolAt: tolInside ? `${where}.tol` : `${besideAt}.tol`,
    reference: isReference(size, beside.role),
  };
}

/** Bracketed on the plan: the size, or the length it stands in, has the role `reference`. */
export const isReference = (size: SizeText, role?: string): boolean =>
  role === 'reference' || (typeof size !== 'string' && size.role === 'reference');

type Bounds = Pick<ResolvedSize, 'min' | 'max' | 'limitsFrom'>;

function byFit(context: ResolveContext, nominal: Length, fit: string, use: Use, where: string) {
  const read = readFitClass(fit);
  const wrongSide = read.ok && (use === 'shaft' ? read.value.hole : use === 'hole' && !read.value.hole);
  if (wrongSide) {
    const [is, wants] = use === 'shaft' ? ['a hole', 'a small letter'] : ['a shaft', 'a capital letter'];
    fault(
      context,
      'fit-wrong-side',
      where,
      `${fit} is a class for ${is}; here it is written with ${wants}.`,
      { fit },
    );
    return null;
  }
  const band = valueAt(context, fitDeviations(nominal, fit), where);
  return band && bandAround(nominal, band);
}

function byTolerance(
  context: ResolveContext,
  nominal: Length,
  tolerance: WrittenTolerance,
  use: Use,
  where: string,
): { min: Length; max: Length } | null {
  if (tolerance.kind === 'fit') return byFit(context, nominal, tolerance.fit, use, where);
  return bandAround(nominal, tolerance);
}

/** Limits by what stands with the size itself; undefined where nothing does, null where it cannot be read. */
function ownBounds(
  context: ResolveContext,
  size: Placed,
  written: WrittenSize,
  use: Use,
): Bounds | null | undefined {
  const inText = written.limits !== null || written.fit !== null;
  if (inText && size.tol !== undefined) {
    const say = 'The size carries limits and has a tolerance beside it; those in the size hold.';
    warn(context, 'tolerance-twice', size.tolAt, say);
  }
  if (written.limits) return { ...written.limits, limitsFrom: 'written' };
  if (written.fit !== null) {
    const limits = byFit(context, written.nominal, written.fit, use, size.at);
    return limits && { ...limits, limitsFrom: 'fit' };
  }
  if (size.tol === undefined) return undefined;
  const tolerance = valueAt(context, readTolerance(size.tol, written.unit), size.tolAt);
  const limits = tolerance && byTolerance(context, written.nominal, tolerance, use, size.tolAt);
  return limits && { ...limits, limitsFrom: tolerance.kind === 'fit' ? 'fit' : 'written' };
}

function generalBounds(context: ResolveContext, size: Placed, written: WrittenSize, use: Use): Bounds | null {
  const rule = use === 'shaft' || use === 'hole' ? context.rules.diameters : context.rules.lengths;
  const tolerance = generalTolerance(rule, written, use === 'edge' ? 'edge' : 'linear');
  if (!tolerance) {
    const say = `“${size.text}” carries no limits and no general rule gives it any; it is taken as exact.`;
    warn(context, 'no-limits', size.at, say, { text: size.text });
    return null;
  }
  const limits = byTolerance(context, written.nominal, tolerance, use, size.at);
  // A rule wider than the size itself (1/64 on a chamfer of 1/64) allows nothing less than none.
  return limits && { min: pm(Math.max(0, limits.min)), max: limits.max, limitsFrom: 'general' };
}

function boundsOf(context: ResolveContext, size: Placed, written: WrittenSize, use: Use): Bounds {
  const exact: Bounds = { min: written.nominal, max: written.nominal, limitsFrom: 'none' };
  const own = ownBounds(context, size, written, use);
  if (own) {
    if (own.min >= 0) return own;
    const say = `“${size.text}” with its tolerance goes below nothing.`;
    fault(context, 'limits-below-zero', size.tol === undefined ? size.at : size.tolAt, say, {
      text: size.text,
    });
    return exact;
  }
  if (own === null || (size.reference && (use === 'length' || use === 'edge'))) return exact;
  return generalBounds(context, size, written, use) ?? exact;
}

/**
 * Reads a size and works its limits out, in this order: limits written in it, a tolerance beside it, a class of fit
 * (capitals for holes), the general rule, else exact with the warning `no-limits`. A reference length takes no
 * general limits, as it binds nothing.
 *
 * @returns Null where the text is no size, or is nothing at all; the context's errors name it at `where`. A size
 *   whose tolerance cannot be read comes back exact, with the error.
 */
export function resolveSize(
  context: ResolveContext,
  size: SizeText | undefined,
  where: string,
  use: Use,
  beside: { tol?: string; role?: string; at?: string } = {},
): ResolvedSize | null {
  const spot = placed(size ?? '', where, beside, beside.at ?? where);
  const written = valueAt(context, readSize(spot.text, context.unit), spot.at);
  if (!written) return null;
  if (written.nominal <= 0) {
    fault(context, 'size-zero', spot.at, `“${spot.text}” is nothing; a size is larger than 0.`, {
      text: spot.text,
    });
    return null;
  }
  return {
    nominal: written.nominal,
    ...boundsOf(context, spot, written, use),
    text: spot.text,
    unit: written.unit,
    decimals: written.decimals,
    fraction: written.fraction,
    reference: spot.reference,
  };
}
