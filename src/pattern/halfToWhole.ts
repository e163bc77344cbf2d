import {
  type Curve,
  type Line,
  type Path,
  type Pt,
  type Ring,
  distanceToSegment,
  endOf,
  mirrorAcross,
  mix,
  nearestOnPath,
  pathLength,
  pointAtLength,
  reversePath,
  startOf,
  subPath,
  transformPath,
  withEnds,
} from '../geometry';

/** How far the middle of a path lies from the straight line a b, mm. */
function bulge(path: Path, [a, b]: Line): number {
  if (path.length === 0) return 0;
  const half = pathLength(path) / 2;
  return distanceToSegment(pointAtLength(path, half).point, a, b).distance;
}

const onLine = (p: Pt, [a, b]: Line): Pt => mix(a, b, projection(p, a, b));

function projection(p: Pt, a: Pt, b: Pt): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  return ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy);
}

/** Set the first and last point of an open path. */
export function withPathEnds(path: Path, start: Pt, end: Pt): Path {
  return path.map((c, i): Curve => {
    const a = i === 0 ? start : c[0];
    const b = i === path.length - 1 ? end : c[c.length - 1]!;
    return withEnds(c, a, b);
  });
}

/**
 * The outline of a half piece without its fold stretch, in ring order, both ends exactly on the fold.
 * @param fold two points on the outline, mm
 */
export function halfWithoutFold(outline: Ring, fold: Line): Path {
  const p = nearestOnPath(outline, fold[0]);
  const q = nearestOnPath(outline, fold[1]);
  const one = subPath(outline, p, q);
  const other = subPath(outline, q, p);
  const half = bulge(one, fold) >= bulge(other, fold) ? one : other;
  return withPathEnds(half, onLine(startOf(half), fold), onLine(endOf(half), fold));
}

/** The mirror image of the half, run so that half + image is one ring. Shares its end points with the half exactly. */
export function mirroredHalf(half: Path, fold: Line): Path {
  const image = reversePath(transformPath(half, mirrorAcross(fold)));
  return withPathEnds(image, endOf(half), startOf(half));
}
