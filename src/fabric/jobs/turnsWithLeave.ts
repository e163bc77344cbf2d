import { normalAngle } from '../placement';

/** Angles off the grain for a panel with leave: the usual ones, and those turned by `degrees` to either side. With nap only one way up. */
export function turnsWithLeave(degrees: number, nap: boolean): readonly number[] {
  const ways = nap ? [0] : [0, 180];
  const turned = ways.flatMap((way) => [way + degrees, way - degrees]);
  return [...new Set([...ways, ...turned].map(normalAngle))];
}
