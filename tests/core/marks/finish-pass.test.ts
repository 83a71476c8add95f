import { describe, expect, test } from 'vitest';
import { finishPass } from '../../../src/core/marks/finish-pass.ts';
import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import { materialOf } from '../../../src/core/plan/speeds.ts';
import { report } from '../../../src/core/report.ts';
import { segmentError } from '../../../src/core/stiffness/error.ts';
import { example } from '../../panels/examples.ts';
import { shapes } from '../plan/shapes.ts';

const plans = [
  { name: 'blower shaft', part: example('blower-shaft').part, plan: example('blower-shaft').report.plan },
  ...shapes
    .filter((s) => s.unit === 'in')
    .map(({ name, part }) => ({ name, part, plan: report(part, firstLathe).plan })),
];

describe('the loaded bar, put together again from the plan alone', () => {
  test.each(plans.filter(({ plan }) => plan !== null && plan.stiffness.length > 0))(
    'springs as the planner, who saw it while planning, figured: $name',
    ({ part, plan }) => {
      let met = 0;
      plan?.holdings.forEach((holding, i) => {
        for (const cut of holding.cuts.filter((c) => c.kind === 'finish')) {
          const found = finishPass(plan, i, cut, materialOf(part.material ?? '').youngs);
          if (!found) continue;
          met += 1;
          expect(Math.abs(segmentError(found.pass) - found.row.error_mm)).toBeLessThan(
            0.05 * found.row.error_mm + 1e-5,
          );
        }
      });
      expect(met).toBeGreaterThan(0);
    },
  );

  test('steps that finish nothing have none', () => {
    const { plan } = example('blower-shaft').report;
    const face = plan?.holdings[0]?.cuts.find((c) => c.kind === 'face');
    expect(plan && face && finishPass(plan, 0, face, 210_000)).toBeNull();
  });
});
