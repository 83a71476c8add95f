/** Widths of lands that come by turns, mm. */
const WIDTHS = [10, 6, 15, 8, 12];

type Line = { id: string; from: string; to: string; size: string; tol?: string };

/** Parts of so many lands, by name, as files: one closed with two long requirements, one with a clash, one with every length said twice and a clash. */
export function longParts(lands: number): [name: string, part: object][] {
  const width = (i: number) => WIDTHS[i % WIDTHS.length] ?? 0;
  const at = Array.from({ length: lands + 1 }, (_, i) =>
    Array.from({ length: i }, (_, k) => width(k)).reduce((sum, one) => sum + one, 0),
  );
  const line = (id: string, from: number, to: number): Line => ({
    id,
    from: `F${from}`,
    to: `F${to}`,
    size: String((at[to] ?? 0) - (at[from] ?? 0)),
  });
  const chain = Array.from({ length: lands }, (_, i) => line(`L${i}`, i, i + 1));
  const base = Array.from({ length: lands - 1 }, (_, i) => line(`B${i}`, 0, i + 2));
  const part = (title: string, lengths: readonly Line[], more: object = {}) => ({
    shaftwright: 1,
    title,
    unit: 'mm',
    faces: at.map((sketched, i) => ({ id: `F${i}`, sketched })),
    segments: chain.map((_, i) => ({
      id: `s${i}`,
      form: 'cylinder',
      diameter: String(20 + ((i * 7) % 5) * 4),
    })),
    points: [],
    lengths,
    ...more,
  });
  const clashing = (lines: readonly Line[]) =>
    lines.map((one, i) => (i === lands / 2 ? { ...one, size: '17' } : one));
  const need = (id: string, from: number, to: number) => {
    const { from: a, to: b, size } = line(id, from, to);
    return { id, from: a, to: b, min: String(Number(size) - 8), max: String(Number(size) + 8) };
  };
  const held = chain.map((one) => ({ ...one, tol: '±.05' }));
  const requirements = [need('Q1', 0, lands), need('Q2', lands / 7, (5 * lands) / 7)];
  return [
    ['closed, two requirements', part('closed', held, { requirements })],
    ['with a clash', part('clash', [...clashing(chain), line('ALL', 0, lands)])],
    ['all said twice, with a clash', part('twice', [...clashing(chain), ...base])],
  ];
}
