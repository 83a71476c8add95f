import { withText } from '../../core/part/commands.ts';
import { placeIn, withFields } from '../../core/part/draft.ts';
import type { Transaction } from '../../core/part/edit.ts';
import { setSegment } from '../../core/part/segment-commands.ts';
import type { Part, Segment, SizeText } from '../../core/part/types.ts';
import { sizeText } from '../length-words.ts';

export type DiameterField = 'diameter' | 'start' | 'end';

/** The ways a plan gives a taper, in the words a person picks from. */
export const taperAngles = [
  { field: 'ratio', name: 'ratio', sample: '1:10' },
  { field: 'per_foot', name: 'per foot', sample: '.600' },
  { field: 'half_angle', name: 'half angle', sample: '2.5°' },
  { field: 'included_angle', name: 'whole angle', sample: '5°' },
] as const;

export const isForm = (text: string): text is Segment['form'] =>
  text === 'cylinder' || text === 'taper' || text === 'thread';

const sizeAt = (part: Part, id: string, field: DiameterField): SizeText | undefined => {
  const segment = part.segments[placeIn(part, 'segments', id)];
  if (segment?.form === 'cylinder' && field === 'diameter') return segment.diameter;
  return segment?.form === 'taper' && field !== 'diameter' ? segment[field] : undefined;
};

/** Types a diameter. The end of a taper with nothing typed is left to its angle and length. */
export function setDiameterText(part: Part, id: string, field: DiameterField, text: string): Transaction {
  const gone = field !== 'diameter' && text === '';
  const now = gone ? undefined : withText(sizeAt(part, id, field), text);
  return setSegment(part, id, { [field]: now }, `Diameter of ${id} to ${text || 'what follows'}`);
}

/** Types the tolerance of a diameter; an empty text leaves it to the general limits. */
export function setDiameterTol(part: Part, id: string, field: DiameterField, tol: string): Transaction {
  const size = sizeAt(part, id, field);
  const record = typeof size === 'object' ? size : { size: sizeText(size) };
  const now = withFields(record, { tol: tol === '' ? undefined : tol });
  const did = tol === '' ? `General limits for ${id}` : `Tolerance of ${id} to ${tol}`;
  return setSegment(part, id, { [field]: now }, did);
}

/** Gives a taper by one of the four ways; the other three go. */
export function setTaperAngle(part: Part, id: string, field: string, text: string): Transaction {
  const others = Object.fromEntries(taperAngles.map((way) => [way.field, undefined]));
  return setSegment(part, id, { ...others, [field]: text }, `Taper of ${id} to ${text}`);
}
