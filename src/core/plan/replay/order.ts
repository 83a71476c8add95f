import type { Problem } from '../../problem.ts';
import { fromReport } from '../bar.ts';
import type { Cut } from '../types.ts';
import { flaw } from './flaw.ts';
import type { Scene } from './scene.ts';

/**
 * Numbers, names and places of cuts. Codes: `n-order`, `places-swapped` (z0 right of z1), `diameter-missing`,
 * `negative-diameter`, `passes-wrong`, `makes-unknown`, `segment-unknown`, `crossing-on-lathe`, `turning-off-lathe`,
 * `crossing-missing`, `crossing-wrong`, `edge-missing`.
 */
export function orderFlaws(scene: Scene): Problem[] {
  const { plan, outline } = scene;
  const features = [...outline.holes, ...outline.edges, ...outline.crossings].map((f) => f.id);
  const known: Known = {
    makes: new Set(['trial', 'centre-stub', ...features]),
    segments: new Set(outline.segments.map((s) => s.id)),
  };
  const all = [...plan.holdings.flatMap((h) => h.cuts), ...plan.off_lathe];
  return [
    ...numberFlaws(all),
    ...all.flatMap((cut) => figureFlaws(known, cut)),
    ...offLatheFlaws(scene),
    ...edgeFlaws(scene),
  ];
}

function numberFlaws(all: readonly Cut[]): Problem[] {
  return all
    .slice(1)
    .filter((cut, i) => !(cut.n > (all[i]?.n ?? -Infinity)))
    .map((cut) =>
      flaw('n-order', `cut ${cut.n}`, `Cut ${cut.n} does not count on from the one ahead of it.`),
    );
}

const NO_DIAMETER = new Set(['touch', 'measure', 'support', 'prove', 'deburr', 'tap', 'cross']);

type Known = { readonly makes: ReadonlySet<string>; readonly segments: ReadonlySet<string> };

function figureFlaws(known: Known, cut: Cut): Problem[] {
  const where = `cut ${cut.n}`;
  const out: Problem[] = [];
  if (cut.z0_mm > cut.z1_mm)
    out.push(flaw('places-swapped', where, `${where} ends left of where it begins.`));
  if (!NO_DIAMETER.has(cut.kind) && (cut.d0_mm === null || cut.d1_mm === null))
    out.push(flaw('diameter-missing', where, `${where} does not say what diameter it leaves.`));
  if ((cut.d0_mm ?? 0) < 0 || (cut.d1_mm ?? 0) < 0)
    out.push(flaw('negative-diameter', where, `${where} has a diameter below nothing.`));
  if (!Number.isInteger(cut.passes) || cut.passes < 0)
    out.push(flaw('passes-wrong', where, `${where} has no whole number of passes.`));
  if (cut.segment !== null && !known.segments.has(cut.segment))
    out.push(flaw('segment-unknown', where, `There is no segment ${cut.segment}.`));
  if (cut.makes !== null && !known.makes.has(cut.makes))
    out.push(flaw('makes-unknown', where, `${where} makes ${cut.makes}, which the part has not.`));
  return out;
}

function offLatheFlaws({ plan, outline }: Scene): Problem[] {
  const onLathe = plan.holdings.flatMap((h) => h.cuts).filter((c) => c.kind === 'cross');
  const turning = plan.off_lathe.filter((c) => c.kind !== 'cross' && c.kind !== 'deburr');
  const made = outline.crossings.flatMap((crossing): Problem[] => {
    const cut = plan.off_lathe.find((c) => c.kind === 'cross' && c.makes === crossing.id);
    if (!cut) return [flaw('crossing-missing', crossing.id, `No step off the lathe makes ${crossing.id}.`)];
    const lies = fromReport(cut.z0_mm) === crossing.z0 && fromReport(cut.z1_mm) === crossing.z1;
    const size = [cut.d0_mm, cut.d1_mm].every((d) => d === null || fromReport(d) === crossing.size);
    return lies && size && cut.d0_mm !== null
      ? []
      : [
          flaw(
            'crossing-wrong',
            `cut ${cut.n}`,
            `Cut ${cut.n} does not lie where ${crossing.id} is drawn, or has another size.`,
          ),
        ];
  });
  return [
    ...onLathe.map((c) =>
      flaw('crossing-on-lathe', `cut ${c.n}`, `Cut ${c.n} goes across the axis; that is done off the lathe.`),
    ),
    ...turning.map((c) =>
      flaw(
        'turning-off-lathe',
        `cut ${c.n}`,
        `Cut ${c.n} needs the lathe, but stands after the last holding.`,
      ),
    ),
    ...made,
  ];
}

function edgeFlaws({ outline, steps }: Scene): Problem[] {
  return outline.edges
    .filter((e) => !steps.some((s) => s.cut.makes === e.id && s.cut.kind === e.form))
    .map((e) => flaw('edge-missing', e.id, `No step makes the ${e.form} ${e.id}.`));
}
