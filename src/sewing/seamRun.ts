import type { LaidLine, SeamId, Stretch } from '../panels';
import type { Need, SetInCorner, StepKey } from './plan';

/**
 * Seams of one piece that are sewn in one go, before their place in the garment's order is known. `stretches` run from end to end, `a`
 * and `b` on the same sides throughout.
 */
export interface SeamRun {
  readonly key: StepKey;
  readonly kind: 'seam' | 'partial seam';
  readonly lines: readonly LaidLine[];
  /** Drawing order of its earliest line. */
  readonly order: number;
  readonly stretches: readonly Stretch[];
  readonly seams: readonly SeamId[];
  readonly isClosed: boolean;
  /** Corners along it that have to be set in. */
  readonly corners: readonly SetInCorner[];
  /** The junction at which a seam that is begun here is left open; null where none is. */
  readonly openAt: number | null;
  /** Where a seam left open earlier is finished: the run that began it. */
  readonly finishes: StepKey | null;
  /** Other runs of the piece that must be sewn before it. `is crossed` is a choice that a wish can turn round; all else is not. */
  readonly needs: readonly Need[];
}
