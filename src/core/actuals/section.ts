import { solveChains } from '../chains/solve.ts';
import type { SolvedChains } from '../chains/types.ts';
import { minus, pm, PM_PER, toMm, type Unit, ZERO } from '../lengths/length.ts';
import type { Lathe } from '../part/lathe.ts';
import { resolveLathe } from '../part/resolve-lathe.ts';
import { resolvePart } from '../part/resolve.ts';
import type { ResolvedLathe, ResolvedPart } from '../part/resolved.ts';
import type { Actual, Part } from '../part/types.ts';
import type { Problem } from '../problem.ts';
import type { Note, Report } from '../report-types.ts';
import { edgesSaid } from './blade-edge.ts';
import { diameterAims, said } from './diameter-aims.ts';
import { type FaceLog, followFaces } from './face-log.ts';
import { faceMakers, heights } from './face-makers.ts';
import { type AtStep, followReadings, type Shop } from './follow-readings.ts';
import { inspect } from './inspection.ts';
import { lengthsNow } from './lengths-now.ts';
import { readActuals } from './read-actual.ts';
import { findStep, type Placed, placedSteps } from './step-name.ts';
import { stopFor } from './stop.ts';
import type { ActualsReport, Places, ShiftRow, StationNow } from './types.ts';

/** What the plan gives: the plan itself and the diameters with their aims. */
export type Made = Pick<Report, 'plan' | 'diameters'>;

/**
 * The `actuals` section of the report: what was measured and ticked, and what follows from it. Null where the chains
 * place no part, as there is nothing to hold a measured size against.
 *
 * A size that cannot be read, or was measured at a step or a face that is no longer there, stands in `notes`; the rest
 * counts. With nothing measured and nothing ticked the lists of readings, shifts, marks and aims are empty.
 */
export function actualsSection(
  part: Part,
  resolved: ResolvedPart,
  chains: SolvedChains,
  lathe: ResolvedLathe,
  made: Made,
): ActualsReport | null {
  if (!chains.placeable) return null;
  const log = part.actuals ?? [];
  const aims: Places = new Map([...chains.places].map(([id, { aim }]) => [id, aim]));
  const steps = made.plan ? placedSteps(made.plan) : [];
  const { measured, problems } = readActuals(log, part.unit);
  const sizes = new Map(measured.map(({ at, size }) => [at, size]));
  const makers = faceMakers(resolved, made.diameters, steps);
  const faces = followFaces(resolved, aims, log, sizes, { steps, makers });
  const diameters = diameterAims(resolved, made.diameters, log, sizes, steps);
  const done = doneCuts(log, steps);
  const measuredAt = byCut(measured, steps);
  const edgeAt = edgesSaid(log, steps);
  const shop: Shop = { lathe, steps, done, aims, faces, diameters, measuredAt, edgeAt };
  const height = heights(made.diameters);
  const lengths = lengthsNow(resolved, faces, height);
  const followed = followReadings(shop);
  const notes = [
    ...problems,
    ...faces.problems,
    ...(made.plan ? goneSteps(log, steps) : []),
    ...farOff(log, faces, resolved.unit),
    ...unsprung(measuredAt, steps, followed.shifts),
  ];
  return {
    done: [...done].sort((a, b) => a - b),
    ...followed,
    stations: stationsNow(resolved, aims, faces),
    lengths,
    stop: stopFor(resolved, aims, faces, height),
    aims: diameters,
    inspection: inspect(resolved, made.diameters, faces, measured, steps),
    notes: notes.map(({ code, where, say }): Note => ({ code, where, say })),
  };
}

/** The same from the documents, with the report that was worked out for them; quick enough for every key typed. */
export function actualsOf(part: Part, lathe: Lathe, made: Made): ActualsReport | null {
  const resolved = resolvePart(part);
  return actualsSection(part, resolved, solveChains(resolved), resolveLathe(lathe), made);
}

function doneCuts(log: readonly Actual[], steps: readonly Placed[]): ReadonlySet<number> {
  const done = new Set<number>();
  for (const actual of log) {
    const step = actual.what === 'done' ? findStep(steps, actual.step) : null;
    if (step) done.add(step.cut.n);
  }
  return done;
}

function byCut(
  measured: readonly AtStep[],
  steps: readonly Placed[],
): ReadonlyMap<number, readonly AtStep[]> {
  const found = new Map<number, AtStep[]>();
  for (const one of measured) {
    const step = findStep(steps, one.actual.step);
    if (step) found.set(step.cut.n, [...(found.get(step.cut.n) ?? []), one]);
  }
  return found;
}

function stationsNow({ faces, points }: ResolvedPart, aims: Places, log: FaceLog): StationNow[] {
  return [...faces, ...points].map((station) => {
    const place = log.resolved.places.get(station) ?? ZERO;
    const state = log.measured.has(station) ? 'measured' : log.standing.has(station) ? 'cut' : 'open';
    return { station, state, z_mm: toMm(place), moved_mm: toMm(minus(place, aims.get(station) ?? ZERO)) };
  });
}

function goneSteps(log: readonly Actual[], steps: readonly Placed[]): Problem[] {
  return log.flatMap((actual, at): Problem[] => {
    const { step } = actual;
    if (!step || findStep(steps, step)) return [];
    const say = `The plan has no ${step.kind} number ${step.pass} of ${step.of} any more: ${actual.what === 'done' ? 'its tick' : 'what was measured there'} is kept, but no reading follows from it.`;
    return [{ code: 'step-gone', where: `actuals[${at}].step`, say }];
  });
}

/** One turn of a micrometer's thimble: the misreading that is made most (common practice, no source). */
const THIMBLE: Readonly<Record<Unit, number>> = { in: PM_PER.in / 40, mm: PM_PER.mm / 2 };

function farOff(log: readonly Actual[], { cameOut }: FaceLog, unit: Unit): Problem[] {
  return [...cameOut].flatMap(([at, { aimed, apart }]): Problem[] => {
    const actual = log[at];
    const off = Math.abs(apart - aimed);
    if (actual?.what !== 'face' || off < THIMBLE[actual.unit ?? unit]) return [];
    const was = said(pm(Math.abs(aimed)), unit);
    const say = `${actual.of} was to stand ${was} ${unit} from ${actual.from}, and “${actual.text}” was typed: that is a turn of a micrometer or more. Measure again before going on.`;
    return [{ code: 'measured-far-off', where: `actuals[${at}].text`, say }];
  });
}

/** A readout corrected by what was cut without a spring pass: it takes along what the work and the tool gave way by. */
function unsprung(
  measuredAt: ReadonlyMap<number, readonly AtStep[]>,
  steps: readonly Placed[],
  shifts: readonly ShiftRow[],
): Problem[] {
  const corrected = new Set(shifts.filter(({ set }) => set !== 'none').map(({ after }) => after));
  return [...measuredAt].flatMap(([n, ones]) => {
    if (!corrected.has(n)) return [];
    const index = steps.findIndex(({ cut }) => cut.n === n);
    const here = steps[index];
    const before = steps
      .slice(0, index)
      .findLast(({ cut }) => cut.segment === here?.cut.segment && cut.tool !== null);
    if (here?.cut.kind !== 'measure' || here.cut.segment === null) return [];
    if (!before || before.cut.kind === 'spring' || before.cut.kind === 'groove') return [];
    return ones
      .filter(({ actual }) => actual.what === 'diameter')
      .map(({ at }): Problem => {
        const say = `${here.cut.segment} was measured without a spring pass: part of what it is off by may be spring of the work and the tool, which a lighter cut has less of.`;
        return { code: 'no-spring-pass', where: `actuals[${at}]`, say };
      });
  });
}
