import { CUTS_TOUCH, type Pt } from '../../geometry';
import type { LayJob } from '../layPlan';
import { type Laid, type LayFault, fault } from './layFault';
import { outlineOf, reachOutside } from './outlineOverlap';

/** Farthest point of an outline beyond one straight bound: how far, and where. */
function beyond({ outline }: Laid, far: (p: Pt) => number): { by: number; at: Pt } {
  let best = { by: -Infinity, at: outline.points[0]! };
  for (const at of outline.points) {
    const by = far(at);
    if (by > best.by) best = { by, at };
  }
  return best;
}

function fromTheRoll(laid: Laid, { width, margin }: LayJob): LayFault[] {
  const off = beyond(laid, ([x, y]) => Math.max(-x, -y, y - width));
  if (off.by > CUTS_TOUCH) return [fault('off-the-cloth', laid.piece, off.by, off.at)];
  const into = beyond(laid, ([, y]) => Math.max(margin - y, y - (width - margin)));
  return into.by > CUTS_TOUCH ? [fault('in-the-margin', laid.piece, into.by, into.at)] : [];
}

/**
 * What of a piece lies off the cloth: before its cut end, beyond or in the margin of a selvedge; on a piece of one's own, outside the
 * outline of its usable part (margins and gaps play no part there: that outline is drawn inside them, and its rim is not cut).
 */
export function offTheCloth(laid: Laid, job: LayJob): LayFault[] {
  if (!laid.outline.points.every(([x, y]) => Number.isFinite(x + y)))
    return [fault('off-the-cloth', laid.piece, Infinity)];
  if (!job.within) return fromTheRoll(laid, job);
  const out = reachOutside(laid.outline, outlineOf(job.within.outline));
  return out && out.depth > CUTS_TOUCH ? [fault('off-the-cloth', laid.piece, out.depth, out.at)] : [];
}
