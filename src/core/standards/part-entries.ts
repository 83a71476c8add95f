import { entry, range, size, word } from './entry.ts';
import type { Reader } from './entry.ts';
import { fromInches } from '../lengths/length.ts';
import { readSize } from '../lengths/read-size.ts';
import { barOrigin, barAtOrOver } from './bars.ts';
import { centreDrillForWork } from './centre-drills.ts';
import { drillsOrigin } from './drill-sizes.ts';
import { drillAtOrUnder } from './drills.ts';
import { fitPair } from './fits.ts';
import { generalDeviation, generalOrigin } from './iso2768.ts';
import { deviationsOrigin } from './iso286-shafts.ts';
import { fitDeviations } from './iso286.ts';
import { metricKey } from './keyseats.ts';
import { refuse } from './refuse.ts';
import { readTaper } from './tapers.ts';
import { threadFacts } from './thread-facts.ts';
import { readThread } from './threads.ts';
import { readUndercut, undercutSource } from './undercuts.ts';

export const thread: Reader = (text) => {
  const read = readThread(text);
  if (!read.ok) return read;
  const spec = read.value;
  const facts = threadFacts(spec);
  if (!facts) return refuse('thread-not-in-table', `The table has no ${text.trim()}.`, { text });
  return entry(
    'thread',
    spec.designation,
    [
      ...size('nominal', spec.nominal),
      ...size('pitch', spec.pitch),
      ...range(`outside, ${facts.external.class}`, facts.external.major),
      ...range(`pitch diameter, ${facts.external.class}`, facts.external.pitch),
      ...size('blank for a die', spec.blank),
      ...size('root', spec.minor),
      ...facts.tapDrills
        .slice(0, 1)
        .flatMap(({ name, percent }) => word('tap drill', `${name} (${percent.toFixed(0)} % thread)`)),
      ...word(
        'or',
        facts.tapDrills
          .slice(1)
          .map(({ name, percent }) => `${name} (${percent.toFixed(0)} %)`)
          .join(', '),
      ),
      ...range(`hole, ${facts.internal.class}`, facts.internal.minor),
      ...size('run-out, most', facts.relief.runout.normal),
      ...size('relief under nominal', facts.relief.under),
      ...size('relief width, most', facts.relief.most.normal),
    ],
    [facts.external.origin, ...(facts.drillOrigin ? [facts.drillOrigin] : []), facts.relief.origin],
  );
};

/** "12 k5", "Ø12 H7/g6", ".3937 in h6". */
export const fit: Reader = (text, unit) => {
  const match = /^(.*?)\s*([a-z]{1,2}\d{1,2}(?:[/-][a-z]{1,2}\d{1,2})?)$/i.exec(text.trim().slice(0, 60));
  const nominal = readSize(match?.[1] ?? '', unit);
  if (!match?.[2] || !nominal.ok) {
    return refuse('fit-unreadable', `“${text.trim()}” is not a size with a class, such as 12 k5.`, { text });
  }
  const at = nominal.value.nominal;
  const title = text.trim();
  if (!/[/-]/.test(match[2])) {
    const zone = fitDeviations(at, match[2]);
    if (!zone.ok) return zone;
    return entry(
      'fit',
      title,
      [...size('upper deviation', zone.value.upper), ...size('lower deviation', zone.value.lower)],
      [deviationsOrigin],
    );
  }
  const pair = fitPair(at, match[2]);
  if (!pair.ok) return pair;
  const { clearance, kind, feel } = pair.value;
  return entry(
    'fit',
    title,
    [...word('kind', kind), ...word('feel', feel ?? ''), ...range('clearance', clearance)],
    [deviationsOrigin],
  );
};

export const taper: Reader = (text) => {
  const read = readTaper(text);
  if (!read.ok) return read;
  const { name, includedDeg, halfDeg, perFoot, plug, source, provenance } = read.value;
  return entry(
    'taper',
    name,
    [
      ...word('included angle', `${includedDeg.toFixed(4)}°`),
      ...word('compound from the axis', `${halfDeg.toFixed(4)}°`),
      ...word('taper per foot', `${perFoot.toFixed(5)} in`),
      ...(plug
        ? [...size('large end', plug.large), ...size('small end', plug.small), ...size('length', plug.length)]
        : []),
    ],
    [{ source, provenance }],
  );
};

export const undercut: Reader = (text) => {
  const read = readUndercut(text);
  if (!read.ok) return read;
  const { designation, radius, depth, width, faceDepth, load, over, upTo, provenance } = read.value;
  const facts = [
    ...size('radius', radius),
    ...size('depth', depth),
    ...size('width', width),
    ...size('depth in the face', faceDepth),
    ...word('load', load),
    ...size('for diameters over', over),
    ...size('up to', upTo),
  ];
  return entry('undercut', designation, facts, [{ source: undercutSource, provenance }]);
};

/** What the tables hold for a mere diameter. */
export const atSize: Reader = (text, unit) => {
  const read = readSize(text, unit);
  if (!read.ok) return read;
  const at = read.value.nominal;
  const key = metricKey(at);
  const general = (['f', 'm', 'c', 'v'] as const).flatMap((cls) =>
    size(`ISO 2768-${cls}, ±`, generalDeviation(at, cls, 'linear')),
  );
  return entry(
    'size',
    text.trim(),
    [
      ...general,
      ...(key && unit === 'mm'
        ? [...size('key width', key.width), ...size('keyseat depth', key.shaftDepth)]
        : []),
      ...word('bar', barAtOrOver(at, unit)?.name ?? ''),
      ...word('drill at or under', at <= fromInches(1) ? (drillAtOrUnder(at)?.name ?? '') : ''),
      ...word('centre drill', centreDrillForWork(at, unit).designation),
    ],
    [generalOrigin, ...(key && unit === 'mm' ? [key.origin] : []), barOrigin, drillsOrigin],
  );
};
