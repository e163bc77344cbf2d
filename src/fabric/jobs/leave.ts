import { type Panel, isInsidePanel } from '../../panels';
import type { Design } from '../../pattern';
import { normalAngle } from '../placement';

/** How far off its grain a panel may lie, degrees to either side; null where it has no leave. The first mark inside it counts. */
export function leaveOf({ offGrain }: Pick<Design, 'offGrain'>, panel: Panel): number | null {
  return offGrain.find((m) => m.piece === panel.piece && isInsidePanel(panel, m.at))?.degrees ?? null;
}

/** Angles off the grain for a panel with leave: the usual ones, and those turned by `degrees` to either side. With nap only one way up. */
export function turnsWithLeave(degrees: number, nap: boolean): readonly number[] {
  const ways = nap ? [0] : [0, 180];
  const turned = ways.flatMap((way) => [way + degrees, way - degrees]);
  return [...new Set([...ways, ...turned].map(normalAngle))];
}
