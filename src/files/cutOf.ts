import type { Garment } from '../garment';
import type { Panel } from '../panels';

/** How often a panel is cut from cloth. */
export interface CutCount {
  readonly count: number;
  /** Whether every second copy is mirrored. */
  readonly mirrored: boolean;
  readonly onFold: boolean;
}

/** All panels of a piece cut as a pair are cut twice, the second mirrored; any other panel is cut once, right side up. */
export function cutOf(garment: Garment, panel: Panel): CutCount {
  const isPair = garment.pieceById.get(panel.piece)?.whole.piece.cutting === 'pair';
  return { count: isPair ? 2 : 1, mirrored: isPair, onFold: false };
}
