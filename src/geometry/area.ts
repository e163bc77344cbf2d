import { isCubic } from './curve';
import type { Curve, Path, Polyline, Pt, Ring } from './types';
import { cross } from './vector';

/**
 * Twice the signed area swept by a curve about the origin, mm²: ∫ x dy − y dx.
 * For a cubic the integral in closed form over the control points (Green's theorem on Bernstein products;
 * derived by hand, checked against quadrature in tests).
 */
function sweep(c: Curve): number {
  if (!isCubic(c)) return cross(c[0], c[1]);
  const [p0, p1, p2, p3] = c;
  return (
    (6 * cross(p0, p1) +
      3 * cross(p0, p2) +
      cross(p0, p3) +
      3 * cross(p1, p2) +
      3 * cross(p1, p3) +
      6 * cross(p2, p3)) /
    10
  );
}

/** Move a ring's frame near the origin first: areas far from it would lose digits. */
const shifted = (c: Curve, o: Pt): Curve => c.map((p): Pt => [p[0] - o[0], p[1] - o[1]]) as unknown as Curve;

/** Area swept by a path as seen from a point, mm²: added up round a ring it is the ring's signedArea, whatever the point. */
export const sweptArea = (path: Path, from: Pt): number =>
  path.reduce((sum, c) => sum + sweep(shifted(c, from)), 0) / 2;

/** Area enclosed by a ring, from its true curves, mm². Positive for an outer ring, negative for a hole. */
export function signedArea(ring: Ring): number {
  const origin = ring[0]?.[0];
  return origin ? sweptArea(ring, origin) : 0;
}

/** Shoelace area of corner points, mm²; same sign rule as signedArea. */
export function signedAreaOfPoints(points: Polyline): number {
  const o = points[0];
  if (!o) return 0;
  let sum = 0;
  for (let i = 1; i + 1 < points.length; i += 1) {
    const [p, q] = [points[i]!, points[i + 1]!];
    sum += (p[0] - o[0]) * (q[1] - o[1]) - (p[1] - o[1]) * (q[0] - o[0]);
  }
  return sum / 2;
}

/** The ring run so that its signedArea is positive. */
export function asOuterRing(ring: Ring): Ring {
  if (signedArea(ring) >= 0) return ring;
  return [...ring].reverse().map((c): Curve => [...c].reverse() as unknown as Curve);
}

/** Centre of area of corner points, mm. Falls back to the first point for a ring without area. */
export function centroidOfPoints(points: Polyline): Pt {
  const o = points[0];
  if (!o) throw new RangeError('no points, no centroid');
  let [area, x, y] = [0, 0, 0];
  for (let i = 1; i + 1 < points.length; i += 1) {
    const [p, q] = [points[i]!, points[i + 1]!];
    const w = (p[0] - o[0]) * (q[1] - o[1]) - (p[1] - o[1]) * (q[0] - o[0]);
    area += w;
    x += w * (p[0] + q[0] - 2 * o[0]);
    y += w * (p[1] + q[1] - 2 * o[1]);
  }
  return area === 0 ? o : [o[0] + x / (3 * area), o[1] + y / (3 * area)];
}
