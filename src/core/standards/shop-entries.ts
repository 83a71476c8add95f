import { entry, range, size, word } from './entry.ts';
import type { Reader } from './entry.ts';
import { bearingOrigin, boreOrigin, chamferOrigin } from './bearing-table.ts';
import { seatClasses, seatOrigin } from './bearing-seats.ts';
import { readBearing } from './bearings.ts';
import { centreDrillSource, readCentreDrill } from './centre-drills.ts';
import { colletSource, collets } from './collets.ts';
import { drillsOrigin } from './drill-sizes.ts';
import { readDrill } from './drills.ts';
import { material } from './materials.ts';
import { refuse } from './refuse.ts';

export const bearing: Reader = (text) => {
  const read = readBearing(text);
  if (!read.ok) return read;
  const { designation, bore, outside, width, chamfer, provenance } = read.value;
  return entry(
    'bearing',
    designation,
    [
      ...range('bore', bore),
      ...size('outside', outside),
      ...size('width', width),
      ...size('corner chamfer, least', chamfer),
      ...seatClasses(bore.max).flatMap(({ handbook, innerRing, load, classes }) =>
        word(`seat, ring ${innerRing}, ${load} (handbook ${handbook})`, classes.join(' ')),
      ),
    ],
    [{ ...bearingOrigin, provenance }, boreOrigin, ...(chamfer === null ? [] : [chamferOrigin]), seatOrigin],
  );
};

export const drill: Reader = (text) => {
  const read = readDrill(text);
  return read.ok
    ? entry('drill', read.value.name, size('diameter', read.value.diameter), [drillsOrigin])
    : read;
};

export const centreDrill: Reader = (text) => {
  const read = readCentreDrill(text);
  if (!read.ok) return read;
  const { designation, pilot, body, mouth, provenance } = read.value;
  const facts = [...size('pilot', pilot), ...size('body', body), ...size('usual centre hole', mouth)];
  return entry('centre-drill', designation, facts, [{ source: centreDrillSource, provenance }]);
};

export const collet: Reader = (text) => {
  const found = collets.find(({ series }) => series.toLowerCase() === text.trim().toLowerCase());
  if (!found) return refuse('collet-unknown', `The table has no collet “${text.trim()}”.`, { text });
  const facts = [
    ...size('smallest round', found.min),
    ...size('largest round', found.max),
    ...word('nut thread', found.nutThread ?? ''),
    ...word('use', found.use),
  ];
  return entry('collet', found.series, facts, [{ source: colletSource, provenance: found.provenance }]);
};

export const materialEntry: Reader = (text) => {
  const found = material(text.trim().toLowerCase().replace(/\s+/g, '-'));
  if (!found) return refuse('material-unknown', `The table has no material “${text.trim()}”.`, { text });
  const { speed, kc11, mc } = found;
  return entry(
    'material',
    found.name,
    [
      ...word('modulus', `${found.youngs / 1000} GPa`),
      ...word('density', `${found.density} kg/m³`),
      ...word(
        'specific cutting force',
        kc11 === null ? 'no figure known' : `${kc11} N/mm², exponent ${mc ?? 0}`,
      ),
      ...Object.entries(speed).flatMap(([what, { low, typical }]) =>
        word(`${what}, high-speed steel`, `${low} to ${typical} m/min`),
      ),
      ...word('cutting oil', found.oil),
      ...word('chip', found.chip),
    ],
    Object.values(found.from),
  );
};
