import { laidPieces, type LayJob, type LayPlan } from '../../fabric';
import { AS_LONG_AS } from '../../geometry';

/**
 * Number of a panel that alone is as long as the plan, so that no plan can be shorter; null where there is none. Panels that may lie off
 * their grain might be laid shorter, and on a repeat a piece seldom begins where the cloth does.
 */
export function asLongAs(job: LayJob, plan: LayPlan): number | null {
  const found = laidPieces(job.pieces, plan).find(({ piece, outline }) => {
    if (piece.turns) return false;
    const along = outline.map(([x]) => x);
    return Math.max(...along) - Math.min(...along) > plan.length - AS_LONG_AS;
  });
  return found?.number ?? null;
}
