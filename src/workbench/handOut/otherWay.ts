import type { LayJob } from '../../fabric';

/** The same pieces in the other layering; null where no piece would be cut otherwise. */
export function otherWay(job: LayJob): LayJob | null {
  if (!job.pieces.some((piece) => piece.middle || piece.flipped)) return null;
  return { ...job, layering: job.layering === 'single' ? 'folded' : 'single' };
}
