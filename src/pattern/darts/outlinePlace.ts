import {
  type CurveRef,
  type Path,
  type Pt,
  crossStraight,
  distance,
  flattenRing,
  isInRing,
  mix,
  nearestOnPath,
  subtract,
  unit,
  SAME_POINT,
} from '../../geometry';
import type { DartShape, OutlinePlace } from '../design';
import type { EdgeCurve } from '../edgeCurves';
import { placeAtSewn, sewnPath } from '../sewnEdge';
import { dartRing } from './dartShape';
import { type Outline, curvesOf, placeOn } from './turnPart';

/** A place on one edge of a traced outline. */
export interface EdgeSpot {
  readonly at: Pt;
  /** EdgeCurve.edge */
  readonly edge: number;
}

/** An edge of a traced outline, in ring order. */
export interface TracedEdge {
  readonly edge: number;
  /** Names it goes by: traced, or proposed and its number. The first is said. */
  readonly names: readonly [string, ...string[]];
  readonly path: Path;
}

/** The edges of a traced outline in order. */
export function tracedEdges(curves: readonly EdgeCurve[]): TracedEdge[] {
  const numbers = [...new Set(curves.map((c) => c.edge))];
  return numbers.map((edge): TracedEdge => {
    const own = curves.filter((c) => c.edge === edge);
    const { plainName, proposed } = own[0]!;
    const names = proposed === null ? ([plainName] as const) : ([proposed, plainName] as const);
    return { edge, names: [...names], path: own.map((c) => c.curve) };
  });
}

/** Where a place lies on the traced outline; null where there is no such edge. */
export function spotOf(
  curves: readonly EdgeCurve[],
  darts: readonly DartShape[],
  { edge, nth, share }: OutlinePlace,
): EdgeSpot | null {
  const found = tracedEdges(curves).filter(({ names }) => names.includes(edge))[nth];
  if (!found) return null;
  const sewn = sewnPath(found.path, darts);
  const at = placeAtSewn(sewn, sewn.length * Math.min(1, Math.max(0, share))).point;
  return { at, edge: found.edge };
}

/** The place of a spot on an outline as it is now: the nearest on its own edge. */
export function refOf(outline: Outline<EdgeCurve>, { at, edge }: EdgeSpot): CurveRef | null {
  const own = outline.flatMap((c, index) => (c.tag.edge === edge ? [{ c, index }] : []));
  if (own.length === 0) return null;
  const near = nearestOnPath(
    own.map(({ c }) => c.curve),
    at,
  );
  return placeOn(outline, near.point, SAME_POINT);
}

/**
 * Whether a place on an outline is seen from a point inside: the straight cut between them stays in the piece and clear of darts. It may end
 * at a dart's mouth, and begin at a point that darts share.
 */
export function seesPlace<T>(
  outline: Outline<T>,
  point: Pt,
  place: Pt,
  others: readonly DartShape[],
): boolean {
  const reach = distance(point, place);
  if (reach <= SAME_POINT) return false;
  const ring = curvesOf(outline);
  const direction = unit(subtract(place, point));
  const blocks = (path: Path): boolean =>
    crossStraight(path, point, direction).some(
      (c) => c.along > SAME_POINT && c.along < reach - 5 * SAME_POINT,
    );
  const corners = flattenRing(ring);
  if (![0.02, 0.5, 0.98].every((t) => isInRing(mix(point, place, t), corners))) return false;
  return !blocks(ring) && others.every((d) => !blocks(dartRing(d)) && !isInWedge(d, mix(point, place, 0.5)));
}

const isInWedge = (dart: DartShape, p: Pt): boolean => isInRing(p, flattenRing(dartRing(dart)));
