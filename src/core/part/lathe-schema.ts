import * as v from 'valibot';

const text = v.pipe(v.string(), v.maxLength(200));
const mayHaveText = v.exactOptional(text);
const listOf = <T extends v.GenericSchema>(item: T) => v.pipe(v.array(item), v.maxLength(1000));
const rpm = v.pipe(v.number(), v.minValue(1), v.maxValue(100_000));
const id = v.pipe(v.string(), v.minLength(1), v.maxLength(200));

const tool = v.variant('kind', [
  v.object({
    id,
    kind: v.literal('turn'),
    hand: v.picklist(['right', 'left', 'neutral']),
    nose: mayHaveText,
    trailing: mayHaveText,
  }),
  v.object({
    id,
    kind: v.literal('blade'),
    width: text,
    width_known_to: mayHaveText,
    reach: text,
    edge: v.pipe(
      v.picklist(['left', 'right']),
      v.description('The edge that is touched off; left is toward the headstock.'),
    ),
  }),
  v.object({ id, kind: v.literal('bore'), min_bore: text, reach: text, nose: mayHaveText }),
  v.object({ id, kind: v.literal('chamfer'), angle: text }),
  v.object({ id, kind: v.literal('form'), nose: mayHaveText }),
  v.object({ id, kind: v.literal('thread') }),
]);

const collets = v.object({ min: text, max: text, step: text, close: mayHaveText, runout: mayHaveText });
const chuck = v.object({
  jaws: v.pipe(v.number(), v.integer(), v.minValue(2), v.maxValue(12)),
  min: text,
  max: text,
  runout: mayHaveText,
});

/** The shape of a lathe file, version 1. Fields it does not name are let through. */
export const latheSchema = v.object({
  shaftwright_lathe: v.literal(1),
  name: mayHaveText,
  unit: v.picklist(['in', 'mm']),
  swing: text,
  between_centres: text,
  spindle_bore: text,
  collets: v.exactOptional(v.nullable(collets)),
  chucks: v.exactOptional(listOf(chuck)),
  min_grip: mayHaveText,
  support: v.exactOptional(listOf(text)),
  between_centres_drive: v.exactOptional(v.boolean()),
  speeds: v.union([listOf(rpm), v.object({ min: rpm, max: rpm })]),
  feeds: v.exactOptional(listOf(text)),
  readout: v.object({
    x: v.picklist(['diameter', 'radius']),
    z_positive: v.picklist(['tailstock', 'headstock']),
    resolution: text,
    repeat: text,
    touch: text,
  }),
  compound_travel: mayHaveText,
  quill_travel: mayHaveText,
  tools: listOf(tool),
  at_hand: v.exactOptional(
    v.object({
      taps: v.exactOptional(listOf(text)),
      dies: v.exactOptional(listOf(text)),
      drills: v.exactOptional(v.union([text, listOf(text)])),
    }),
  ),
  cut: v.object({ rough_on_diameter: text, finish_on_diameter: text, allowance_on_diameter: text }),
  bars: v.object({ diameters: listOf(text), length: text }),
});
