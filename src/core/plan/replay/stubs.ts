import type { OutlineSegment } from '../../outline/types.ts';
import type { Problem } from '../../problem.ts';
import type { Bar } from '../bar.ts';
import { between } from '../profile.ts';
import { flaw } from './flaw.ts';
import type { Scene } from './scene.ts';

/**
 * Stubs that are to stay standing beyond the ends of the part. Code: `stub-gone` (a cut takes some of it away, or
 * parts or saws it off).
 */
export function stubFlaws(scene: Scene): Problem[] {
  const { outline, steps, held, final } = scene;
  return (outline.kept?.stubs ?? []).flatMap(({ id, face }) => {
    const stub = outline.segments.find((s) => s.id === id);
    if (!stub) return [];
    const cut = steps.find(({ after }) => !stands(after, stub));
    // Parted off it still stands, but is not in the hand any more.
    const bars = [...held.slice(1).map(({ bar }) => bar), final];
    const at = bars.findIndex((bar) => !stands(bar, stub));
    const off = held[at]?.steps.find((s) => s.cut.kind === 'part-off');
    const by = cut ?? off;
    if (!by && at < 0) return [];
    return [
      flaw(
        'stub-gone',
        by?.where ?? held[at]?.where ?? 'result',
        `The stub beyond end ${face} is to stay, and ${by?.where ?? 'the plan'} takes it away.`,
      ),
    ];
  });
}

const stands = ({ z0, z1, outside }: Bar, stub: OutlineSegment): boolean =>
  z0 <= stub.z0 &&
  z1 >= stub.z1 &&
  between(outside, stub.z0, stub.z1).every((p) => p.d0 >= stub.d0 && p.d1 >= stub.d1);
