import { controlBox } from './curve';
import type { Box, Path, Polyline } from './types';

/** Box of corner points; inverted (from +∞ to −∞) for none. */
export function boxOfPoints(points: Polyline): Box {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    if (x < minX) minX = x;
    if (x > maxX) maxX = x;
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
  }
  return { minX, minY, maxX, maxY };
}

export const joinBoxes = (a: Box, b: Box): Box => ({
  minX: Math.min(a.minX, b.minX),
  minY: Math.min(a.minY, b.minY),
  maxX: Math.max(a.maxX, b.maxX),
  maxY: Math.max(a.maxY, b.maxY),
});

/** Whether two boxes share a point, borders included, or come within `reach` of it along x and along y. */
export const boxesMeet = (p: Box, q: Box, reach = 0): boolean =>
  p.minX <= q.maxX + reach &&
  q.minX <= p.maxX + reach &&
  p.minY <= q.maxY + reach &&
  q.minY <= p.maxY + reach;

/** Box of the control points of a path: contains it, may be a little larger. An empty path gives an inverted box. */
export const pathBox = (path: Path): Box => path.map(controlBox).reduce(joinBoxes, boxOfPoints([]));
