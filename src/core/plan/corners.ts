import type { Corner } from './frame.ts';
import type { HoldingDraft } from './holding-draft.ts';
import { touch } from './outside-job.ts';
import { bladeFor, chamferTool, turnTool } from './tool-choice.ts';
import type { ResolvedTool } from '../part/resolved.ts';
import { list, size } from './words.ts';

/**
 * Undercuts, fillets and chamfers of the lands that are done, undercuts first.
 *
 * @returns Why one cannot be done, or null.
 */
export function cutCorners(draft: HoldingDraft, corners: readonly Corner[]): string | null {
  const order = { undercut: 0, fillet: 1, chamfer: 2 };
  for (const corner of [...corners].sort((a, b) => order[a.edge.form] - order[b.edge.form])) {
    const why = cutCorner(draft, corner);
    if (why) return why;
  }
  return null;
}

function cutCorner(draft: HoldingDraft, corner: Corner): string | null {
  const tool = toolFor(draft, corner);
  if (typeof tool === 'string') return tool;
  const { edge } = corner;
  if (edge.form === 'chamfer' && tool.kind === 'turn') draft.unset(tool);
  touch({ draft }, tool);
  const land = draft.work.lands[corner.land];
  const face = corner.atTail ? corner.u0 : corner.u1;
  const station = edge.face;
  const wide = tool.kind === 'blade';
  const readings = wide
    ? [draft.bladeZ(face, corner.atTail ? 'right' : 'left', station, tool)]
    : [draft.z(face, station)];
  if (edge.form !== 'fillet')
    readings.unshift(draft.x(edge.form === 'chamfer' ? Math.min(corner.d0, corner.d1) : corner.d0));
  const { speed } = draft.bench.material;
  const angled = edge.form === 'chamfer';
  draft.add({
    kind: edge.form,
    u0: corner.u0,
    u1: corner.u1,
    d0: corner.d0,
    d1: corner.d1,
    segment: land?.id ?? null,
    makes: edge.id,
    tool,
    surface: wide ? speed.part.low : speed.rough.low,
    readings,
    setting:
      angled && tool.kind === 'turn'
        ? { compound_deg: edge.angleDeg }
        : angled
          ? { angle_deg: edge.angleDeg }
          : null,
    say: sentence(draft, corner, tool, list(readings)),
  });
  // A swung compound is set back, and the tool with it.
  if (angled && tool.kind === 'turn') draft.unset(tool);
  return null;
}

function sentence(draft: HoldingDraft, corner: Corner, tool: ResolvedTool, at: string): string {
  const width = size(corner.u1 - corner.u0, draft.bench.lathe);
  switch (corner.edge.form) {
    case 'chamfer':
      return tool.kind === 'turn'
        ? `Swing the compound to ${corner.edge.angleDeg}° from the lathe axis, lock the carriage and feed the compound: chamfer ${width} long, ${at}. Set the compound back.`
        : `Chamfer ${width} at ${corner.edge.angleDeg}°: ${at}.`;
    case 'fillet':
      return tool.kind === 'form'
        ? `Fillet, radius ${width}, into the corner: ${at}. Bring the form in slowly; it makes the shoulder too.`
        : `Fillet, radius ${width}, into the corner: ${at}. Step it off with both slides, blend with a tool ground to the radius, and try a radius gauge in it; it makes the shoulder too.`;
    default:
      return `Undercut ${width} wide in the corner: ${at}.`;
  }
}

function toolFor(draft: HoldingDraft, corner: Corner): ResolvedTool | string {
  const { lathe } = draft.bench;
  const { edge } = corner;
  const right = turnTool(lathe, 'right');
  const left = turnTool(lathe, 'left');
  if (edge.form === 'chamfer')
    return (
      chamferTool(lathe, edge.angleDeg) ??
      (corner.atTail ? right : left) ??
      'no tool for a chamfer of that angle'
    );
  const form = lathe.tools.find((t) => t.kind === 'form' && t.nose <= corner.u1 - corner.u0);
  if (edge.form === 'fillet')
    // A fillet at the tailstock end of its land stands under a shoulder that looks to the headstock.
    return form ?? (corner.atTail ? left : right) ?? 'no tool for the fillet';
  const depth = draft.bench.bar / 2 - corner.d0 / 2;
  return (
    bladeFor(lathe, corner.u1 - corner.u0, Math.min(depth, 3e9)) ??
    form ??
    `no blade narrow enough for the undercut, ${size(corner.u1 - corner.u0, lathe)} wide`
  );
}
