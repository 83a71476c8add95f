// Run by: node src/tools/run-ts.mjs tests/speed/stiffness.ts
// Deflection at 100 tool positions on a 20-step bar, as a ratio to a bare moment-area loop over the same steps in the
// same run. Ends with code 1 where it takes more than ten times as long.
import { beamOf, deflection, secondMoment } from '../../src/core/stiffness/beam.ts';
import type { BeamPiece } from '../../src/core/stiffness/beam.ts';

const MOST = 10;
const pieces: BeamPiece[] = Array.from({ length: 20 }, (_, i) => ({
  z0_mm: 10 * i,
  z1_mm: 10 * i + 10,
  d_mm: 20 - i / 2,
  bore_mm: 0,
}));
const places = Array.from({ length: 100 }, (_, i) => 2 * i + 1);

const cube = (x: number): number => x * x * x;

/** Free end, load and question at one place: ∫ (a − s)² / EI ds, step by step. */
function bareLoop(): number {
  const flex = pieces.map((p) => 1 / (205_000 * secondMoment(p.d_mm, 0)));
  let sum = 0;
  for (const a of places)
    for (let i = 0; i < pieces.length; i++) {
      const piece = pieces[i];
      if (!piece || piece.z0_mm >= a) break;
      const rest = Math.max(0, a - piece.z1_mm);
      sum += ((flex[i] ?? 0) * (cube(a - piece.z0_mm) - cube(rest))) / 3;
    }
  return sum;
}

const ours = (centre: boolean) => (): number => {
  const beam = beamOf(pieces, { centre, steadyAt_mm: null }, 205_000);
  return places.reduce((sum, a) => sum + deflection(beam, a, a), 0);
};

/** Least time of many rounds, in microseconds: other work on the machine can only add to it. */
function microseconds(job: () => number): number {
  let best = Infinity;
  for (let round = 0; round < 60; round++) {
    const start = performance.now();
    for (let i = 0; i < 50; i++) job();
    best = Math.min(best, ((performance.now() - start) / 50) * 1000);
  }
  return best;
}

if (Math.abs(ours(false)() / bareLoop() - 1) > 1e-9) throw new Error('the two do not agree');
const bare = microseconds(bareLoop);
for (const [name, job] of [
  ['grip alone', ours(false)],
  ['with a centre', ours(true)],
] as const) {
  const ratio = microseconds(job) / bare;
  console.log(
    `${name}: ${(ratio * bare).toFixed(1)} µs, ${ratio.toFixed(1)} times the bare loop (${bare.toFixed(1)} µs)`,
  );
  if (ratio > MOST) process.exitCode = 1;
}
