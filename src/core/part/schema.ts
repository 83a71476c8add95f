import * as v from 'valibot';

/** Most items a list may hold: well over any shaft, low enough that a hostile file cannot tire the reader out. */
const MOST_ITEMS = 20_000;
/** Sketched places stay within 100 000 units, so that they are safe integers in pm. */
const FARTHEST_SKETCH = 100_000;

/** Lanes beyond this would lie off any board. */
const FARTHEST_LANE = 99;

/** A size, an id, a class: what stands in one field of a drawing. */
const text = v.pipe(v.string(), v.maxLength(200));
/** A title or a sentence. */
const prose = v.pipe(v.string(), v.maxLength(4000));
const id = v.pipe(v.string(), v.minLength(1), v.maxLength(200));
const sketched = v.pipe(
  v.number(),
  v.minValue(-FARTHEST_SKETCH),
  v.maxValue(FARTHEST_SKETCH),
  v.description('A rough place in the unit of the part; never used as a size.'),
);
const listOf = <T extends v.GenericSchema>(item: T) => v.pipe(v.array(item), v.maxLength(MOST_ITEMS));

const size = v.pipe(
  v.union([text, v.object({ size: text, tol: v.exactOptional(text), role: v.exactOptional(text) })]),
  v.description('A size as it stands on the plan: "1 5/8", ".2500/.2495", "12 k5", "6 mm".'),
);
const mayHave = { size: v.exactOptional(size), text: v.exactOptional(text), prose: v.exactOptional(prose) };

const generalRule = v.variant('rule', [
  v.pipe(
    v.object({ rule: v.literal('decimals'), fraction: mayHave.text }),
    v.description('Keys "0" to "9": the limits of a size with so many decimals, such as "3": ".005".'),
  ),
  v.object({ rule: v.literal('fixed'), tol: text }),
  v.object({ rule: v.literal('iso2768'), class: text }),
]);

const station = v.object({ id, sketched: v.exactOptional(sketched), name: mayHave.prose });

const falls = v.exactOptional(
  v.pipe(
    v.picklist(['normal', 'uniform', 'metal-safe', 'uncut']),
    v.description('How the size falls within its limits over many parts; normal where not said.'),
  ),
);

const segmentCommon = {
  id,
  role: mayHave.text,
  mate: v.exactOptional(
    v.object({ bearing: mayHave.text, bore: mayHave.text, trial: v.exactOptional(v.boolean()) }),
  ),
  index_line: v.exactOptional(v.boolean()),
  name: mayHave.prose,
  falls,
};
const segment = v.variant('form', [
  v.object({
    ...segmentCommon,
    form: v.literal('cylinder'),
    diameter: mayHave.size,
    aim: v.exactOptional(
      v.pipe(
        v.literal('metal'),
        v.description('Aim a quarter of the limits below the upper one, so that another cut can be taken.'),
      ),
    ),
  }),
  v.object({
    ...segmentCommon,
    form: v.literal('taper'),
    start: mayHave.size,
    end: mayHave.size,
    half_angle: mayHave.text,
    included_angle: mayHave.text,
    ratio: mayHave.text,
    per_foot: mayHave.text,
    large: v.exactOptional(v.picklist(['start', 'end'])),
  }),
  v.object({ ...segmentCommon, form: v.literal('thread'), thread: mayHave.text }),
]);

const length = v.object({
  id,
  from: text,
  to: text,
  size: mayHave.size,
  tol: mayHave.text,
  role: mayHave.text,
  lane: v.exactOptional(
    v.pipe(
      v.number(),
      v.integer(),
      v.minValue(0),
      v.maxValue(FARTHEST_LANE),
      v.description('The lane its dimension is drawn in, 0 nearest to the part. Left out: it packs itself.'),
    ),
  ),
  falls,
});

const edgeCommon = { id: v.exactOptional(id), face: text, side: v.picklist(['left', 'right']) };
const edge = v.variant('form', [
  v.object({ ...edgeCommon, form: v.literal('chamfer'), size: mayHave.size, angle: mayHave.text }),
  v.object({ ...edgeCommon, form: v.literal('fillet'), radius: mayHave.size }),
  v.object({ ...edgeCommon, form: v.literal('undercut'), width: mayHave.size, depth: mayHave.size }),
]);

const holeCommon = { id, from: text };
const through = v.exactOptional(v.boolean());
const hole = v.variant('form', [
  v.object({
    ...holeCommon,
    form: v.literal('drill'),
    diameter: mayHave.size,
    depth: mayHave.size,
    through,
  }),
  v.object({
    ...holeCommon,
    form: v.literal('tap'),
    thread: mayHave.text,
    depth: mayHave.size,
    drill_depth: mayHave.size,
  }),
  v.object({
    ...holeCommon,
    form: v.literal('bore'),
    diameter: mayHave.size,
    depth: mayHave.size,
    through,
  }),
  v.object({ ...holeCommon, form: v.literal('centre'), size: mayHave.text }),
]);

const crossingCommon = { id, at: text, angle: mayHave.text };
const crossing = v.variant('form', [
  v.object({
    ...crossingCommon,
    form: v.literal('hole'),
    diameter: mayHave.size,
    reaches: mayHave.size,
  }),
  v.object({
    ...crossingCommon,
    form: v.literal('keyseat'),
    width: mayHave.size,
    depth: mayHave.size,
    to: mayHave.text,
  }),
  v.object({
    ...crossingCommon,
    form: v.literal('flat'),
    across: mayHave.size,
    depth: mayHave.size,
    to: mayHave.text,
  }),
]);

const requirement = v.object({
  id,
  from: text,
  to: text,
  min: mayHave.text,
  max: mayHave.text,
  why: mayHave.prose,
});

const count = v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(MOST_ITEMS));
const step = v.object({ of: text, kind: text, pass: count });
const typed = {
  text,
  unit: v.exactOptional(v.picklist(['in', 'mm'])),
  step: v.exactOptional(step),
  cut: v.exactOptional(count),
  holding: mayHave.text,
  shown: mayHave.text,
  set: v.exactOptional(v.picklist(['readout', 'readings'])),
};
const actual = v.pipe(
  v.variant('what', [
    v.object({
      what: v.literal('diameter'),
      of: text,
      end: v.exactOptional(v.picklist(['start', 'end'])),
      ...typed,
    }),
    v.object({ what: v.literal('face'), of: text, from: text, ...typed }),
    v.object({
      what: v.literal('touch'),
      of: text,
      edge: v.exactOptional(v.picklist(['left', 'right'])),
      ...typed,
    }),
    v.object({ what: v.literal('fit'), of: text, ...typed }),
    v.object({ what: v.literal('size'), of: text, field: text, ...typed }),
    v.object({ what: v.literal('done'), step, cut: v.exactOptional(count) }),
  ]),
  v.description('What was measured or ticked at the lathe, as typed, in the order it was done.'),
);

/**
 * The shape of a part file, version 1. Fields it does not name are let through. What it lets pass is a part file; a
 * size that cannot be read is for `resolvePart` to say, so that a draft always opens.
 */
export const partSchema = v.object({
  shaftwright: v.literal(1),
  title: mayHave.prose,
  drawing: mayHave.prose,
  unit: v.picklist(['in', 'mm']),
  material: mayHave.text,
  general: v.exactOptional(
    v.object({ lengths: v.exactOptional(generalRule), diameters: v.exactOptional(generalRule) }),
  ),
  faces: v.pipe(listOf(station), v.minLength(1)),
  segments: listOf(segment),
  points: v.exactOptional(listOf(station)),
  lengths: v.exactOptional(listOf(length)),
  edges: v.exactOptional(listOf(edge)),
  holes: v.exactOptional(listOf(hole)),
  crossings: v.exactOptional(listOf(crossing)),
  requirements: v.exactOptional(listOf(requirement)),
  matched: v.exactOptional(listOf(listOf(text))),
  actuals: v.exactOptional(listOf(actual)),
  stubs: v.exactOptional(
    v.pipe(
      listOf(
        v.object({ end: id, length: text, diameter: mayHave.size, centre: v.exactOptional(v.boolean()) }),
      ),
      v.description('Stubs that stay standing beyond an end of the part; without a diameter, of the bar.'),
    ),
  ),
  scan: v.exactOptional(v.unknown()),
  pins: v.exactOptional(
    v.object({
      way: v.exactOptional(v.picklist(['bar', 'stages', 'both-ends', 'centres'])),
      first: mayHave.text,
      centre: v.exactOptional(v.boolean()),
      bar: mayHave.text,
      grip: mayHave.text,
      blade: mayHave.text,
      seat: v.exactOptional(v.picklist(['drawn', 'mouth', 'stub', 'left'])),
      part_off: v.exactOptional(v.literal(false)),
      split: mayHave.text,
      faces: v.exactOptional(listOf(v.object({ face: id, from: id }))),
      grips: v.exactOptional(listOf(v.object({ holding: id, out: text }))),
      measured: v.exactOptional(listOf(id)),
    }),
  ),
});
