import polylabel from 'polylabel';
import { distanceToSegment } from './vector';
import { interiorPoint } from './overlap';
import { LABEL_SPOT_PRECISION } from './tolerances';
import type { Polyline, Pt } from './types';

/** A narrower shape than this share of its length is searched by scanlines instead of cells: the cells would be too many. */
const NARROWEST_FOR_CELLS = 1 / 500;

/**
 * The roomiest place inside a flattened ring: centre of the largest circle that touches neither the ring nor a hole.
 * @param points corners of the ring, mm, at least 3
 * @param holes  corners of each hole
 * @returns centre and radius, mm; the radius is within LABEL_SPOT_PRECISION of the largest possible. A ring without area
 *          gives its first point and radius 0.
 * @throws RangeError for a ring without points
 */
export function labelSpot(points: Polyline, holes: readonly Polyline[] = []): { at: Pt; radius: number } {
  const first = points[0];
  if (!first) throw new RangeError('a ring without points has no place for a label');
  const [width, height] = extent(points);
  const narrow = Math.min(width, height);
  if (narrow > Math.max(width, height) * NARROWEST_FOR_CELLS) {
    const spot = polylabel([points, ...holes], Math.min(LABEL_SPOT_PRECISION, narrow / 50));
    if (spot.distance > 0) return { at: [spot[0], spot[1]], radius: spot.distance };
  }
  const at = interiorPoint(points, holes);
  return at ? { at, radius: clearance(at, [points, ...holes]) } : { at: first, radius: 0 };
}

function extent(points: Polyline): [number, number] {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    minX = Math.min(minX, x);
    maxX = Math.max(maxX, x);
    minY = Math.min(minY, y);
    maxY = Math.max(maxY, y);
  }
  return [maxX - minX, maxY - minY];
}

function clearance(p: Pt, rings: readonly Polyline[]): number {
  let least = Infinity;
  for (const ring of rings) {
    ring.forEach((a, i) => {
      least = Math.min(least, distanceToSegment(p, a, ring[(i + 1) % ring.length]!).distance);
    });
  }
  return least;
}
