import { solve } from 'yalps';

/** Room that a requirement leaves above and below the written sizes, in microns, and with which sign each length enters. */
export type Need = {
  readonly id: string;
  readonly above: number;
  readonly below: number;
  readonly terms: ReadonlyMap<string, 1 | -1>;
};

/** How far the limits of a length lie below and above its written size, in microns. */
export type Share = { readonly id: string; readonly below: number; readonly above: number };

type Column = Map<string, number>;
type Programme = {
  readonly constraints: Map<string, { min?: number; max?: number }>;
  readonly columns: Map<string, Column>;
};

/**
 * Largest multiple of their floors (half-widths in microns) to which all `open` lengths can be widened at once, the settled ones
 * keeping their widths; null where not even nothing fits.
 */
export function widestScale(
  needs: readonly Need[],
  open: readonly string[],
  settled: ReadonlyMap<string, number>,
  floorOf: (id: string) => number,
): number | null {
  const programme = programmeOf(needs);
  for (const [id, width] of settled) programme.constraints.set(`width ${id}`, { min: width * (1 - 1e-9) });
  const scale: Column = new Map([['goal', 1]]);
  for (const id of open) {
    programme.constraints.set(`width ${id}`, { min: 0 });
    scale.set(`width ${id}`, -2 * floorOf(id));
  }
  programme.columns.set('scale', scale);
  const { status, result } = run(programme, 'maximize');
  return status === 'optimal' ? result : null;
}

/** Splits widths about the written sizes as evenly as the requirements allow; null where they do not fit at all. */
export function evenSplit(needs: readonly Need[], widths: ReadonlyMap<string, number>): Share[] | null {
  const programme = programmeOf(needs);
  for (const [id, width] of widths) {
    programme.constraints.set(`width ${id}`, { min: width * (1 - 1e-6) - 1e-6, max: width });
    programme.constraints.set(`more ${id}`, { max: 0 });
    programme.constraints.set(`less ${id}`, { max: 0 });
    programme.columns.get(`above ${id}`)?.set(`more ${id}`, 1).set(`less ${id}`, -1);
    programme.columns.get(`below ${id}`)?.set(`more ${id}`, -1).set(`less ${id}`, 1);
    programme.columns.set(
      `off ${id}`,
      new Map([
        ['goal', 1],
        [`more ${id}`, -1],
        [`less ${id}`, -1],
      ]),
    );
  }
  const { status, variables } = run(programme, 'minimize');
  if (status !== 'optimal') return null;
  const found = new Map(variables);
  return [...widths.keys()].map((id) => ({
    id,
    below: found.get(`below ${id}`) ?? 0,
    above: found.get(`above ${id}`) ?? 0,
  }));
}

/** Requirements as rows, and for each length two columns: how far its limits lie below and above the written size. */
function programmeOf(needs: readonly Need[]): Programme {
  const columns = new Map<string, Column>();
  const column = (name: string, id: string): Column => {
    const known = columns.get(name) ?? new Map([[`width ${id}`, 1]]);
    columns.set(name, known);
    return known;
  };
  const constraints: Programme['constraints'] = new Map();
  for (const { id: need, above, below, terms } of needs) {
    constraints.set(`above ${need}`, { max: above });
    constraints.set(`below ${need}`, { max: below });
    for (const [id, sign] of terms) {
      column(`above ${id}`, id).set(sign === 1 ? `above ${need}` : `below ${need}`, 1);
      column(`below ${id}`, id).set(sign === 1 ? `below ${need}` : `above ${need}`, 1);
    }
  }
  return { constraints, columns };
}

const run = ({ constraints, columns }: Programme, direction: 'maximize' | 'minimize') =>
  solve({ direction, objective: 'goal', constraints, variables: columns });
