import { CORNER_TURN, type Pt, cross, directionAt, dot } from '../geometry';
import type { Panel } from '../panels';

/** Corners of the stitching line that point into the panel: the allowance must be clipped there to lie flat. */
export function innerCorners({ ring, holeRings }: Pick<Panel, 'ring' | 'holeRings'>): readonly Pt[] {
  return [ring, ...holeRings].flatMap((r) =>
    r.flatMap((curve, i): Pt[] => {
      const [into, outOf] = [directionAt(r.at(i - 1)!, 1), directionAt(curve, 0)];
      // Material lies on the side of perpendicular(direction); turning away from it makes an inner corner.
      const turn = Math.atan2(cross(into, outOf), dot(into, outOf));
      return turn < -CORNER_TURN ? [curve[0]] : [];
    }),
  );
}
