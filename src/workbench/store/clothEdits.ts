import { type Panel, isInsidePanel, leaveMark, leaveOf } from '../../panels';
import type { OffGrainMark } from '../../pattern';
import type { Edit } from './documentSlice';

/** How little and how far a panel may be given leave to be turned off its grain, degrees: less is none, more than across it is less again. */
export const LEAVE = { least: 0.1, most: 90 } as const;

/**
 * Give panels leave to lie off their grain by so many degrees to either side, or take it from them (null). A mark is pinned to each panel's
 * middle and goes with it from then on. Lining and facings have none: for those the design stays as it is.
 * @throws RangeError for an angle outside LEAVE
 */
export const giveLeave =
  (panels: readonly Panel[], degrees: number | null): Edit =>
  (design) => {
    if (degrees !== null && !(degrees >= LEAVE.least && degrees <= LEAVE.most))
      throw new RangeError(`a panel cannot lie ${degrees}° off its grain`);
    const wanted = panels.filter(
      (panel) => design.pieces.some((p) => p.id === panel.piece) && leaveOf(design, panel) !== degrees,
    );
    if (wanted.length === 0) return design;
    const lies = (mark: OffGrainMark): boolean =>
      wanted.some((panel) => panel.piece === mark.piece && isInsidePanel(panel, mark.at));
    const given = wanted.flatMap((panel) => leaveMark(panel, degrees));
    return { ...design, offGrain: [...design.offGrain.filter((mark) => !lies(mark)), ...given] };
  };

/** Least distance between pieces on every cloth, mm. */
export const changeGap =
  (gap: number): Edit =>
  (design) =>
    gap === design.cuttingOut.gap ? design : { ...design, cuttingOut: { ...design.cuttingOut, gap } };
