import type { ClothPiece, ClothShape, LayJob } from '../layPlan';
import { FillSpace, ROUNDING } from './fillSpace';
import { freeSpot } from './freeSpot';
import { jobFor, plansOf } from './ownPlan';

/** How a panel fails to fit a piece of one's own cloth that it would have to itself. */
export interface Misfit {
  readonly cloth: ClothShape;
  /** What is missing along and across the grain, mm, in the turn in which the least is; both 0: its box fits, its outline does not. */
  readonly along: number;
  readonly across: number;
}

/** Whether a piece can lie on a piece of cloth that it has to itself, in any legal turn; judged by the exact check. */
export function fitsAlone(job: LayJob, piece: ClothPiece, cloth: ClothShape): boolean {
  const own = jobFor({ ...job, pieces: [piece] }, [0]);
  const space = new FillSpace(own, [cloth]);
  const spot = freeSpot(space, space.cloths[0]!, [], 0);
  return spot !== null && plansOf(space, [[spot]]) !== null;
}

/** By how much a piece fails to fit a cloth; null where it fits. */
export function misfitOf(job: LayJob, piece: ClothPiece, cloth: ClothShape): Misfit | null {
  if (fitsAlone(job, piece, cloth)) return null;
  const space = new FillSpace({ ...job, pieces: [piece] }, [cloth]);
  const { length, width } = space.cloths[0]!;
  const missing = space.turns[0]!.map((form) => ({
    cloth,
    along: form.length > length + ROUNDING ? form.length - length : 0,
    across: form.width > width + ROUNDING ? form.width - width : 0,
  }));
  return missing.sort((a, b) => a.along + a.across - b.along - b.across)[0]!;
}

/** The cloth that a piece least fails to fit, by its box; null where it fits one of them or there is none. */
export function nearestMisfit(job: LayJob, piece: ClothPiece, cloths: readonly ClothShape[]): Misfit | null {
  let best: Misfit | null = null;
  for (const cloth of cloths) {
    const misfit = misfitOf(job, piece, cloth);
    if (!misfit) return null;
    if (!best || misfit.along + misfit.across < best.along + best.across) best = misfit;
  }
  return best;
}
