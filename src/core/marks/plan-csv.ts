import type { Plan, Reading } from '../plan/types.ts';

type Cell = string | number | null;

/** A field in the form of RFC 4180: quoted where it holds a comma, a quote or a line break. */
function field(value: Cell): string {
  const text =
    value === null ? '' : typeof value === 'number' ? String(Math.round(value * 1e6) / 1e6) : value;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

const rowsOf = (rows: readonly (readonly Cell[])[]): string =>
  rows.map((row) => `${row.map(field).join(',')}\r\n`).join('');

/** The lines to scribe, one a row, with their readings as printed and their places in mm (RFC 4180). */
export function marksCsv(plan: Plan): string {
  const head = [
    'holding',
    'station',
    'reading',
    'by_rule',
    'from',
    'before_cut',
    'waste',
    'reading_mm',
    'z_mm',
  ];
  const rows = plan.holdings.flatMap(({ id, marks }) =>
    marks.map((mark): Cell[] => [
      id,
      mark.station,
      mark.text,
      mark.rule_text,
      mark.from,
      mark.before,
      mark.waste,
      mark.reading_mm,
      mark.z_mm,
    ]),
  );
  return rowsOf([head, ...rows]);
}

/** The cuts in order, one a row, with their readings as printed and their sizes in mm (RFC 4180). */
export function cutsCsv(plan: Plan): string {
  const head = [
    ...['holding', 'cut', 'kind', 'segment', 'makes', 'tool', 'passes', 'rpm', 'feed_mm'],
    ...['x', 'z', 'z_other_edge', 'z0_mm', 'z1_mm', 'd0_mm', 'd1_mm', 'what_to_do'],
  ];
  const all = [
    ...plan.holdings.flatMap(({ id, cuts }) => cuts.map((cut) => ({ id, cut }))),
    ...plan.off_lathe.map((cut) => ({ id: 'off the lathe', cut })),
  ];
  const texts = (readings: readonly Reading[], of: (reading: Reading) => string | undefined): string =>
    readings.flatMap((reading) => of(reading) ?? []).join(' ');
  const rows = all.map(({ id, cut }): Cell[] => [
    ...[id, cut.n, cut.kind, cut.segment, cut.makes, cut.tool, cut.passes, cut.rpm, cut.feed_mm],
    texts(cut.readings, ({ axis, text }) => (axis === 'X' ? text : undefined)),
    texts(cut.readings, ({ axis, text }) => (axis === 'X' ? undefined : text)),
    texts(cut.readings, ({ other }) => other?.text),
    ...[cut.z0_mm, cut.z1_mm, cut.d0_mm, cut.d1_mm, cut.say],
  ]);
  return rowsOf([head, ...rows]);
}
