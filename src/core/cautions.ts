/** A usual caution of the trade. `always` marks those that stand wherever there is room for a few lines only. */
export type Caution = { readonly say: string; readonly always: boolean };

/** What the cautions open with. */
export const DANGER = 'A lathe can maim.';

const caution = (say: string): Caution => ({ say, always: false });
const always = (say: string): Caution => ({ say, always: true });

/** Usual cautions of the trade, in the order of a job; common practice, no source. docs/cautions.md says more. */
export const CAUTIONS: readonly Caution[] = [
  always(
    'This plan does not know your machine: its manual, the rules of your workshop and a trained person come first, and where the plan differs, they are right.',
  ),
  always('Eye protection on. No gloves, rings, loose sleeves, ties or open long hair at a turning lathe.'),
  always(
    'The key comes out of the chuck each time. Turn the work by hand past tool, slide and guard before the power goes on.',
  ),
  always('Measure with the spindle stopped, and after the work has cooled: warm steel measures large.'),
  caution('Long work turns slowly at first. Nothing sticks out of the back of the spindle without support.'),
  caution(
    'Keep hands, rags and files away from turning work. Swarf is sharp and hot: use a hook or a brush, with the spindle stopped.',
  ),
  caution(
    'Part off close to the jaws, never between centres and never with the centre pressed in. Do not let long work drop: leave a pip and saw it with the spindle stopped.',
  ),
  caution(
    'A live centre is brought up firmly and looked at again when the work has warmed. Back it off before facing, drilling or parting.',
  ),
  caution(
    'Speeds are starting points. Slow down when it chatters, sings or smokes; stop when anything sounds wrong.',
  ),
  caution(
    'Use the oil that suits the material and its safety data sheet. Magnesium and fine swarf can burn; water does not put it out.',
  ),
  caution(
    'Check the readout against a measured diameter before the first finishing cut, and the printed strips against the bars on their page.',
  ),
];

/** The few that stand wherever work begins, as one paragraph without the opening. */
export const briefCautions = (): string =>
  CAUTIONS.filter((one) => one.always)
    .map(({ say }) => say)
    .join(' ');

/** What opens the caution about polishing wherever it stands. */
export const CLOTH = 'Abrasive cloth';

/** Published: a safety bulletin quoting the authority's guidance for abrasive cloth at manual lathes. */
export const CLOTH_IN_FULL = `${CLOTH} is never held in the hand or wrapped round turning work: on a flat stick or in a tool-post holder, slides wound clear, no gloves, sleeves tight.`;
export const CLOTH_IN_SHORT = `${CLOTH} never in the hand: on a stick or in a holder.`;
