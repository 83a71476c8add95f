import type { ResolvedLathe, ResolvedPart } from '../part/resolved.ts';
import type { Problem } from '../problem.ts';

/** Pins that name what is not there any more (a deleted land, another lathe's blade): they bind nothing. */
export function voidPins(part: ResolvedPart, lathe: ResolvedLathe): Problem[] {
  const { bar, blade } = part.pins;
  const gone = (where: string, what: string, name: string): Problem => ({
    code: 'pin-void',
    where,
    say: `The plan was settled on ${what} ${name}, which is not there: it is planned without.`,
  });
  return [
    ...(bar !== undefined && !lathe.bars.diameters.some((b) => b.text === bar)
      ? [gone('pins.bar', 'bar', bar)]
      : []),
    ...(blade !== undefined && !lathe.tools.some((t) => t.kind === 'blade' && t.id === blade)
      ? [gone('pins.blade', 'blade', blade)]
      : []),
  ];
}
