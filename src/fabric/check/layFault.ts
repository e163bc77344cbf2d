import type { Pt } from '../../geometry';
import type { PanelId } from '../../panels';
import type { ClothPiece, Placement } from '../layPlan';
import type { Outline } from './outlineOverlap';

/** What is wrong with a lay: which piece, where on the cloth, by how much (mm, degrees for turns). */
export interface LayFault {
  readonly kind:
    | 'overlap'
    | 'too-close'
    | 'off-the-cloth'
    | 'in-the-margin'
    | 'wrong-turn'
    | 'wrong-side-up'
    | 'off-the-repeat'
    /** A pair on folded cloth whose copies are not each other's mirror image about the fold. */
    | 'not-mirrored'
    | 'across-the-fold'
    /** What is cut from one layer alone, while the place under it in the other is not empty. */
    | 'other-layer-taken'
    | 'missing'
    | 'unknown-piece'
    | 'laid-twice';
  readonly panel: PanelId;
  readonly copy: number;
  /** The other piece where the fault is between two. */
  readonly other: { readonly panel: PanelId; readonly copy: number } | null;
  readonly by: number;
  readonly at: Pt;
}

/** A piece where it lies on the cloth, opened out. */
export interface Laid {
  readonly piece: ClothPiece;
  readonly placement: Placement;
  readonly outline: Outline;
}

/** A fault of a piece, with all that is to be told of it. */
export const fault = (
  kind: LayFault['kind'],
  { panel, copy }: { readonly panel: PanelId; readonly copy: number },
  by = 0,
  at: Pt = [0, 0],
  other: Laid | null = null,
): LayFault => ({
  kind,
  panel,
  copy,
  by,
  at,
  other: other && { panel: other.piece.panel, copy: other.piece.copy },
});
