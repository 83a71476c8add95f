import type { Problem } from '../../problem.ts';
import { flaw } from './flaw.ts';
import type { Scene } from './scene.ts';

/** Verdicts must follow from their own figures. Codes: `chart-verdict`, `stiffness-verdict`. */
export function verdictFlaws({ plan }: Scene): Problem[] {
  const chart = plan.chart
    .filter(
      (r) => r.ok !== (r.held_mm[0] >= r.allowed_mm[0] - 1e-9 && r.held_mm[1] <= r.allowed_mm[1] + 1e-9),
    )
    .map((r) =>
      flaw('chart-verdict', r.length, `The chart's verdict on ${r.length} does not follow from its figures.`),
    );
  const stiff = plan.stiffness
    .filter((r) => r.ok !== r.error_mm <= r.limit_mm)
    .map((r) =>
      flaw(
        'stiffness-verdict',
        r.segment,
        `The verdict on how far ${r.segment} springs does not follow from its figures.`,
      ),
    );
  return [...chart, ...stiff];
}
