import { type Pt, SET_IN_TURN, cross, directionAt, dot, endOfCurve } from '../../geometry';
import type { Stretch } from '../../panels';
import type { SetInCorner } from '../plan';

/** Turn from a direction to the next, degrees, -180..180; above 0 towards the side whose panel is `a`. */
const turnFrom = (before: Pt, after: Pt): number =>
  (Math.atan2(cross(before, after), dot(before, after)) * 180) / Math.PI;

interface Place {
  readonly at: Pt;
  readonly before: Pt;
  readonly after: Pt;
  readonly from: Stretch;
  readonly to: Stretch;
}

function placesAlong(stretches: readonly Stretch[], isClosed: boolean): Place[] {
  const curves = stretches.flatMap((stretch) =>
    stretch.path
      .filter((c) => c[0][0] !== endOfCurve(c)[0] || c[0][1] !== endOfCurve(c)[1])
      .map((c) => ({ c, stretch })),
  );
  return curves.flatMap(({ c, stretch }, i): Place[] => {
    const next = curves[i + 1] ?? (isClosed ? curves[0] : undefined);
    if (!next) return [];
    return [
      {
        at: endOfCurve(c),
        before: directionAt(c, 1),
        after: directionAt(next.c, 0),
        from: stretch,
        to: next.stretch,
      },
    ];
  });
}

/**
 * Corners of a seam that have to be set in: reinforced, clipped and sewn in two passes. The panel that is clipped is the one the corner points
 * into: it has the reflex angle. Where another seam ends at the corner on that side, either panel beside it opens there: the first along
 * the seam is named.
 */
export function setInCorners(stretches: readonly Stretch[], isClosed: boolean): readonly SetInCorner[] {
  return placesAlong(stretches, isClosed).flatMap(({ at, before, after, from }): SetInCorner[] => {
    const turn = turnFrom(before, after);
    if (Math.abs(turn) <= SET_IN_TURN) return [];
    return [{ at, turn: Math.abs(turn), clip: turn > 0 ? from.b : from.a }];
  });
}
