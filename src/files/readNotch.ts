import {
  distance,
  endOf,
  flattenPath,
  isInRing,
  JOIN_GAP,
  mix,
  nearestOnPath,
  pathLength,
  startOf,
  type Path,
  type Polyline,
  type Pt,
  type Ring,
} from '../geometry';
import type { Notch } from '../pattern';

/** Places along a notch that are tried; it is a few mm long, so they are closer than the joining gap. */
const STEPS = 24;

/** The place of a straight or bent mark that is nearest to the outline, and that place on the outline. */
function touchOf(points: Polyline, outline: Ring): { on: Pt; gap: number } {
  let best = { on: points[0]!, gap: Infinity };
  points.slice(1).forEach((b, i) => {
    for (let k = 0; k <= STEPS; k += 1) {
      const near = nearestOnPath(outline, mix(points[i]!, b, k / STEPS));
      if (near.distance < best.gap) best = { on: near.point, gap: near.distance };
    }
  });
  return best;
}

/**
 * A notch from its traced path: where it touches the outline, and its inner end. A V with both ends on the outline
 * touches in the middle between them. One that does not reach the outline keeps its traced end, so that the pattern can
 * say so.
 * @param outlinePoints the outline flattened, to tell inside from outside
 */
export function readNotch(path: Path, outline: Ring, outlinePoints: Polyline): Notch | null {
  if (path.length === 0 || pathLength(path) === 0) return null;
  const points = flattenPath(path).points;
  const [a, z] = [startOf(path), endOf(path)];
  const gap = (p: Pt): number => nearestOnPath(outline, p).distance;
  const farthest = points.reduce((best, p) => (gap(p) > gap(best) ? p : best));
  if (points.length > 2 && gap(a) <= JOIN_GAP && gap(z) <= JOIN_GAP) {
    return { at: nearestOnPath(outline, mix(a, z, 0.5)).point, inner: farthest };
  }
  const touch = touchOf(points, outline);
  if (touch.gap > JOIN_GAP) return gap(a) <= gap(z) ? { at: a, inner: z } : { at: z, inner: a };
  const inside = [a, z].filter((p) => distance(p, touch.on) > 0 && isInRing(p, outlinePoints));
  const inner = inside.sort((p, q) => distance(q, touch.on) - distance(p, touch.on))[0] ?? farthest;
  return { at: touch.on, inner };
}
