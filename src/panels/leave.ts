import type { Design, OffGrainMark } from '../pattern';
import { isInsidePanel } from './colourPanels';
import type { Panel } from './panel';

/** How far off its grain a panel may lie, degrees to either side; null where it has no leave. The first mark inside it counts. */
export function leaveOf(
  { offGrain }: Pick<Design, 'offGrain'>,
  panel: Pick<Panel, 'piece' | 'flat'>,
): number | null {
  return offGrain.find((m) => m.piece === panel.piece && isInsidePanel(panel, m.at))?.degrees ?? null;
}

/** A mark in the middle of a panel; none without leave. */
export const leaveMark = (
  { piece, flat }: Pick<Panel, 'piece' | 'flat'>,
  degrees: number | null,
): OffGrainMark[] => (degrees === null ? [] : [{ piece, at: flat.at, degrees }]);
