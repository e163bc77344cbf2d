import {
  type CurveRef,
  type Path,
  type Pt,
  UNMOVED,
  cross,
  crossStraight,
  distance,
  dot,
  endOf,
  mirrorAcross,
  nearestOnPath,
  startOf,
  subtract,
  transformPath,
} from '../geometry';
import { type SewnEdge, type WholePiece, sewnEdge } from '../pattern';

/** An edge named by its plain name and which of those of that name on the whole piece. */
export interface EdgeId {
  readonly name: string;
  readonly nth: number;
}

/** Index of an edge in WholePiece.edges; null when there is none of that name. */
export function findEdge(whole: WholePiece, { name, nth }: EdgeId): number | null {
  const all = whole.edges.flatMap((e, i) => (e.plainName === name ? [i] : []));
  return all[nth] ?? null;
}

/** The plain name of an edge, and which one of that name it is. */
export function edgeId(whole: WholePiece, edge: number): EdgeId {
  const name = whole.edges[edge]!.plainName;
  return { name, nth: whole.edges.slice(0, edge).filter((e) => e.plainName === name).length };
}

/** An edge as sewn, by name; null when it is gone. */
export function edgeAsSewn(whole: WholePiece, id: EdgeId): SewnEdge | null {
  const edge = findEdge(whole, id);
  if (edge === null) return null;
  const sewn = sewnEdge(whole, edge);
  return sewn.path.length > 0 ? sewn : null;
}

/** The edge a point lies on; null when none is within `reach`, mm. At a corner it is the edge that begins or ends nearest. */
export function edgeAt(
  whole: WholePiece,
  p: Pt,
  reach: number,
): { readonly edge: number; readonly at: CurveRef & { point: Pt } } | null {
  if (whole.stitching.length === 0) return null;
  const near = nearestOnPath(whole.stitching, p);
  const edge = whole.edgeOf[near.index];
  if (near.distance > reach || edge === undefined) return null;
  return { edge, at: nearestOnPath(sewnEdge(whole, edge).path, p) };
}

/** Every place where an endless straight line meets a path; corners that lie on it count too. */
export function meetsOf(path: Path, origin: Pt, direction: Pt): readonly (CurveRef & { point: Pt })[] {
  const corners = path.flatMap((curve, index): (CurveRef & { point: Pt })[] =>
    [0, 1].flatMap((t) => {
      const point = t === 0 ? curve[0] : curve[curve.length - 1]!;
      const off = cross(direction, subtract(point, origin));
      return Math.abs(off) <= UNMOVED ? [{ index, t, point }] : [];
    }),
  );
  return [...crossStraight(path, origin, direction), ...corners];
}

/** The one of some places that lies nearest to a point; null when there is none. */
export function nearestPlace<P extends { readonly point: Pt }>(places: readonly P[], to: Pt): P | null {
  return places.reduce<P | null>(
    (best, m) => (!best || distance(m.point, to) < distance(best.point, to) ? m : best),
    null,
  );
}

/** A path, or its mirror image on an opened-out piece. */
export const onItsSide = (whole: WholePiece, path: Path, mirrored: boolean): Path =>
  mirrored && whole.foldLine ? transformPath(path, mirrorAcross(whole.foldLine)) : path;

/** Whether a path runs down rather than up along a direction, at the place where it is asked. */
export const runsAlong = (path: Path, at: CurveRef, direction: Pt): boolean => {
  const curve = path[at.index]!;
  const chord = subtract(curve[curve.length - 1]!, curve[0]);
  const slope = dot(chord, direction);
  return slope !== 0 ? slope > 0 : dot(subtract(endOf(path), startOf(path)), direction) > 0;
};
