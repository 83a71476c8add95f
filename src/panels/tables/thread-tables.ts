import { PM_PER, type Length } from '../../core/lengths/length.ts';
import { metricDrillSource, metricRows, metricSource } from '../../core/standards/metric-threads.ts';
import { weakest } from '../../core/standards/origin.ts';
import { threadFacts, type TapDrill } from '../../core/standards/thread-facts.ts';
import { reliefRows } from '../../core/standards/thread-relief-table.ts';
import { threadRelief } from '../../core/standards/thread-reliefs.ts';
import { readThread } from '../../core/standards/threads.ts';
import { unifiedName } from '../../core/standards/unified-read.ts';
import { unifiedDrillSource, unifiedRows, unifiedSource } from '../../core/standards/unified-threads.ts';
import { fromMm } from '../../core/lengths/length.ts';
import { rowsOf, type Row, type Table } from './table.ts';

const drillWords = (drill: TapDrill | undefined): string =>
  drill ? `${drill.name} (${drill.percent.toFixed(0)} %)` : '';

/** What stands beside a thread, as one row; the weakest of its figures says how far it can be trusted. */
function threadRow(name: string): readonly Row[] {
  const read = readThread(name);
  const facts = read.ok ? threadFacts(read.value) : null;
  if (!read.ok || !facts) return [];
  const { metric, pitch, blank } = read.value;
  const { external, internal } = facts;
  const pitchCell = metric ? pitch : `${Math.round(PM_PER.in / pitch)}`;
  const limits: readonly (Length | null)[] = [
    external.major.max,
    external.major.min,
    external.pitch.max,
    external.pitch.min,
    blank,
    internal.minor.min,
    internal.minor.max,
  ];
  return [
    {
      cells: [name, pitchCell, ...limits, drillWords(facts.tapDrills[0])],
      from: weakest(
        external.origin.provenance,
        internal.origin.provenance,
        facts.drillOrigin?.provenance ?? 'published',
      ),
    },
  ];
}

const columns = (pitch: string, outside: string, inside: string): readonly string[] => [
  'thread',
  pitch,
  `outside ${outside}, most`,
  'least',
  'pitch diameter, most',
  'least',
  'blank for a die',
  `hole ${inside}, least`,
  'most',
  'tap drill (thread)',
];

export const threadTables: readonly Table[] = [
  {
    id: 'unified',
    name: 'Unified threads',
    also: 'UNC UNF UNEF inch screw tap drill',
    columns: columns('to the inch', '2A', '2B'),
    rows: unifiedRows.flatMap((row) => threadRow(unifiedName(row))),
    origins: [
      { source: unifiedSource, provenance: 'published' },
      { source: unifiedDrillSource, provenance: 'published' },
    ],
  },
  {
    id: 'metric',
    name: 'Metric threads',
    also: 'ISO M coarse fine screw tap drill 6g 6H',
    columns: columns('pitch', '6g', '6H'),
    rows: metricRows.flatMap(([, d, p]) => threadRow(`M${d}x${p}`)),
    origins: [
      { source: metricSource, provenance: 'published' },
      { source: metricDrillSource, provenance: 'published' },
    ],
  },
  {
    id: 'reliefs',
    name: 'Thread reliefs',
    also: 'DIN 76 run-out groove undercut',
    columns: [
      'pitch',
      'run-out, most',
      'short',
      'to a shoulder, most',
      'short',
      'groove under nominal',
      'groove width, most',
      'short',
      'radius',
    ],
    rows: rowsOf(
      'memory',
      reliefRows.map(([p]) => {
        const { runout, distance, under, most, radius } = threadRelief(fromMm(p));
        return [
          fromMm(p),
          runout.normal,
          runout.short,
          distance.normal,
          distance.short,
          under,
          most.normal,
          most.short,
          radius,
        ];
      }),
    ),
    origins: [threadRelief(fromMm(1)).origin],
  },
];
