import type { Panel } from '../panels';
import type { Garment } from './garment';

/** How a panel is cut from cloth: for report, labels and lists. */
export interface Cut {
  readonly count: number;
  /** Whether half of the copies are mirrored. */
  readonly mirrored: boolean;
  readonly onFold: boolean;
  /** `Cut 2, one mirrored`. */
  readonly text: string;
}

/**
 * A piece cut as a pair has all its panels cut twice, the second one mirrored. Any other panel is cut once, and then the
 * right side of paper and cloth must both be up, or the colours change sides on the body.
 */
export function howToCut(garment: Pick<Garment, 'pieceById'>, panel: Pick<Panel, 'piece'>): Cut {
  const isPair = garment.pieceById.get(panel.piece)?.whole.piece.cutting === 'pair';
  return isPair
    ? { count: 2, mirrored: true, onFold: false, text: 'Cut 2, one mirrored' }
    : { count: 1, mirrored: false, onFold: false, text: 'Cut 1, right side up' };
}
