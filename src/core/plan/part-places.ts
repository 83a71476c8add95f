import type { Kept, Outline } from '../outline/types.ts';
import type { Cut, Holding, Mark, Plan, Reading } from './types.ts';

/**
 * A plan that was made for the part with its stubs, as a report gives it: places counted from the first face of the
 * part, and the stubs as waste that stays. Their cuts have no segment and make `stub`; no reading is on a stub's own
 * end, and no line is scribed there.
 *
 * @returns The very plan where nothing stays but the part.
 */
export function inPartCoordinates(plan: Plan, outline: Outline): Plan {
  const { kept } = outline;
  if (!kept) return plan;
  const start = startOf(kept, outline);
  const place = (z_mm: number): number => Math.round(z_mm * 1e9 - start) / 1e9;
  const cuts = (all: readonly Cut[]): Cut[] => all.map((cut) => placedCut(cut, kept, place));
  return {
    ...plan,
    stock: { ...plan.stock, z0_mm: place(plan.stock.z0_mm), z1_mm: place(plan.stock.z1_mm) },
    stubs: kept.stubs.map((stub) => {
      const { z0 = 0, z1 = 0, d0 = 0 } = outline.segments.find(({ id }) => id === stub.id) ?? {};
      const { id, face, outer, centre } = stub;
      return {
        ...{ id, end: face, outer, centre, d_mm: d0 / 1e9 },
        ...{ z0_mm: place(z0 / 1e9), z1_mm: place(z1 / 1e9) },
      };
    }),
    holdings: plan.holdings.map((h) => placedHolding(h, kept, place, cuts)),
    off_lathe: cuts(plan.off_lathe),
    ...(plan.stock_removal
      ? { stock_removal: plan.stock_removal.filter(({ face }) => !isOuter(kept, face)) }
      : {}),
    stiffness: plan.stiffness.filter(({ segment }) => !isStub(kept, segment)),
  };
}

/** Where the first face of the part lies in the outline, pm. */
function startOf({ bare, stubs }: Kept, { stations }: Outline): number {
  const first = stubs.find(({ end }) => end === 'first');
  const face = first?.face ?? bare.segments[0]?.left ?? '';
  return stations.get(face) ?? 0;
}

const isStub = ({ stubs }: Kept, segment: string | null): boolean => stubs.some(({ id }) => id === segment);
const isOuter = ({ stubs }: Kept, station: string | null | undefined): boolean =>
  stubs.some(({ outer }) => outer === station);

type Place = (z_mm: number) => number;

function placedCut(cut: Cut, kept: Kept, place: Place): Cut {
  const made = kept.stubs.some(({ id }) => cut.segment === id || cut.makes === `${id} centre`);
  const end = cut.kind === 'face' && cut.readings.some(({ station }) => isOuter(kept, station));
  return {
    ...cut,
    ...(made || end ? { segment: null, makes: 'stub' } : {}),
    z0_mm: place(cut.z0_mm),
    z1_mm: place(cut.z1_mm),
    readings: cut.readings.map((reading): Reading =>
      isOuter(kept, reading.station) ? { ...reading, station: null } : reading,
    ),
  };
}

function placedHolding(
  holding: Holding,
  kept: Kept,
  place: Place,
  cuts: (all: readonly Cut[]) => Cut[],
): Holding {
  const { grips, steady_at_mm, marks } = holding;
  return {
    ...holding,
    grips: grips && { ...grips, z0_mm: place(grips.z0_mm), z1_mm: place(grips.z1_mm) },
    steady_at_mm: steady_at_mm === null ? null : place(steady_at_mm),
    zero_z_mm: place(holding.zero_z_mm),
    marks: marks
      .filter(({ station }) => !isOuter(kept, station))
      .map((mark): Mark => ({ ...mark, z_mm: place(mark.z_mm) })),
    cuts: cuts(holding.cuts),
  };
}
