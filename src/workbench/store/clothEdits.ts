import type { Panel } from '../../panels';
import type { OffGrainMark } from '../../pattern';
import { isInside } from '../drawing/find';
import type { Edit } from './documentSlice';

/**
 * Give panels leave to lie off their grain by so many degrees to either side, or take it from them.
 * @param degrees 0 < degrees ≤ 90; null takes the leave away
 */
export const giveLeave =
  (panels: readonly Panel[], degrees: number | null): Edit =>
  (design) => {
    const lies = (mark: OffGrainMark): boolean =>
      panels.some((panel) => panel.piece === mark.piece && isInside(panel.flat.points, mark.at));
    const kept = design.offGrain.filter((mark) => !lies(mark));
    const given =
      degrees === null ? [] : panels.map((p): OffGrainMark => ({ piece: p.piece, at: p.flat.at, degrees }));
    const offGrain = [...kept, ...given];
    return JSON.stringify(offGrain) === JSON.stringify(design.offGrain) ? design : { ...design, offGrain };
  };

/** Least distance between pieces on every cloth, mm. */
export const changeGap =
  (gap: number): Edit =>
  (design) =>
    gap === design.cuttingOut.gap ? design : { ...design, cuttingOut: { ...design.cuttingOut, gap } };
