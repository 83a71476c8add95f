import { solveChains } from '../chains/solve.ts';
import type { Unit } from '../lengths/length.ts';
import type { Lathe } from '../part/lathe.ts';
import { resolveLathe } from '../part/resolve-lathe.ts';
import { resolvePart } from '../part/resolve.ts';
import type { FacePin, Part, PartLength, Pins } from '../part/types.ts';
import type { ChartRow, Plan } from './types.ts';
import { planPart } from './ways.ts';

/** What mends a drawing length that the plan does not hold: things to settle, or limits to write, and what follows. */
export type ChartAdvice = {
  readonly length: string;
  /** "Measure L3 at the lathe before its last cut." */
  readonly say: string;
  /** "Held to ±0.03 mm; 4 holdings, not 3." */
  readonly then: string;
  /** All pins of the part as they would be; null where limits are written instead. */
  readonly pins: Pins | null;
  /** The tolerance that would be written beside the length; null where something is settled instead. */
  readonly tol: string | null;
};

type Try = { readonly say: string; readonly pins: Pins | null; readonly tol: string | null };

/**
 * What would hold a drawing length that this plan does not: measuring it at the lathe, cutting both its faces from one
 * end, another blade, another way, or wider limits. Each is planned through; only what then holds the length, and
 * leaves fewer lengths unheld than before, is given.
 *
 * Cost: one plan for each thing tried, up to nine.
 */
export function chartAdvice(part: Part, lathe: Lathe, plan: Plan, length: string): ChartAdvice[] {
  const row = plan.chart.find((r) => r.length === length);
  const drawn = part.lengths.find(({ id }) => id === length);
  if (!row || row.ok || !drawn) return [];
  const tries = [
    measuring(part, length),
    ...fromOneEnd(part, drawn, row),
    ...bladesOf(part, lathe, row),
    ...otherWays(part, plan),
    widerLimits(part.unit, row),
  ];
  return tries.flatMap((one) => verified(part, lathe, plan, length, one));
}

const failing = (plan: Plan): number => plan.chart.filter((row) => !row.ok).length;

function verified(part: Part, lathe: Lathe, plan: Plan, length: string, one: Try): ChartAdvice[] {
  const changed = withTry(part, length, one);
  const resolved = resolvePart(changed);
  const chains = solveChains(resolved);
  const machine = resolveLathe(lathe);
  if ([...resolved.errors, ...chains.errors].length > 0 || !chains.placeable) return [];
  const made = planPart(resolved, chains, machine).plan;
  const row = made?.chart.find((r) => r.length === length);
  if (!made || !row?.ok || failing(made) >= failing(plan)) return [];
  return [{ ...one, length, then: whatChanges(plan, made, row) }];
}

function withTry(part: Part, length: string, { pins, tol }: Try): Part {
  if (pins) return { ...part, pins };
  if (tol === null) return part;
  return {
    ...part,
    lengths: part.lengths.map((l) => (l.id === length ? withTol(l, tol) : l)),
  };
}

/** The tolerance stands where the size already carries one, else beside it. */
const withTol = (length: PartLength, tol: string): PartLength =>
  typeof length.size === 'object' && length.size.tol !== undefined
    ? { ...length, size: { ...length.size, tol } }
    : { ...length, tol };

function whatChanges(before: Plan, after: Plan, row: ChartRow): string {
  const half = (row.held_mm[1] - row.held_mm[0]) / 2;
  const [was, is] = [before.holdings.length, after.holdings.length];
  return [
    `held to ±${half.toFixed(3)} mm`,
    ...(was === is ? [] : [`${is} holdings instead of ${was}`]),
    ...(before.way?.name === after.way?.name ? [] : [`planned ${after.way?.name ?? ''}`]),
    ...(failing(after) > 0 ? [`${failing(after)} others still not held`] : []),
  ].join('; ');
}

const measuring = (part: Part, length: string): Try => ({
  say: `Measure ${length} at the lathe before its last cut.`,
  pins: { ...part.pins, measured: [...(part.pins?.measured ?? []), length] },
  tol: null,
});

/** Both faces of the length from the same end, so that no turning round comes between them. */
function fromOneEnd(part: Part, { from, to, id }: PartLength, row: ChartRow): Try[] {
  const holdings = new Set(row.through.map((node) => node.slice(0, node.indexOf(':'))));
  if (holdings.size < 2) return [];
  const ends = [part.faces[0]?.id, part.faces.at(-1)?.id].filter((end) => end !== undefined);
  const others = (part.pins?.faces ?? []).filter(({ face }) => face !== from && face !== to);
  return ends.map((end): Try => {
    const faces: FacePin[] = [...others, { face: from, from: end }, { face: to, from: end }];
    return {
      say: `Cut both faces of ${id} with end ${end} at the tailstock.`,
      pins: { ...part.pins, faces },
      tol: null,
    };
  });
}

/** The other blades of the lathe, where a blade makes a face of the length. */
function bladesOf(part: Part, lathe: Lathe, row: ChartRow): Try[] {
  const blades = lathe.tools.filter(({ kind }) => kind === 'blade').map(({ id }) => id);
  const used = blades.find((id) => row.through.some((node) => node.endsWith(`:${id}`)));
  if (used === undefined) return [];
  return blades
    .filter((id) => id !== used)
    .map((blade): Try => ({
      say: `Use only blade ${blade}.`,
      pins: { ...part.pins, blade },
      tol: null,
    }));
}

/** The best of the other ways; to try them all would take long. */
const MOST_WAYS = 3;

const otherWays = (part: Part, plan: Plan): Try[] =>
  plan.rejected
    .slice(0, MOST_WAYS)
    .flatMap(({ way, pins }): Try[] =>
      pins ? [{ say: `Plan it ${way}.`, pins: { ...part.pins, ...pins }, tol: null }] : [],
    );

/** The narrowest limits in round figures that the plan as it is would hold. */
function widerLimits(unit: Unit, { length, allowed_mm, held_mm }: ChartRow): Try {
  const middle = (allowed_mm[0] + allowed_mm[1]) / 2;
  const half = Math.max(held_mm[1] - middle, middle - held_mm[0]);
  const [step, per, digits] = unit === 'mm' ? [0.005, 1, 3] : [0.0005, 25.4, 4];
  const figure = (Math.ceil(half / per / step - 1e-9) * step).toFixed(digits);
  const tol = `±${unit === 'mm' ? figure : figure.replace(/^0/, '')}`;
  return { say: `Ask for wider limits on ${length}: ${tol} ${unit}.`, pins: null, tol };
}
