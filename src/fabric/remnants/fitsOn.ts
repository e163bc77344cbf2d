import { CLOTH_ROUNDING } from '../../geometry';
import type { ClothPiece, ClothShape, LayJob } from '../layPlan';
import { FillSpace } from './fillSpace';
import { freeSpot } from './freeSpot';
import { plansOf } from './ownPlan';

/** How a panel fails to fit a piece of one's own cloth that it would have to itself. */
export interface Misfit {
  readonly cloth: ClothShape;
  /** What is missing along and across the grain, mm, in the turn in which the least is; both 0: its box fits, its outline does not. */
  readonly along: number;
  readonly across: number;
}

/** How the only piece of a space fails to fit its c-th cloth; null where it fits, judged by the exact check. */
function misfitIn(space: FillSpace, c: number): Misfit | null {
  const own = space.cloths[c]!;
  const spot = freeSpot(space, own, [], 0);
  if (
    spot &&
    plansOf(
      space,
      space.cloths.map((_, i) => (i === c ? [spot] : [])),
    )
  )
    return null;
  const missing = space.turns[0]!.map((form) => ({
    cloth: own.cloth,
    along: form.length > own.length + CLOTH_ROUNDING ? form.length - own.length : 0,
    across: form.width > own.width + CLOTH_ROUNDING ? form.width - own.width : 0,
  }));
  return missing.sort((a, b) => a.along + a.across - b.along - b.across)[0]!;
}

/** By how much a piece fails to fit a cloth that it has to itself, in any legal turn; null where it fits. */
export const misfitOf = (job: LayJob, piece: ClothPiece, cloth: ClothShape): Misfit | null =>
  misfitIn(new FillSpace({ ...job, pieces: [piece] }, [cloth]), 0);

/** Whether a piece can lie on a piece of cloth that it has to itself, in any legal turn; judged by the exact check. */
export const fitsAlone = (job: LayJob, piece: ClothPiece, cloth: ClothShape): boolean =>
  misfitOf(job, piece, cloth) === null;

/** Those of some cloths that a piece fits if it has them to itself, as fitsAlone: for many cloths at once. */
export function clothsItFits(
  job: LayJob,
  piece: ClothPiece,
  cloths: readonly ClothShape[],
): readonly ClothShape[] {
  const space = new FillSpace({ ...job, pieces: [piece] }, cloths);
  return cloths.filter((_, c) => misfitIn(space, c) === null);
}

/** The cloth that a piece least fails to fit, by its box; null where it fits one of them or there is none. */
export function nearestMisfit(job: LayJob, piece: ClothPiece, cloths: readonly ClothShape[]): Misfit | null {
  const space = new FillSpace({ ...job, pieces: [piece] }, cloths);
  let best: Misfit | null = null;
  for (let c = 0; c < cloths.length; c += 1) {
    const misfit = misfitIn(space, c);
    if (!misfit) return null;
    if (!best || misfit.along + misfit.across < best.along + best.across) best = misfit;
  }
  return best;
}
